package form

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

// pace is a word that a type reads by itself, tone a text of its own type.
type (
	pace string
	tone string
)

func (p *pace) UnmarshalText(text []byte) error { return SetWord(p, text, "slow", "fast") }

// trunk has a field of every sort that is read.
type trunk struct {
	Yes      bool                           `json:"yes,omitempty"`
	Tone     tone                           `json:"tone,omitempty"`
	Pace     pace                           `json:"pace,omitempty"`
	Int      int                            `json:"int,omitempty"`
	Whole    int64                          `json:"whole,omitempty"`
	Maybe    quoin.Optional[int64]          `json:"maybe,omitzero"`
	Some     quoin.Optional[quoin.Amount]   `json:"some,omitzero"`
	Factor   quoin.Optional[quoin.Factor]   `json:"factor,omitzero"`
	Share    quoin.Optional[quoin.Rate]     `json:"share,omitzero"`
	Amount   quoin.Amount                   `json:"amount,omitzero"`
	Rate     quoin.Rate                     `json:"rate,omitzero"`
	Number   quoin.Factor                   `json:"number,omitzero"`
	Length   quoin.Quantity                 `json:"length,omitzero" dim:"length"`
	Weight   quoin.Quantity                 `json:"weight,omitzero" dim:"gsm"`
	Size     quoin.Size                     `json:"size,omitzero"`
	Day      quoin.Date                     `json:"day,omitzero"`
	Unit     quoin.Unit                     `json:"unit,omitempty"`
	Rounding quoin.Rounding                 `json:"rounding,omitzero"`
	Pair     [2]int64                       `json:"pair,omitzero"`
	Least    []int64                        `json:"least,omitempty" least:"1"`
	Lists    map[string][]string            `json:"lists,omitempty"`
	Inner    *trunk                         `json:"inner,omitempty"`
	Far      quoin.Optional[quoin.Currency] `json:"-"`
}

const wholeTrunk = `{"yes":true,"tone":"low","pace":"fast","int":-3,"whole":"9223372036854775807","maybe":-9223372036854775808,"some":"1.50","factor":2.5,"share":"7.4%",` +
	`"amount":1e2,"rate":0.5,"number":"3.5","length":"3 mm","weight":"300 gsm","size":"A4","day":"2026-03-01","unit":"sheets","rounding":"up","pair":[1,2],"least":[0],` +
	`"lists":{"b":["x\u00e9"],"a":["y"]},"inner":{"yes":false}}`

// Every sort of field is read, as is written beside it.
func TestReadEverySort(t *testing.T) {
	const want = `{"yes":true,"tone":"low","pace":"fast","int":-3,"whole":9223372036854775807,"maybe":-9223372036854775808,"some":"1.50","factor":"2.5","share":"7.4%",` +
		`"amount":"100","rate":"50%","number":"3.5","length":"3 mm","weight":"300 gsm","size":"210 x 297 mm","day":"2026-03-01","unit":"sheet","rounding":"up","pair":[1,2],"least":[0],` +
		`"lists":{"a":["y"],"b":["xé"]},"inner":{}}`
	for range 2 {
		var v trunk
		if got := found(wholeTrunk, &v, false); got != "" {
			t.Fatal(got)
		}
		text, err := Append(nil, &v, nil)
		if err != nil || string(text) != want {
			t.Errorf("%s, %v, want\n%s", text, err, want)
		}
		var stored trunk
		if err := ReadStored(text, &stored, nil); err != nil {
			t.Error(err)
		}
		if again, _ := Append(nil, &stored, nil); !bytes.Equal(again, text) {
			t.Errorf("stored, it is read as\n%s", again)
		}
	}
}

// No beginning of a text is one, and what is wrong with it is that it ends; no character too much
// is passed over either.
func TestNoBeginningIsRead(t *testing.T) {
	for _, text := range []string{wholeTrunk, `{"sort":"tube","name":"a","long":[1,{"x":2}]}`, `{"a":[{"b":[1]}],"kind":"x"}`} {
		for n := range len(text) {
			for _, to := range []any{new(trunk), new(parcel), new(bag)} {
				var c Collector
				if c.Read([]byte(text[:n]), to) {
					t.Fatalf("%s is read", text[:n])
				}
				last := c.Problems[len(c.Problems)-1]
				if want := fmt.Sprintf("the end of the text, after %d bytes", n); last.Code != quoin.BadJSON || last.Found != want || last.Path != "" {
					t.Fatalf("%s: %v, want %s", text[:n], c.Problems, want)
				}
				if ReadStored([]byte(text[:n]), to, nil) == nil {
					t.Fatalf("%s is read as stored", text[:n])
				}
			}
			if got := TextOf([]byte(text[:n]), "kind"); got != "" && n < len(text)-1 {
				t.Fatalf("%s has the kind %s", text[:n], got)
			}
		}
		for n := range len(text) {
			broken := text[:n] + "\x01" + text[n:]
			for _, to := range []any{new(trunk), new(parcel), new(bag)} {
				if new(Collector).Read([]byte(broken), to) {
					t.Fatalf("%q is read", broken)
				}
			}
		}
	}
}

// What is not of a field's sort.
func TestWrongSorts(t *testing.T) {
	for text, want := range map[string]string{
		`{"yes":1}`: "yes: found 1, wanted true or false", `{"yes":"true"}`: `yes: found "true", wanted true or false`, `{"tone":5}`: "tone: found 5, wanted text", `{"tone":[]}`: "tone: found a list, wanted text",
		`{"pace":5}`: "pace: found 5, wanted a word", `{"pace":"fats"}`: `pace: found "fats", wanted one of slow, fast; did you mean fast?`, `{"int":"x"}`: `int: found "x", wanted a whole number`,
		`{"whole":9223372036854775808}`: "whole: found 9223372036854775808, wanted a whole number", `{"whole":1e3}`: "whole: found 1e3, wanted a whole number", `{"whole":"000000000000000000001"}`: `whole: found "000000000000000000001", wanted a whole number`,
		`{"whole":true}`: "whole: found true, wanted a whole number", `{"maybe":"x"}`: `maybe: found "x", wanted a whole number`, `{"maybe":null}`: "maybe: found null, wanted a whole number",
		`{"day":5}`: "day: found 5, wanted a date such as 2026-03-01", `{"unit":5}`: "unit: found 5, wanted a unit such as print", `{"rounding":5}`: "rounding: found 5, wanted a word",
		`{"pair":[1]}`: "pair: found a list of 1, wanted a list of 2", `{"pair":[1,2,3]}`: "pair: found a list of 3, wanted a list of 2", `{"pair":5}`: "pair: found 5, wanted a list",
		`{"least":[]}`: "least: found no entries, wanted at least one, or no such list", `{"length":"3 kg"}`: `length: found "3 kg", wanted a length`, `{"length":"3 mn"}`: `length: found "3 mn", wanted a length; did you mean m?`,
		`{"weight":"3 kg"}`: `weight: found "3 kg", wanted a gsm`, `{"lists":{"a":[1]}}`: "lists.a[0]: found 1, wanted text", `{"inner":{"inner":{"yes":0}}}`: "inner.inner.yes: found 0, wanted true or false",
	} {
		var c Collector
		c.Read([]byte(text), new(trunk))
		got := strings.TrimPrefix(problemtest.Full(c.All()), "fault ")
		if got, _, _ = strings.Cut(got, " ["); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

// Words are one of those that there are, and what is none leaves the old one.
func TestSetWord(t *testing.T) {
	p := pace("slow")
	if err := p.UnmarshalText([]byte("fast")); err != nil || p != "fast" {
		t.Errorf("%s, %v", p, err)
	}
	if err := p.UnmarshalText([]byte("fats")); err == nil || p != "fast" {
		t.Errorf("%s, %v", p, err)
	}
	if w, err := Word("slow", pace("slow"), pace("fast")); w != "slow" || err != nil {
		t.Errorf("%s, %v", w, err)
	}
	words, types := KindsOf(reflect.TypeFor[wrapping]())
	if fmt.Sprint(words, types) != "[flat tube] [form.flat form.tube]" {
		t.Errorf("%v of %v", words, types)
	}
	if words, types := KindsOf(reflect.TypeFor[fmt.Stringer]()); len(words)+len(types) != 0 {
		t.Errorf("%v of %v", words, types)
	}
}

// Values made in Go with more digits than a document takes, and such that were worked out.
func TestManyDigits(t *testing.T) {
	nine, seventeen := quoin.AmountOf(123456789, 9), quoin.FactorOf(1).Times(quoin.MustFactor("0.1234567890123456")).Times(quoin.MustFactor("0.1"))
	nineteen := seventeen.Times(quoin.MustFactor("0.01")).Rate() // 17 places of a percentage
	for what, v := range map[string]trunk{
		"amount": {Amount: nine}, "some": {Some: quoin.Some(nine)}, "number": {Number: seventeen}, "factor": {Factor: quoin.Some(seventeen)}, "rate": {Rate: nineteen}, "share": {Share: quoin.Some(nineteen)},
		"length": {Length: quoin.Unit("mm").Times(quoin.MustFactor("0.1234567890123"))},
	} {
		if got, want := problemtest.Listed(Check(v).All()), "too_fine "+what; got != want {
			t.Errorf("%s, want %s", got, want)
		}
		if got := problemtest.Listed(Computed(v).All()); got != "" {
			t.Errorf("worked out: %s", got)
		}
	}
	large := quoin.AmountOf(1_000_000_000_000, 0)
	for what, v := range map[string]trunk{"amount": {Amount: large}, "some": {Some: quoin.Some(large)}, "length": {Length: quoin.Unit("mm").Times(quoin.FactorOf(1_000_000_000_000))}} {
		if got, want := problemtest.Listed(Check(v).All()), "too_large "+what; got != want || problemtest.Listed(Computed(v).All()) != "" {
			t.Errorf("%s, want %s", got, want)
		}
	}
	long := quoin.AmountOf(1, 64).Times(quoin.FactorOf(1))
	if got := problemtest.Listed(Check(trunk{Amount: long}).All()); got != "too_long amount" || problemtest.Listed(Computed(trunk{Amount: long}).All()) != "" {
		t.Errorf("%s", got)
	}
	// As many as it takes, and what is no matter of digits.
	for what, v := range map[string]trunk{
		"": {
			Amount: quoin.MustAmount("123456789012.12345678"), Some: quoin.Some(quoin.MustAmount("-0.00000001")), Number: quoin.MustFactor("0.1234567890123456"), Factor: quoin.Some(quoin.MustFactor("123456789012")),
			Rate: quoin.MustRate("12.34567890123456%"), Share: quoin.Some(quoin.MustRate("0.5")), Length: quoin.MustQuantity("0.123456789012 mm"), Weight: quoin.MustQuantity("300 gsm"), Unit: "sheets", Rounding: quoin.Down,
		},
		"missing_unit length": {Length: quoin.Unit("m m").Times(quoin.FactorOf(1))}, "unknown_word rounding": {Rounding: 9}, "unknown_word pace": {Pace: "fats"}, "bad_text tone": {Tone: "a\tb"},
		"empty_list least": {Least: []int64{}}, "bad_text lists.a[1]": {Lists: map[string][]string{"a": {"x", "\x00"}}}, "unit_mismatch weight": {Weight: quoin.MustQuantity("3 g")},
	} {
		if got := problemtest.Listed(Check(v).All()); got != what {
			t.Errorf("%q, want %q", got, what)
		}
		if got := problemtest.Listed(Computed(v).All()); got != what {
			t.Errorf("worked out: %q, want %q", got, what)
		}
	}
	if got := problemtest.Listed(CheckRecord(trunk{Tone: tone(strings.Repeat("a", 1000))}).All()) + problemtest.Listed(Check(trunk{Tone: tone(strings.Repeat("a", 1000))}).All()); got != "too_long tone" {
		t.Errorf("a thousand bytes: %s", got)
	}
	// A word is written as its type reads it.
	var c Collector
	v := trunk{Unit: "sheets", Inner: &trunk{Unit: "prints"}}
	if c.Walk(In("box"), reflect.ValueOf(&v).Elem()); v.Unit != "sheet" || v.Inner.Unit != "print" || len(c.Problems) > 0 {
		t.Errorf("%s and %s, %v", v.Unit, v.Inner.Unit, c.Problems)
	}
}

// One field of several that may stand in each other's place.
func TestNeeded(t *testing.T) {
	type choice struct {
		Size   string `json:"size,omitempty" need:"yes" or:"of area"`
		Of     string `json:"of,omitempty"`
		Area   string `json:"area,omitempty"`
		Beside string `json:"beside,omitempty" or:"of"`
		Must   string `json:"must,omitempty" need:"yes"`
	}
	const all, none = "rival_fields ", "missing_field "
	for want, v := range map[string]choice{
		"": {Size: "x", Must: "x"}, none + "size": {Must: "x"}, none + "must": {Area: "x"}, none + "size, " + none + "must": {}, all + "area": {Of: "x", Area: "x", Must: "x"},
		all + "of, " + all + "area": {Size: "x", Of: "x", Area: "x", Must: "x"}, all + "of": {Size: "x", Of: "x", Must: "x"}, all + "of, " + none + "must": {Area: "x", Size: "x", Of: "x", Beside: ""},
	} {
		if want == all+"of, "+none+"must" {
			v.Area = ""
		}
		if got := problemtest.Listed(Check(v).All()); got != want {
			t.Errorf("%+v: %s, want %s", v, got, want)
		}
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		var c Collector
		if c.Read(text, new(choice)); problemtest.Listed(c.All()) != want {
			t.Errorf("%s: %s, want %s", text, problemtest.Listed(c.All()), want)
		}
	}
	if got := problemtest.Full(Check(choice{Beside: "x", Of: "x", Must: "x"}).All()); got != "fault of: found of beside beside, wanted one of them; leave one out: each says what the other would [rival_fields]" {
		t.Error(got)
	}
	if got := problemtest.Full(Check(choice{}).All()); got != "fault size: found nothing, wanted the field size or of or area [missing_field]\nfault must: found nothing, wanted the field must [missing_field]" {
		t.Error(got)
	}
	// At the top one may be spared.
	c := Collector{Spare: "must"}
	c.Walk(nil, reflect.ValueOf(&choice{Of: "x"}).Elem())
	c.Walk(In("in"), reflect.ValueOf(&choice{Of: "x"}).Elem())
	if got := problemtest.Listed(c.All()); got != none+"in.must" {
		t.Error(got)
	}
}

// Sets of up to 128 fields.
func TestFieldSets(t *testing.T) {
	var f, g fields
	for i := 0; i < 128; i += 3 {
		f.add(i)
		if i%2 == 0 {
			g.add(i)
		}
	}
	for i := range 128 {
		if f.has(i) != (i%3 == 0) || g.has(i) != (i%6 == 0) {
			t.Errorf("field %d: %t, %t", i, f.has(i), g.has(i))
		}
	}
	if !f.hold(g) || g.hold(f) || !f.hold(fields{}) || f.count(g) != 22 || g.count(f) != 22 || f.count(f) != 43 {
		t.Errorf("%v and %v: %d", f, g, f.count(g))
	}
	for _, i := range []int{0, 63, 64, 127} {
		var one fields
		if one.add(i); one.hold(f) || f.hold(one) != f.has(i) || one.count(f) != f.count(one) {
			t.Errorf("field %d", i)
		}
	}
}
