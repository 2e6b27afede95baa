package form

import (
	"encoding"
	"reflect"
	"slices"

	"example.com/quoin"
)

// Check returns all that is wrong with a value made in Go, as reading it from JSON would
// find: words that are none, numbers out of their ranges, too many entries, fields that
// have to be given, ranges that do not hold their value.
func Check(v any) *Collector { return check(v, new(Collector)) }

// CheckRecord is Check for a record.
func CheckRecord(v any) *Collector { return check(v, &Collector{Records: true}) }

// Computed is Check for a value whose numbers are not written down but worked out: they may
// have any number of digits.
func Computed(v any) *Collector { return check(v, &Collector{computed: true}) }

func check(v any, c *Collector) *Collector {
	in := addressable(reflect.ValueOf(v))
	own(in)
	c.Walk(nil, in)
	c.Ranges(Unsures(nil, in))
	return c
}

// Walk checks a value made in Go, which stands at a path. A zero value is one that was not
// given. What could not be read where it were written becomes zero, as reading leaves it, so
// the value is the caller's own and can be set.
func (c *Collector) Walk(at *Path, v reflect.Value) {
	w := walker{Collector: c, route: route{root: at, at: make([]place, 0, 16)}}
	w.walk(&Field{in: Of(v.Type())}, v)
}

// walker goes through a value.
type walker struct {
	*Collector
	route
}

func (w *walker) walk(f *Field, v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		w.text(f, v)
	case reflect.Pointer:
		if !v.IsNil() {
			w.walk(f, v.Elem())
		}
	case reflect.Slice:
		w.list(f, v)
	case reflect.Map:
		for _, name := range SortedNames(v) {
			w.enter(name, 0)
			if !w.readable(name) {
				w.Text(w.path(), name)
			}
			w.walk(f, v.MapIndex(reflect.ValueOf(name))) // a list, whose entries can be set
			w.leave()
		}
	case reflect.Struct:
		if f.leaf {
			w.leaf(f, v)
		} else {
			w.object(f.in, v)
		}
	default:
		w.leaf(f, v)
	}
}

func (w *walker) list(f *Field, v reflect.Value) {
	n := v.Len()
	if f.Some && n == 0 && !v.IsNil() {
		w.Empty(w.path())
	}
	if f.Most > 0 && n > f.Most {
		defer w.TooMany(w.path(), n, f.Most) // behind the faults of its entries
		n = f.Most
		v.SetLen(n)
	}
	for i := range n {
		if w.Full {
			return
		}
		w.enter("", i)
		w.walk(f, v.Index(i))
		w.leave()
	}
}

func (w *walker) text(f *Field, v reflect.Value) {
	if v.Len() == 0 {
		return
	}
	if !f.word {
		if !w.readable(v.String()) {
			w.Text(w.path(), v.String())
		}
		return
	}
	word := reflect.New(v.Type()).Interface().(encoding.TextUnmarshaler)
	if err := word.UnmarshalText([]byte(v.String())); err != nil {
		w.AddAll(w.path(), err)
		v.SetZero()
		return
	}
	v.SetString(reflect.ValueOf(word).Elem().String()) // sheets are sheet
}

// leaf checks a number, a size, a date, a word that is a number in Go.
func (w *walker) leaf(f *Field, v reflect.Value) {
	if v.Kind() != reflect.Struct && v.IsZero() {
		return
	}
	if err := unreadable(v); err != nil && !(w.computed && manyDigits(err)) {
		w.AddAll(w.path(), err)
		v.SetZero()
		return
	}
	if to := pointer(v); !f.fits(to) {
		w.Value(w.path(), f, to)
	}
}

func (w *walker) object(s *Struct, v reflect.Value) {
	var given fields // before what cannot be read becomes zero
	for i := range s.Fields {
		if f := &s.Fields[i]; isGiven(f, f.value(v)) {
			given.add(i)
		}
	}
	for i := range s.Fields {
		if f := &s.Fields[i]; given.has(i) {
			w.Ranged = w.Ranged || f.Dear != ""
			w.enter(f.Name, 0)
			w.walk(f, f.value(v))
			w.leave()
		}
	}
	if s.Kind >= 0 {
		w.enter(s.KindName, 0)
		w.kind(s.KindName, v.Field(s.Kind))
		w.leave()
	}
	if !s.complete(&given) {
		w.Needed(w.path(), s.Fields, func(name string) bool {
			i := s.find([]byte(name), 0)
			return i >= 0 && given.has(i)
		})
	}
}

// kind goes through what an object is by its kind, whose fields are the object's.
func (w *walker) kind(name string, kind reflect.Value) {
	switch {
	case kind.IsNil():
		w.Add(w.path(), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of " + name})
	case kind.Elem().Kind() == reflect.Pointer:
		of := kind.Elem().Type().Elem().String()
		w.Fault(w.path(), quoin.WrongType, "a pointer to "+of, "the kind of "+name+" itself", "write "+of+"{…} without &")
	case kind.Elem().Kind() == reflect.Struct:
		in := addressable(kind.Elem())
		w.leave()
		w.object(Of(in.Type()), in)
		w.enter(name, 0)
		kind.Set(in)
	}
}

// SortedNames returns the names of an object, sorted.
func SortedNames(m reflect.Value) []string {
	if m.Len() == 0 {
		return nil
	}
	names := make([]string, 0, m.Len())
	for _, k := range m.MapKeys() {
		names = append(names, k.String())
	}
	slices.Sort(names)
	return names
}

// isGiven reports whether a field was given. Numbers say so themselves, but for whole ones;
// any other zero value is one that was not.
func isGiven(f *Field, v reflect.Value) bool {
	if v.Kind() == reflect.Map {
		return v.Len() > 0
	}
	return !leftOut(f, v)
}

// leftOut reports whether v is the zero value of its type, as v.IsZero does, which goes
// through a number bit by bit and through structs of them by copies.
func leftOut(f *Field, v reflect.Value) bool {
	if v.Kind() != reflect.Struct || !v.CanAddr() {
		return v.IsZero()
	}
	if !f.leaf {
		return nothingIn(f.in, v)
	}
	switch x := v.Addr().Interface().(type) {
	case interface{ IsGiven() bool }:
		return !x.IsGiven()
	case interface{ IsZero() bool }:
		return x.IsZero()
	}
	return v.IsZero()
}

// nothingIn reports whether all fields of an object were left out.
func nothingIn(s *Struct, v reflect.Value) bool {
	for i := range s.Fields {
		if f := &s.Fields[i]; !leftOut(f, f.value(v)) {
			return false
		}
	}
	return s.Kind < 0 || v.Field(s.Kind).IsNil()
}
