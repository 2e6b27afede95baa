package pricelist

import (
	"math/big"
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// unsure is a value of a document that is given with a range beside it.
type unsure struct {
	at    *path
	field field
	value reflect.Value
	ends  reflect.Value // the quoin.Range
	dear  string        // the end at which goods cost more, low or high
}

// unsures returns all of them, in the order they stand in. The values can be
// set where doc is a pointer.
func unsures(at *path, v reflect.Value) []unsure {
	if !ranged(v) {
		return nil
	}
	var out []unsure
	switch v.Kind() {
	case reflect.Pointer:
		return unsures(at, v.Elem()) // what points to nothing has no range
	case reflect.Struct:
		var last field
		for _, f := range schema(v.Type()) {
			if f.dear != "" && given(v.Field(f.index)) {
				out = append(out, unsure{at.field(last.name), last, v.Field(last.index), v.Field(f.index), f.dear})
			}
			if f.dear == "" && f.ranged {
				out = append(out, unsures(at.field(f.name), v.Field(f.index))...)
			}
			last = f
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = append(out, unsures(at.at(i), v.Index(i))...)
		}
	case reflect.Map:
		for _, name := range sortedNames(v) {
			out = append(out, unsures(at.field(name), v.MapIndex(reflect.ValueOf(name)))...)
		}
	}
	return out
}

// ranged reports whether some value has a range, without going to the length of
// writing down where.
func ranged(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Pointer:
		return !v.IsNil() && ranged(v.Elem())
	case reflect.Struct:
		for _, f := range schema(v.Type()) {
			if f.ranged && (f.dear != "" && given(v.Field(f.index)) || f.dear == "" && ranged(v.Field(f.index))) {
				return true
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if ranged(v.Index(i)) {
				return true
			}
		}
	case reflect.Map:
		for it := v.MapRange(); it.Next(); {
			if ranged(it.Value()) {
				return true
			}
		}
	}
	return false
}

// given reports whether a range was given.
func given(v reflect.Value) bool {
	if leftOut(v.Field(0), nil) && leftOut(v.Field(1), nil) {
		return false
	}
	return !pointer(v).(interface{ IsZero() bool }).IsZero()
}

// end returns one end of the range, low or high.
func (u unsure) end(name string) reflect.Value {
	if name == "low" {
		return u.ends.Field(0)
	}
	return u.ends.Field(1)
}

// cheap is the end at which goods cost less.
func (u unsure) cheap() string {
	if u.dear == "low" {
		return "high"
	}
	return "low"
}

// ranges checks that each value lies in its range, whose ends are values that
// it could have.
func (k checker) ranges(inputs []unsure) {
	for _, u := range inputs {
		for _, end := range []string{"low", "high"} {
			k.value(rangeAt(u.at).field(end), u.field, u.end(end))
		}
		if k.under(rangeAt(u.at)) || k.under(u.at) {
			continue
		}
		if !rises(u.end("low"), u.value) || !rises(u.value, u.end("high")) {
			k.add(rangeAt(u.at), quoin.Problem{
				Code: RangeOrder, Found: shown(u.end("low").Interface()) + " to " + shown(u.end("high").Interface()) + " around " + shown(u.value.Interface()),
				Wanted: "a range that holds " + u.field.name + ", from low to high",
			})
		}
	}
}

func rangeAt(at *path) *path { return &path{up: at.up, name: at.name + "_range"} }

// rises reports whether a is at most b; false where they cannot be compared.
func rises(a, b reflect.Value) bool {
	if q, ok := a.Interface().(quoin.Quantity); ok {
		c, err := q.Cmp(b.Interface().(quoin.Quantity))
		return err == nil && c <= 0
	}
	x, y := orZero(a), orZero(b)
	return x.Cmp(y) <= 0
}

func orZero(v reflect.Value) *big.Rat {
	if x, ok := number(v.Interface()); ok {
		return x
	}
	return new(big.Rat)
}

// certain returns a copy of the document without ranges, each value that has
// one taken from the end that choose names; empty keeps the value.
func (d Document) certain(choose func(unsure) string) Document {
	out := reflect.New(reflect.TypeOf(d)).Elem()
	out.Set(deepCopy(reflect.ValueOf(d)))
	for _, u := range unsures(nil, out) {
		if end := choose(u); end != "" {
			u.value.Set(u.end(end))
		}
		u.ends.SetZero()
	}
	return out.Interface().(Document)
}

// deepCopy returns a copy that shares no list, map or object with the original,
// so that what is set in the one leaves the other as it is.
func deepCopy(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	make(owner).own(out)
	return out
}

// owner remembers which types refer to something.
type owner map[reflect.Type]bool

// own gives a value its own copy of all that it refers to.
func (o owner) own(v reflect.Value) {
	if !o.refers(v.Type()) {
		return
	}
	switch {
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				o.own(v.Field(i))
			}
		}
	case v.IsZero() || v.Kind() == reflect.Interface: // kinds of rules are never set
	case v.Kind() == reflect.Pointer:
		to := reflect.New(v.Type().Elem())
		to.Elem().Set(v.Elem())
		o.own(to.Elem())
		v.Set(to)
	case v.Kind() == reflect.Slice:
		list := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(list, v)
		for i := range v.Len() {
			o.own(list.Index(i))
		}
		v.Set(list)
	case v.Kind() == reflect.Map:
		named := reflect.MakeMapWithSize(v.Type(), v.Len())
		for _, name := range v.MapKeys() {
			named.SetMapIndex(name, deepCopy(v.MapIndex(name)))
		}
		v.Set(named)
	}
}

// refers reports whether values of a type hold lists, maps or objects that
// would be shared by a plain copy.
func (o owner) refers(t reflect.Type) bool {
	known, ok := o[t]
	if ok {
		return known
	}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Interface:
		known = true
	case reflect.Struct:
		for i := range t.NumField() {
			known = known || t.Field(i).IsExported() && o.refers(t.Field(i).Type)
		}
	}
	o[t] = known
	return known
}

// cheapest and dearest are the document with every value that has a range at
// the end at which goods cost less, or more.
func (d Document) cheapest() Document { return d.certain(unsure.cheap) }
func (d Document) dearest() Document {
	return d.certain(func(u unsure) string { return u.dear })
}

// only is the document with one of its ranges at an end, and the rest likely.
func (d Document) only(at, end string) Document {
	return d.certain(func(u unsure) string {
		if u.at.String() == at {
			return end
		}
		return ""
	})
}

// yields checks that what is lost at a stage has a range only where neither it
// nor a stage before it gives anything back: with a recovery, more spoiled
// pieces may cost less.
func (k checker) yields() {
	gives := slices.IndexFunc(k.doc.Stages, func(s waste.Stage) bool { return !s.Recovers().IsZero() })
	if gives < 0 {
		return
	}
	for _, u := range unsures((*path)(nil).field("stages"), reflect.ValueOf(k.doc.Stages)) {
		if u.at.up.index < gives {
			continue
		}
		k.add(rangeAt(u.at), quoin.Problem{
			Code: RangeWithRecovery, Found: "a range at or after a stage that gives something back",
			Wanted: "one " + u.field.name, Remedy: "price two documents, one with each end",
		})
	}
}
