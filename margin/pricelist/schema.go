package pricelist

import (
	"cmp"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
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
	// within is the fields of the struct that it is, if it is one.
	within []field
	// ranged and rated say that a range, or a rate, may stand in it at any depth.
	ranged, rated bool
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

// floor reports whether the range is all from zero up, or above it, so that the sign
// of a number says whether it lies in it.
func (s span) floor() bool { return s.least != nil && s.least.Sign() == 0 && s.most == nil }

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

// table is the fields of structs, by their type.
type table map[reflect.Type][]field

// tables is the fields of all that a document or a lot can hold. They follow from the tags
// alone, so they are read once, and serve every document from then on.
var tables = sync.OnceValue(func() table {
	t := make(table)
	t.add(reflect.TypeFor[Document]())
	t.add(reflect.TypeFor[Lot]())
	for _, k := range rule.Kinds() {
		t.add(reflect.TypeOf(k))
	}
	return t
})

// schema returns the fields of a struct.
func schema(of reflect.Type) []field {
	if fields, known := tables()[of]; known {
		return fields
	}
	t := make(table)
	t.add(of)
	return t[of]
}

// add adds a struct, or those that a list, an object or a pointer is of, and all that
// they hold.
func (t table) add(of reflect.Type) {
	of = element(of)
	if _, known := t[of]; known || of.Kind() != reflect.Struct {
		return
	}
	fields := fieldsOf(of)
	t[of] = fields // before what it holds, should that be itself
	for i, f := range fields {
		in := of.Field(f.index).Type
		t.add(in)
		if in.Kind() == reflect.Struct {
			fields[i].within = t[in]
		}
		fields[i].ranged = f.dear != "" || t.holds(in, func(f field) bool { return f.ranged })
		fields[i].rated = isRate(in) || t.holds(in, func(f field) bool { return f.rated })
	}
}

// holds reports whether some field of a type, at any depth, is as asked; of a rule it
// says so whatever its kind.
func (t table) holds(of reflect.Type, asked func(field) bool) bool {
	of = element(of)
	return of == reflect.TypeFor[rule.Rule]() || slices.ContainsFunc(t[of], asked)
}

// element is what a type is of, where it is a list, an object of lists or a pointer.
func element(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	return t
}

func isRate(t reflect.Type) bool {
	return t == reflect.TypeFor[quoin.Rate]() || t == reflect.TypeFor[quoin.Optional[quoin.Rate]]()
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

// signOf returns the sign of a numeric leaf; false for what number is false for. It
// looks at values where they stand, since copying them all is most of the work.
func signOf(v reflect.Value) (int, bool) {
	if k := v.Kind(); k != reflect.Struct && k != reflect.Int64 {
		return 0, false
	}
	switch x := pointer(v).(type) {
	case *int64:
		return cmp.Compare(*x, 0), true
	case *quoin.Optional[int64]:
		n, given := x.Get()
		return cmp.Compare(n, 0), given
	case *quoin.Optional[quoin.Amount]:
		a, given := x.Get()
		return a.Sign(), given
	case *quoin.Optional[quoin.Rate]:
		r, given := x.Get()
		return r.Sign(), given
	case *quoin.Optional[quoin.Factor]:
		f, given := x.Get()
		return f.Sign(), given
	case interface {
		Sign() int
		Rat() *big.Rat
	}:
		return x.Sign(), true
	}
	return 0, false
}

// leftOut reports whether v, a struct with these fields or none, is the zero value of its
// type. Value.IsZero says the same, by going through a number bit by bit.
func leftOut(v reflect.Value, within []field) bool {
	for _, f := range within {
		if !leftOut(v.Field(f.index), f.within) {
			return false
		}
	}
	if len(within) > 0 {
		return true
	}
	if v.Kind() == reflect.Struct && v.CanAddr() {
		if x, ok := v.Addr().Interface().(interface{ IsGiven() bool }); ok {
			return !x.IsGiven()
		}
	}
	return v.IsZero()
}

func pointer(v reflect.Value) any {
	if !v.CanAddr() {
		at := reflect.New(v.Type())
		at.Elem().Set(v)
		v = at.Elem()
	}
	return v.Addr().Interface()
}
