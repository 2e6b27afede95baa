package pricelist

import (
	"math/big"
	"reflect"
	"strconv"
	"strings"

	"example.com/quoin"
)

// field is what the tags of a struct field say: its name in the document,
// whether it must be given, what may be given in its place, the range of its
// values, their dimension, and how many there may be.
type field struct {
	name    string
	index   int
	need    bool
	instead []string // fields one of which may stand in its place
	span    span
	dim     string
	most    int
	// dear is set on a range, the field after the value that it belongs to: the
	// end of it, low or high, at which goods cost more.
	dear string
}

// span is a range of numbers as written in a tag: "(0,1]", "[0,".
type span struct {
	text        string
	least, most *big.Rat // nil where open-ended
	above       bool     // least itself is out
	below       bool     // most itself is out
}

func parseSpan(tag string) span {
	s := span{text: tag, above: strings.HasPrefix(tag, "("), below: strings.HasSuffix(tag, ")")}
	low, high, _ := strings.Cut(strings.Trim(tag, "([])"), ",")
	if low != "" {
		s.least, _ = new(big.Rat).SetString(low)
	}
	if high != "" {
		s.most, _ = new(big.Rat).SetString(high)
	}
	return s
}

func (s span) holds(x *big.Rat) bool {
	if s.least != nil {
		if c := x.Cmp(s.least); c < 0 || c == 0 && s.above {
			return false
		}
	}
	if s.most != nil {
		if c := x.Cmp(s.most); c > 0 || c == 0 && s.below {
			return false
		}
	}
	return true
}

// words says the range in words; rates as percentages.
func (s span) words(unit string) string {
	if s.least != nil && s.most != nil && s.least.Cmp(s.most) == 0 {
		return "of " + written(s.least, unit)
	}
	var parts []string
	if s.least != nil {
		parts = append(parts, map[bool]string{true: "above ", false: "of at least "}[s.above]+written(s.least, unit))
	}
	if s.most != nil {
		parts = append(parts, map[bool]string{true: "below ", false: "at most "}[s.below]+written(s.most, unit))
	}
	return strings.Join(parts, " and ")
}

func written(x *big.Rat, unit string) string {
	if unit == "%" {
		x = new(big.Rat).Mul(x, big.NewRat(100, 1))
	}
	return x.RatString() + unit
}

// schemas remembers the fields of types while one document is gone through.
type schemas map[reflect.Type][]field

func (s *schemas) schema(t reflect.Type) []field {
	fields, ok := (*s)[t]
	if !ok {
		if *s == nil {
			*s = make(schemas)
		}
		fields = fieldsOf(t)
		(*s)[t] = fields
	}
	return fields
}

// learn remembers the fields of a type and of all that it holds.
func (s *schemas) learn(t reflect.Type) {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map:
		s.learn(t.Elem())
	case reflect.Struct:
		if _, known := (*s)[t]; known {
			return
		}
		for _, f := range s.schema(t) {
			s.learn(t.Field(f.index).Type)
		}
	}
}

func fieldsOf(t reflect.Type) []field {
	var out []field
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		most, _ := strconv.Atoi(f.Tag.Get("most"))
		out = append(out, field{
			name: name, index: i, need: f.Tag.Get("need") != "", instead: strings.Fields(f.Tag.Get("or")), span: parseSpan(f.Tag.Get("range")),
			dim: f.Tag.Get("dim"), most: most, dear: f.Tag.Get("dear"),
		})
	}
	return out
}

func namesOf(fields []field) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	return names
}

// number returns the value of a numeric leaf; false for any other, and for an
// optional one that was not given.
func number(v any) (*big.Rat, bool) {
	switch x := v.(type) {
	case int64:
		return new(big.Rat).SetInt64(x), true
	case quoin.Optional[int64]:
		n, given := x.Get()
		return new(big.Rat).SetInt64(n), given
	case quoin.Optional[quoin.Amount]:
		a, given := x.Get()
		return a.Rat(), given
	case quoin.Optional[quoin.Rate]:
		r, given := x.Get()
		return r.Rat(), given
	case quoin.Optional[quoin.Factor]:
		f, given := x.Get()
		return f.Rat(), given
	case interface{ Rat() *big.Rat }:
		return x.Rat(), true
	}
	return nil, false
}
