package form

import (
	"math/big"
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
		for _, f := range Fields(v.Type()) {
			if f.Dear != "" && rangeGiven(v.Field(f.Index)) {
				out = append(out, Unsure{at.Field(last.Name), last, v.Field(last.Index), v.Field(f.Index), f.Dear})
			}
			if f.Dear == "" && f.Ranged {
				out = append(out, Unsures(at.Field(f.Name), v.Field(f.Index))...)
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
		for _, f := range Fields(v.Type()) {
			if f.Ranged && (f.Dear != "" && rangeGiven(v.Field(f.Index)) || f.Dear == "" && ranged(v.Field(f.Index))) {
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
			c.Value(at.Field(end), u.Field, u.End(end))
		}
		if c.Under(at) || c.Under(u.At) {
			continue
		}
		if !rises(u.End("low"), u.Value) || !rises(u.Value, u.End("high")) {
			c.Add(at, quoin.Problem{
				Code: quoin.RangeOrder, Found: Shown(u.End("low").Interface()) + " to " + Shown(u.End("high").Interface()) + " around " + Shown(u.Value.Interface()),
				Wanted: "a range that holds " + u.Field.Name + ", from low to high",
			})
		}
	}
}

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
	if x, ok := Number(v.Interface()); ok {
		return x
	}
	return new(big.Rat)
}
