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
	c.walk(at, &Field{in: Of(v.Type())}, v)
}

func (c *Collector) walk(at *Path, f *Field, v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		c.walkText(at, f, v)
	case reflect.Pointer:
		if !v.IsNil() {
			c.walk(at, f, v.Elem())
		}
	case reflect.Slice:
		c.walkList(at, f, v)
	case reflect.Map:
		for _, name := range SortedNames(v) {
			c.Text(at.Field(name), name)
			c.walk(at.Field(name), f, v.MapIndex(reflect.ValueOf(name))) // a list, whose entries can be set
		}
	case reflect.Struct:
		if f.leaf {
			c.walkLeaf(at, f, v)
		} else {
			c.walkStruct(at, f.in, v)
		}
	default:
		c.walkLeaf(at, f, v)
	}
}

func (c *Collector) walkList(at *Path, f *Field, v reflect.Value) {
	n := v.Len()
	if f.Some && n == 0 && !v.IsNil() {
		c.Empty(at)
	}
	if f.Most > 0 && n > f.Most {
		defer c.TooMany(at, n, f.Most) // behind the faults of its entries
		n = f.Most
		v.SetLen(n)
	}
	for i := range n {
		if c.Full {
			return
		}
		c.walk(at.At(i), f, v.Index(i))
	}
}

func (c *Collector) walkText(at *Path, f *Field, v reflect.Value) {
	if v.Len() == 0 {
		return
	}
	if !f.word {
		c.Text(at, v.String())
		return
	}
	word := reflect.New(v.Type()).Interface().(encoding.TextUnmarshaler)
	if err := word.UnmarshalText([]byte(v.String())); err != nil {
		c.AddAll(at, err)
		v.SetZero()
		return
	}
	v.SetString(reflect.ValueOf(word).Elem().String()) // sheets are sheet
}

// walkLeaf checks a number, a size, a date, a word that is a number in Go.
func (c *Collector) walkLeaf(at *Path, f *Field, v reflect.Value) {
	if v.Kind() != reflect.Struct && v.IsZero() {
		return
	}
	if err := unreadable(v); err != nil && !(c.computed && manyDigits(err)) {
		c.AddAll(at, err)
		v.SetZero()
		return
	}
	if to := pointer(v); !f.fits(to) {
		c.Value(at, f, to)
	}
}

func (c *Collector) walkStruct(at *Path, s *Struct, v reflect.Value) {
	given := make([]bool, 0, 32) // before what cannot be read becomes zero
	for i := range s.Fields {
		f := &s.Fields[i]
		given = append(given, isGiven(f, f.value(v)))
	}
	for i := range s.Fields {
		if f := &s.Fields[i]; given[i] {
			c.walk(at.Field(f.Name), f, f.value(v))
		}
	}
	if s.Kind >= 0 {
		c.walkKind(at, s.KindName, v.Field(s.Kind))
	}
	c.Needed(at, s.Fields, func(name string) bool {
		i := s.find([]byte(name), 0)
		return i >= 0 && given[i]
	})
}

func (c *Collector) walkKind(at *Path, name string, kind reflect.Value) {
	switch {
	case kind.IsNil():
		c.Add(at.Field(name), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of " + name})
	case kind.Elem().Kind() == reflect.Pointer:
		of := kind.Elem().Type().Elem().String()
		c.Fault(at.Field(name), quoin.WrongType, "a pointer to "+of, "the kind of "+name+" itself", "write "+of+"{…} without &")
	case kind.Elem().Kind() == reflect.Struct:
		in := addressable(kind.Elem())
		c.walkStruct(at, Of(in.Type()), in)
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
