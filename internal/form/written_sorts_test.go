package form

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

type embedded struct {
	First string `json:"first,omitempty"`
	Last  string `json:"last,omitempty" need:"yes"`
}

type inside struct {
	X int `json:"x"`
}

// chest has what encoding/json leaves out, in each of its ways.
type chest struct {
	embedded
	Day     *quoin.Date       `json:"day,omitzero"`
	Date    quoin.Date        `json:"date,omitzero"`
	Array   [0]int            `json:"array,omitempty"`
	Pair    [2]int            `json:"pair,omitempty"`
	Struct  inside            `json:"struct,omitempty"`
	Zeroed  inside            `json:"zeroed,omitzero"`
	Map     map[string]string `json:"map,omitempty"`
	Counts  map[int]string    `json:"counts,omitempty"`
	Pointer *int              `json:"pointer,omitempty"`
	Zero    *int              `json:"zero,omitzero"`
	Small   int8              `json:"small,omitempty"`
	Float   float64           `json:"float,omitzero"`
	List    []int             `json:"list,omitzero"`
	Empty   []int             `json:"empty"`
	Nothing *embedded         `json:"nothing"`
	hidden  int
	Unnamed int
}

func TestLeftOutAsJSONDoes(t *testing.T) {
	day, none, one, zero := quoin.MustDate("2026-03-01"), quoin.Date{}, 1, 0
	for _, v := range []chest{
		{},
		{hidden: 1, Unnamed: 2},
		{Day: &day, Date: day},
		{Day: &none},
		{Pair: [2]int{1, 0}, Struct: inside{1}, Zeroed: inside{1}},
		{Map: map[string]string{}, Counts: map[int]string{}},
		{Map: map[string]string{"b": "<", "a": ""}, Counts: map[int]string{2: "x"}},
		{Pointer: &one, Zero: &zero},
		{Pointer: &zero, Zero: &one},
		{Small: -1, Float: 0.5},
		{List: []int{}, Empty: []int{}},
		{List: []int{1, 2}, Empty: []int{3}},
		{Nothing: &embedded{}},
		{Nothing: &embedded{First: "x"}, embedded: embedded{"a", "b"}},
	} {
		v.Unnamed = 0
		var want strings.Builder
		e := json.NewEncoder(&want)
		e.SetEscapeHTML(false)
		type named chest // without a field that has no name here, and has one in encoding/json
		if err := e.Encode(named(v)); err != nil {
			t.Fatal(err)
		}
		got, err := Append(nil, &v, nil)
		if all := strings.Replace(strings.TrimSpace(want.String()), `,"Unnamed":0`, "", 1); string(got) != all || err != nil {
			t.Errorf("%s, %v, by encoding/json\n%s", got, err, all)
		}
	}
	for _, v := range []any{&map[string][]loud{"a": {"b", "refused"}}, &[]loud{"a", "refused", "b"}, &struct {
		X loud `json:"x"`
	}{"refused"}} {
		if got, err := Append([]byte("before "), v, nil); err == nil {
			t.Errorf("%s", got)
		}
	}
}

// What the tags of a struct say, also of those embedded in it.
func TestTags(t *testing.T) {
	s := Of(reflect.TypeFor[chest]())
	if got := fmt.Sprint(Names(s.Fields)); got != "[first last day date array pair struct zeroed map counts pointer zero small float list empty nothing]" {
		t.Error(got)
	}
	last := s.Fields[1]
	if !last.Need || last.Go.Name != "Last" || last.Owner != reflect.TypeFor[embedded]() || s.Fields[2].Go.Name != "Day" || s.Fields[2].Owner != reflect.TypeFor[chest]() || s.Kind != -1 {
		t.Errorf("%+v", last)
	}
	var v chest
	last.value(reflect.ValueOf(&v).Elem()).SetString("x")
	if v.Last != "x" {
		t.Error("the last is another field")
	}
	o := Of(reflect.TypeFor[order]())
	for name, want := range map[string]string{"price": "false false", "price_range": "true false", "share": "false true", "lines": "false false", "id": "false false"} {
		f := o.Fields[o.find([]byte(name), 0)]
		if got := fmt.Sprint(f.Ranged, f.Rated); got != want {
			t.Errorf("%s is ranged and rated %s, want %s", name, got, want)
		}
	}
	for _, in := range []any{shelf{}, struct {
		Many []order `json:"many"`
	}{}} {
		for _, f := range Of(reflect.TypeOf(in)).Fields {
			if want := f.Name != "named"; f.Rated != want || !f.Ranged {
				t.Errorf("%s is ranged %t and rated %t", f.Name, f.Ranged, f.Rated)
			}
		}
	}
	if f := Of(reflect.TypeFor[struct {
		In parcel `json:"in"`
	}]()).Fields[0]; !f.Ranged || !f.Rated {
		t.Error("what may be of any sort may have a range, and a rate")
	}
	for next := range 5 {
		for i, f := range s.Fields {
			if got := s.find([]byte(f.Name), next*5); got != i {
				t.Errorf("%s from %d on is %d", f.Name, next*5, got)
			}
		}
		if got := s.find([]byte("none"), next); got != -1 {
			t.Errorf("none is %d", got)
		}
	}
}

// Whether anything has a range is told while it is read, and while it is gone through.
func TestRanged(t *testing.T) {
	for text, want := range map[string]bool{`{"id":"a","price":"5","price_range":{"low":"4","high":"6"}}`: true, `{"id":"a","price":"5"}`: false, `{"id":"a","price_range":{}}`: true} {
		var c Collector
		if c.Read([]byte(text), new(priced)); c.Ranged != want {
			t.Errorf("%s has a range: %t", text, c.Ranged)
		}
	}
	for _, want := range []bool{false, true} {
		var c Collector
		v := priced{ID: "a", Price: quoin.MustAmount("5")}
		if want {
			v.Range = quoin.Between(quoin.MustAmount("4"), quoin.MustAmount("6"))
		}
		if c.Walk(nil, reflect.ValueOf(&v).Elem()); c.Ranged != want {
			t.Errorf("it has a range: %t", c.Ranged)
		}
	}
}

type priced struct {
	ID    string                    `json:"id"`
	Price quoin.Amount              `json:"price,omitzero" range:"[1,9]"`
	Range quoin.Range[quoin.Amount] `json:"price_range,omitzero" dear:"high"`
	Note  string                    `json:"note,omitempty"`
}

// Both ends of a range are values that its field takes, and hold it, themselves included.
func TestEndsOfRanges(t *testing.T) {
	for _, c := range []struct{ low, is, high, want string }{
		{"4", "5", "6", ""},
		{"5", "5", "5", ""},
		{"5", "5", "6", ""},
		{"4", "5", "5", ""},
		{"6", "5", "7", "range_order price_range"},
		{"3", "5", "4", "range_order price_range"},
		{"0", "5", "6", "out_of_range price_range.low"},
		{"4", "5", "10", "out_of_range price_range.high"},
		{"0", "5", "10", "out_of_range price_range.low, out_of_range price_range.high"},
		{"4", "10", "6", "out_of_range price"},
		{"10", "10", "10", "out_of_range price, out_of_range price_range.low, out_of_range price_range.high"},
	} {
		v := priced{ID: "a", Price: quoin.MustAmount(c.is), Range: quoin.Between(quoin.MustAmount(c.low), quoin.MustAmount(c.high))}
		if got := problemtest.Listed(Check(v).All()); got != c.want {
			t.Errorf("%s to %s around %s: %s, want %s", c.low, c.high, c.is, got, c.want)
		}
	}
	got := problemtest.Full(Check(priced{ID: "a", Price: quoin.MustAmount("5"), Range: quoin.Between(quoin.MustAmount("6"), quoin.MustAmount("7"))}).All())
	if got != "fault price_range: found 6 to 7 around 5, wanted a range that holds price, from low to high [range_order]" {
		t.Error(got)
	}
	u := Unsures(In("box"), reflect.ValueOf(priced{Price: quoin.MustAmount("5"), Range: quoin.Between(quoin.MustAmount("4"), quoin.MustAmount("6"))}))
	if len(u) != 1 || u[0].At.String() != "box.price" || u[0].Field.Name != "price" || u[0].Dear != "high" || u[0].Cheap() != "low" || shown(pointer(u[0].End("low"))) != "4" || shown(pointer(u[0].End("high"))) != "6" {
		t.Errorf("%+v", u)
	}
	low := Unsure{Dear: "low"}
	if low.Cheap() != "high" {
		t.Error(low.Cheap())
	}
	// Of a list and an object of lists those alone that have one.
	none := []priced{{ID: "a"}}
	some := append(none, priced{Range: quoin.Between(quoin.MustAmount("4"), quoin.MustAmount("6"))})
	for _, c := range []struct {
		v    any
		want int
	}{{none, 0}, {some, 1}, {&some, 1}, {(*[]priced)(nil), 0}, {map[string][]priced{"a": none}, 0}, {map[string][]priced{"a": none, "b": some}, 1}} {
		if got := Unsures(nil, reflect.ValueOf(c.v)); len(got) != c.want || ranged(reflect.ValueOf(c.v)) != (c.want > 0) {
			t.Errorf("%v: %d ranges", c.v, len(got))
		}
	}
}

// What a collector is told, word by word.
func TestCollectorSays(t *testing.T) {
	var c Collector
	at := In("box")
	c.Missing(at.Field("a"), "a")
	c.Stray(at.Field("b"), "more", "less")
	c.TooMany(at.Field("c"), 3, 2)
	c.Empty(at.Field("d"))
	c.Text(at.Field("e"), "a\x1fb")
	c.Text(at.Field("f"), strings.Repeat("a", 400))
	c.Text(at.Field("g"), "plain ~ text")
	c.Text(at.Field("h"), "Möwe \u0085")
	c.Fault(at.Field("a"), quoin.TooFine, "x", "y", "") // of which something was said
	c.Fault(at.Field("i"), quoin.TooFine, "x", "y", "z")
	c.Missing(at, "all of it")
	c.AddAt("x.y", quoin.Problem{Code: quoin.TooLong, Severity: quoin.Warning})
	const want = `fault box.a: found nothing, wanted the field a [missing_field]
fault box.b: found more, wanted less [stray_terms]
fault box.c: found 3 entries, wanted at most 2 [too_many]
fault box.d: found no entries, wanted at least one, or no such list [empty_list]
fault box.e: found "a·b", wanted text in UTF-8 without control characters [bad_text]
fault box.h: found "Möwe ` + "\u0085" + `", wanted text in UTF-8 without control characters [bad_text]
fault box.i: found x, wanted y; z [too_fine]
fault x.y:  [too_long]`
	if got := problemtest.Full(c.All()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for text, want := range map[string]bool{"": true, "box": true, "box.a": true, "box.g": false, "bo": false, "x": true, "x.y": true, "x.y.z": false} {
		if got := c.UnderText(text); got != want {
			t.Errorf("something was said under %q: %t", text, got)
		}
	}
	c.AddAt("box.g[1].z", quoin.Problem{Code: quoin.TooLong})
	if !c.UnderText("box.g") || !c.UnderText("box.g[1]") || c.UnderText("box.g[10]") {
		t.Error("what is said later is not seen")
	}
	for range MostProblems {
		c.Stray(nil, "more", "less")
	}
	all := c.All()
	if !c.Full || len(c.Problems) != MostProblems || problemtest.Full(all[MostProblems]) != "fault found more than 1000 problems, wanted a document without any; mend these first [more_problems]" {
		t.Errorf("%d problems, %v", len(all), all[len(all)-1])
	}
	if new(Collector).Under(nil) || new(Collector).UnderText("") {
		t.Error("nothing was said of anything")
	}
}
