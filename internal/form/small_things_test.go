package form

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// A scan is odd as soon as something odd comes.
func TestOddAtOnce(t *testing.T) {
	for text, want := range map[string]int64{"1": 1, "0": 0, "7 ": 7, "123456789012345678": 123456789012345678, "1.5": -1, "1e5": -1, "1E5": -1, "": -1, "x": -1, "-1": -1, "01": -1, "1234567890123456789": -1} {
		s := NewScan([]byte(text))
		if n := s.Whole(); s.Odd() != (want < 0) || n != max(want, 0) {
			t.Errorf("%q is %d, odd %t", text, n, s.Odd())
		}
	}
	for text, want := range map[string]string{`"x"`: "x", `""`: "", `"x`: "-", `"x\n"`: "-", `x`: "-", "\"\x7f\"": "-"} {
		s := NewScan([]byte(text))
		if got := s.Text(); s.Odd() != (want == "-") || !s.Odd() && string(got) != want {
			t.Errorf("%q is %q, odd %t", text, got, s.Odd())
		}
	}
	s := NewScan([]byte("[1 2]"))
	s.Open('[')
	if !s.More(0, ']') || s.Whole() != 1 || s.More(1, ']') || !s.Odd() {
		t.Error("a list without a comma goes on")
	}
}

type listed struct {
	A string `json:"a,omitempty"`
	B int64  `json:"b,omitempty"`
}

type lists struct {
	Needed []int64  `json:"needed" need:"yes"`
	Of     []listed `json:"of,omitempty"`
}

// Nothing of a list that was read before shows in a later one.
func TestListsLeaveNothingBehind(t *testing.T) {
	for range 3 {
		var first, second lists
		var c Collector
		c.Read([]byte(`{"needed":[1,2,3],"of":[{"a":"x","b":1},{"a":"y"}]}`), &first)
		c.Read([]byte(`{"needed":[],"of":[{},{"b":2},{}]}`), &second)
		if got := fmt.Sprint(first, second, second.Needed == nil, c.Problems); got != "{[1 2 3] [{x 1} {y 0}]} {[] [{ 0} { 2} { 0}]} false " {
			t.Fatal(got)
		}
	}
}

type (
	pair[T any] struct {
		A T `json:"a"`
		B T `json:"b,omitempty"`
	}
	aB    struct{ PerID, Rest string }
	word2 struct {
		ID   int64  `json:"id"`
		Name string `json:"name"`
	}
	both struct {
		ID   string `json:"id"`
		Name string `json:"name"`
		Yes  bool   `json:"yes"`
	}
	lines3 struct {
		Amounts []quoin.Amount                              `json:"amounts"`
		Words   []tally                                     `json:"words"`
		Plain   []both                                      `json:"plain"`
		Any     any                                         `json:"any"`
		Ranges  quoin.Optional[quoin.Range[quoin.Quantity]] `json:"ranges"`
		Count   quoin.Optional[int64]                       `json:"count"`
		None    *both                                       `json:"none"`
	}
	tally struct{ n int }
)

func (c tally) String() string { return strings.Repeat("I", c.n) }

func TestMoreStrings(t *testing.T) {
	amount := quoin.MustAmount
	for _, c := range []struct {
		v    any
		want string
	}{
		{pair[int64]{A: 1}, "pair: a 1"},
		{pair[int64]{B: 2}, "pair: a 0, b 2"},
		{pair[string]{A: "x", B: "y"}, `pair: a "x", b "y"`},
		{aB{PerID: "x"}, `a b: per id "x"`},
		{aB{Rest: "y"}, `a b: rest "y"`},
		{word2{7, "seven"}, `word2 "seven": id 7`},
		{word2{ID: 7}, "word2: id 7"},
		{both{"a", "b", false}, `both "a": name "b"`},
		{both{"", "b", true}, `both "b": yes`},
		{lines3{Amounts: []quoin.Amount{amount("1.50"), {}, amount("2")}}, "lines3: amounts [1.50 0 2]"},
		{lines3{Amounts: make([]quoin.Amount, 4)}, "lines3: amounts (4)"},
		{lines3{Words: []tally{{1}, {3}}}, "lines3: words [I III]"},
		{lines3{Words: make([]tally, 2)}, "lines3: words (2)"},
		{lines3{Plain: []both{{ID: "a"}}}, "lines3: plain (1)"},
		{lines3{Amounts: []quoin.Amount{}, Any: 0}, "lines3"},
		{lines3{Any: both{ID: "a"}}, `lines3: any (id "a")`},
		{lines3{Any: &both{Yes: true}}, "lines3: any (yes)"},
		{lines3{Any: 7}, "lines3: any 7"},
		{lines3{Any: ""}, "lines3"},
		{lines3{Any: "x"}, `lines3: any "x"`},
		{lines3{Ranges: quoin.Some(quoin.Between(quoin.MustQuantity("1 mm"), quoin.MustQuantity("2 mm")))}, "lines3: ranges 1 mm to 2 mm"},
		{lines3{Count: quoin.Some[int64](0)}, "lines3: count 0"},
		{lines3{Count: quoin.Some[int64](3)}, "lines3: count 3"},
		{lines3{None: &both{}}, "lines3"},
		{lines3{None: &both{Name: "b"}}, `lines3: none (name "b")`},
	} {
		if got := String(c.v); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

type (
	named     []string
	byName    map[string]string
	asItWrote struct {
		Sort wrapping `json:"-" kind:"sort"`
	}
)

func (*named) UnmarshalText([]byte) error     { return nil }
func (*byName) UnmarshalText([]byte) error    { return nil }
func (*asItWrote) UnmarshalJSON([]byte) error { return nil }

func TestLeaves(t *testing.T) {
	for _, c := range []struct {
		t    reflect.Type
		want bool
	}{
		{reflect.TypeFor[string](), true},
		{reflect.TypeFor[pace](), true},
		{reflect.TypeFor[int](), true},
		{reflect.TypeFor[int64](), true},
		{reflect.TypeFor[bool](), true},
		{reflect.TypeFor[quoin.Amount](), true},
		{reflect.TypeFor[sealed](), true},
		{reflect.TypeFor[named](), false},
		{reflect.TypeFor[byName](), false},
		{reflect.TypeFor[asItWrote](), false},
		{reflect.TypeFor[parcel](), false},
		{reflect.TypeFor[line](), false},
		{reflect.TypeFor[float64](), false},
		{reflect.TypeFor[[2]int](), false},
	} {
		if got := IsLeaf(c.t); got != c.want {
			t.Errorf("%s is one value: %t", c.t, got)
		}
	}
	for _, in := range []any{struct {
		In bag `json:"in"`
	}{}, struct {
		In []bag `json:"in"`
	}{}} {
		if f := Of(reflect.TypeOf(in)).Fields[0]; !f.Ranged || !f.Rated {
			t.Errorf("%T may have no range", in)
		}
	}
	if !Kinds("x", "y", nil, fmt.Stringer.String) {
		t.Error("kinds are not said")
	}
	type base struct {
		X int64 `json:"x"`
	}
	type whole struct {
		base `json:"base"`
	}
	if got := fmt.Sprint(Names(Of(reflect.TypeFor[whole]()).Fields)); got != "[]" { // its name is not exported
		t.Error(got)
	}
}

// hold is an object of any kind.
type hold struct {
	Kind any `json:"-" kind:"kind"`
}

type counted struct {
	Unit quoin.Unit `json:"unit" need:"yes"`
}

// What stands in a value that is checked by itself, and what is the caller's.
func TestWalkInside(t *testing.T) {
	v := hold{counted{"sheets"}}
	var c Collector
	if c.Walk(nil, reflect.ValueOf(&v).Elem()); len(c.Problems) > 0 || v.Kind.(counted).Unit != "sheet" {
		t.Errorf("%v, %v", v, c.Problems)
	}
	one := line{"a", quoin.FactorOf(1)}
	o := sound()
	o.Lists, o.Gift, o.Lines = map[string][]line{"a": {one}}, &line{}, []line{one, one}
	empty := sound()
	empty.Lines, empty.Lists = []line{}, map[string][]line{}
	pointed := sound()
	pointed.Shape = &round{3}
	for want, v := range map[string]any{
		"":                   empty,
		"missing_field kind": hold{},
		" ":                  hold{"a word"},
		"missing_field unit": hold{counted{}},
		"missing_field gift.name, missing_field gift.weight": o,
		"missing_field sort":                  bag{},
		"missing_field wide":                  bag{flat{}},
		"  ":                                  shelf{Named: map[string][]cut{"a": {{quoin.MustQuantity("30 mm"), quoin.Between(quoin.MustQuantity("30 mm"), quoin.MustQuantity("3 cm"))}}}},
		"range_order named.a[0].length_range": shelf{Named: map[string][]cut{"a": {{quoin.MustQuantity("30 mm"), quoin.Between(quoin.MustQuantity("31 mm"), quoin.MustQuantity("4 cm"))}}}},
	} {
		if got := problemtest.Listed(Check(v).All()); got != strings.TrimSpace(want) {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
	if got := problemtest.Full(Check(pointed).All()); got != "fault shape: found a pointer to form.round, wanted the kind of shape itself; write form.round{…} without & [wrong_type]" {
		t.Error(got)
	}
	mine := trunk{Inner: &trunk{Unit: "sheets", Least: []int64{1}}}
	if got := problemtest.Listed(Check(mine).All()); got != "" || mine.Inner.Unit != "sheets" {
		t.Errorf("what was checked is %s now, %s", mine.Inner.Unit, got)
	}
	// As many digits as a document takes are seen at sight.
	allocs := func(v trunk) float64 {
		in := reflect.ValueOf(&v).Elem()
		c := new(Collector)
		return testing.AllocsPerRun(20, func() { c.Walk(nil, in) })
	}
	none, fine := allocs(trunk{}), quoin.MustFactor("0.12345678")
	for name, v := range map[string]trunk{
		"amount": {Amount: quoin.MustAmount("0.12345678")}, "some": {Some: quoin.Some(quoin.MustAmount("0.12345678"))}, "number": {Number: fine}, "factor": {Factor: quoin.Some(fine)},
		"rate": {Rate: quoin.MustRate("0.123456789012345")}, "share": {Share: quoin.Some(quoin.MustRate("0.123456789012345"))}, "whole": {Whole: 7},
	} {
		if got := allocs(v); got > none {
			t.Errorf("%s takes %v pieces of memory, nothing %v", name, got, none)
		}
	}
}

// A copy shares nothing, whatever stands in it, and passes over what nobody else can see.
func TestCopyOfAnything(t *testing.T) {
	type list struct{ L []int }
	type holder struct {
		X      any
		Maps   map[string][]int
		hidden []int
		Plain  struct{ N int }
		Deep   list
	}
	v := holder{X: list{[]int{1}}, hidden: []int{1}, Deep: list{[]int{1}}}
	for range 2 {
		c := Copy(v)
		v.X.(list).L[0], v.Deep.L[0] = 9, 9
		if c.X.(list).L[0] != 1 || c.Deep.L[0] != 1 || c.Maps != nil || len(c.hidden) != 1 {
			t.Errorf("%+v", c)
		}
		v.X.(list).L[0], v.Deep.L[0] = 1, 1
	}
	if c := Copy(holder{X: 7}); c.X != 7 || c.Deep.L != nil {
		t.Errorf("%+v", c)
	}
}

func TestSmallThings(t *testing.T) {
	for want, at := range map[string]*Path{"0": In("0"), "9-a_z": In("9-a_z"), strings.Repeat("a", 64): In(strings.Repeat("a", 64)), `["` + strings.Repeat("a", 64) + `"…]`: In(strings.Repeat("a", 65))} {
		if got := at.String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	for path, want := range map[string]string{`a["x[y"]`: "a", `a["x.y"]`: "a", `a["x[y"…]`: "a", `a["x.y"].b`: `a["x.y"]`} {
		if got := parent(path); got != want {
			t.Errorf("above %s is %s, want %s", path, got, want)
		}
	}
	var c Collector
	c.ReadAt(In("lines").At(2), []byte(`{"id":"a","price":"0"}`), new(crate))
	if got := problemtest.Listed(c.All()); got != "out_of_range lines[2].price" {
		t.Error(got)
	}
	if got := found(`{"note":5,`, new(struct {
		Note string `json:"note"`
	}), true); got != "1:9: note: found 5, wanted text [wrong_type]" { // of a record that is no JSON nothing more is said
		t.Error(got)
	}
	v := trunk{Amount: quoin.MustAmount("7")}
	if got := found(`{"amount":"x","size":""}`, &v, false); !strings.HasPrefix(got, "1:11: amount: found \"x\"") || strings.Contains(got, "size") || v.Amount.String() != "7" {
		t.Errorf("%s, %s", v.Amount, got)
	}
	type old struct {
		First string `json:"first,omitempty" was:"one"`
	}
	if got := found(`{"one":"x"}`, new(old), false); got != `1:8: one: found the field "one", wanted a field of version 1; did you mean first?; write "first", as it is called now [unknown_field]` {
		t.Error(got)
	}
	var many strings.Builder
	for i := range 1500 {
		fmt.Fprintf(&many, `,"f%d":0`, i)
	}
	c = Collector{}
	if c.Read([]byte(`{"first":"x"`+many.String()+`}`), new(old)) || !c.Full || len(c.Problems) != MostProblems {
		t.Errorf("%d problems, full %t", len(c.Problems), c.Full)
	}
	s := NewStream(strings.NewReader(`[1, x]`))
	_ = s.Open(false)
	_, _ = s.Value()
	_, err := s.Value()
	if p, at := s.Fault(err); at != 4 || !strings.HasPrefix(p.Found, "invalid character") {
		t.Errorf("%s at %d", p, at)
	}
	if NewStream(strings.NewReader(`x`)).Open(true) == nil {
		t.Error("no JSON is opened")
	}
}
