package form

import (
	"reflect"

	"example.com/quoin"
)

// Unsure is a value that is given with a range beside it.
type Unsure struct {
	At    *Path
	Field Field
	Value reflect.Value
	Ends  reflect.Value // the quoin.Range
	Dear  string        // the end at which goods cost more, low or high
}

// Unsures returns all of them that stand in a value, which stands at a path, in their
// order. They can be set where the value can.
func Unsures(at *Path, v reflect.Value) []Unsure {
	if !ranged(v) {
		return nil
	}
	var out []Unsure
	switch v.Kind() {
	case reflect.Pointer:
		return Unsures(at, v.Elem()) // what points to nothing has no range
	case reflect.Struct:
		var last Field
		for _, f := range Of(v.Type()).Fields {
			if f.Dear != "" && rangeGiven(f.value(v)) {
				out = append(out, Unsure{at.Field(last.Name), last, last.value(v), f.value(v), f.Dear})
			}
			if f.Dear == "" && f.Ranged {
				out = append(out, Unsures(at.Field(f.Name), f.value(v))...)
			}
			last = f
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = append(out, Unsures(at.At(i), v.Index(i))...)
		}
	case reflect.Map:
		for _, name := range SortedNames(v) {
			out = append(out, Unsures(at.Field(name), v.MapIndex(reflect.ValueOf(name)))...)
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
		for _, f := range Of(v.Type()).Fields {
			if f.Ranged && (f.Dear != "" && rangeGiven(f.value(v)) || f.Dear == "" && ranged(f.value(v))) {
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

func rangeGiven(v reflect.Value) bool {
	return !pointer(v).(interface{ IsZero() bool }).IsZero()
}

// End returns one end of the range, low or high.
func (u Unsure) End(name string) reflect.Value {
	if name == "low" {
		return u.Ends.Field(0)
	}
	return u.Ends.Field(1)
}

// Cheap is the end at which goods cost less.
func (u Unsure) Cheap() string {
	if u.Dear == "low" {
		return "high"
	}
	return "low"
}

// Ranges checks that each value lies in its range, whose ends are values that
// it could have.
func (c *Collector) Ranges(inputs []Unsure) {
	for _, u := range inputs {
		at := u.At.Range()
		for _, end := range []string{"low", "high"} {
			c.Value(at.Field(end), &u.Field, pointer(u.End(end)))
		}
		if c.Under(at) || c.Under(u.At) {
			continue
		}
		low, is, high := pointer(u.End("low")), pointer(u.Value), pointer(u.End("high"))
		if !rises(low, is) || !rises(is, high) {
			c.Add(at, quoin.Problem{
				Code: quoin.RangeOrder, Found: shown(low) + " to " + shown(high) + " around " + shown(is),
				Wanted: "a range that holds " + u.Field.Name + ", from low to high",
			})
		}
	}
}

// rises reports whether a is at most b; false where they cannot be compared.
func rises(a, b any) bool {
	if q, ok := a.(*quoin.Quantity); ok {
		c, err := q.Cmp(*b.(*quoin.Quantity))
		return err == nil && c <= 0
	}
	x, _ := number(a)
	y, _ := number(b)
	return x.Cmp(y) <= 0
}
