package pricelist

import (
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/waste"
)

// certain returns a copy of the document without ranges, each value that has
// one taken from the end that choose names; empty keeps the value.
func (d Document) certain(choose func(form.Unsure) string) Document {
	out := reflect.New(reflect.TypeOf(d)).Elem()
	out.Set(deepCopy(reflect.ValueOf(d)))
	for _, u := range form.Unsures(nil, out) {
		if end := choose(u); end != "" {
			u.Value.Set(u.End(end))
		}
		u.Ends.SetZero()
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
func (d Document) cheapest() Document { return d.certain(form.Unsure.Cheap) }
func (d Document) dearest() Document {
	return d.certain(func(u form.Unsure) string { return u.Dear })
}

// only is the document with one of its ranges at an end, and the rest likely.
func (d Document) only(at, end string) Document {
	return d.certain(func(u form.Unsure) string {
		if u.At.String() == at {
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
	for _, u := range form.Unsures((*path)(nil).Field("stages"), reflect.ValueOf(k.doc.Stages)) {
		if u.At.Up().Index() < gives {
			continue
		}
		k.Add(u.At.Range(), quoin.Problem{
			Code: RangeWithRecovery, Found: "a range at or after a stage that gives something back",
			Wanted: "one " + u.Field.Name, Remedy: "price two documents, one with each end",
		})
	}
}
