package form

import (
	"math/big"
	"reflect"
	"slices"

	"example.com/quoin"
)

// Check returns all that is wrong with a value made in Go, as reading it from JSON would
// find: words that are none, numbers out of their ranges, too many entries, fields that
// have to be given.
func Check(v any) *Collector {
	var c Collector
	in := reflect.New(reflect.TypeOf(v)).Elem()
	in.Set(reflect.ValueOf(v))
	c.Walk(nil, in)
	return &c
}

// Walk checks a value made in Go, which stands at a path. A zero value is one that was not
// given. The value is not changed.
func (c *Collector) Walk(at *Path, v reflect.Value) { c.walk(at, &Field{}, v) }

func (c *Collector) walk(at *Path, f *Field, v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		c.walkText(at, f, v)
	case reflect.Pointer:
		if !v.IsNil() {
			c.walk(at, f, v.Elem())
		}
	case reflect.Slice:
		if f.Most > 0 && v.Len() > f.Most {
			c.TooMany(at, v.Len(), f.Most)
		}
		for i := range min(v.Len(), mostOf(f)) {
			if c.Full {
				return
			}
			c.walk(at.At(i), f, v.Index(i))
		}
	case reflect.Map:
		for _, name := range sortedNames(v) {
			c.Text(at.Field(name), name)
			c.walk(at.Field(name), f, v.MapIndex(reflect.ValueOf(name)))
		}
	case reflect.Struct:
		if f.leaf {
			c.walkLeaf(at, f, v)
		} else {
			c.walkStruct(at, v)
		}
	default:
		c.walkLeaf(at, f, v)
	}
}

// mostOf is how many entries of a list are looked at.
func mostOf(f *Field) int {
	if f.Most > 0 {
		return f.Most
	}
	return int(^uint(0) >> 1)
}

func (c *Collector) walkText(at *Path, f *Field, v reflect.Value) {
	if v.Len() == 0 {
		return
	}
	if f.word {
		c.AddAll(at, reread(v))
		return
	}
	c.Text(at, v.String())
}

// walkLeaf checks a number, a size, a date, a word that is a number in Go.
func (c *Collector) walkLeaf(at *Path, f *Field, v reflect.Value) {
	if v.IsZero() {
		return
	}
	if err := unreadable(v); err != nil {
		c.AddAll(at, err)
		return
	}
	c.Value(at, *f, v)
}

func (c *Collector) walkStruct(at *Path, v reflect.Value) {
	s := Of(v.Type())
	c.Needed(at, s.Fields, func(name string) bool {
		i := slices.IndexFunc(s.Fields, func(f Field) bool { return f.Name == name })
		return i >= 0 && isGiven(&s.Fields[i], v.Field(s.Fields[i].Index))
	})
	for i := range s.Fields {
		f := &s.Fields[i]
		if of := v.Field(f.Index); isGiven(f, of) {
			c.walk(at.Field(f.Name), f, of)
		}
	}
	if s.Kind >= 0 {
		c.walkKind(at, s.KindName, v.Field(s.Kind))
	}
}

func (c *Collector) walkKind(at *Path, name string, kind reflect.Value) {
	switch {
	case kind.IsNil():
		c.Add(at.Field(name), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: "the kind of " + name})
	case kind.Elem().Kind() == reflect.Pointer:
		of := kind.Elem().Type().Elem().String()
		c.Add(at.Field(name), quoin.Problem{
			Code: quoin.WrongType, Found: "a pointer to " + of, Wanted: "the kind of " + name + " itself", Remedy: "write " + of + "{…} without &",
		})
	case kind.Elem().Kind() == reflect.Struct:
		in := reflect.New(kind.Elem().Type()).Elem()
		in.Set(kind.Elem())
		c.walkStruct(at, in)
	}
}

func sortedNames(m reflect.Value) []string {
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

// SortedNames returns the names of an object, sorted.
func SortedNames(m reflect.Value) []string { return sortedNames(m) }

// isGiven reports whether a field was given. Numbers say so themselves, a whole number
// where its field does not take 0; any other zero value is one that was not.
func isGiven(f *Field, v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Int64:
		return !v.IsZero() || f.Need && f.span.holds(new(big.Rat))
	case reflect.Map:
		return v.Len() > 0
	}
	return !v.IsZero()
}
