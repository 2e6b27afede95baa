package form

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// gift has a field of every sort that is written.
type gift struct {
	Text     string                       `json:"text"`
	Word     quoin.Code                   `json:"word,omitempty"`
	Some     string                       `json:"some,omitzero"`
	Count    int                          `json:"count,omitempty"`
	Long     int64                        `json:"long"`
	Truth    bool                         `json:"truth,omitzero"`
	Amount   quoin.Amount                 `json:"amount"`
	Given    quoin.Amount                 `json:"given,omitzero"`
	Rate     quoin.Optional[quoin.Rate]   `json:"rate"`
	Factor   quoin.Optional[quoin.Factor] `json:"factor,omitzero"`
	Quantity quoin.Quantity               `json:"quantity"`
	Size     quoin.Size                   `json:"size,omitzero"`
	Date     quoin.Date                   `json:"date,omitzero"`
	Rounding quoin.Rounding               `json:"rounding,omitempty"`
	At       quoin.Path                   `json:"at,omitzero"`
	Names    []string                     `json:"names"`
	Few      []string                     `json:"few,omitempty"`
	Pairs    [][2]quoin.Amount            `json:"pairs,omitempty"`
	Flags    quoin.Optional[bool]         `json:"flags,omitzero"`
	Floats   []float64                    `json:"floats,omitempty"`
	Any      any                          `json:"any,omitempty"`
	ByName   map[string][]quoin.Factor    `json:"by_name,omitempty"`
	Next     *gift                        `json:"next,omitempty"`
	Step     *quoin.Journal               `json:"step,omitempty"`
	beneath
	Hidden string `json:"-"`
	ribbon
}

// beneath is written with what it stands in.
type beneath struct {
	Deep  string `json:"deep,omitempty"`
	Under struct {
		X int `json:"x"`
		y int
	} `json:"under,omitzero"`
	Of []beneath `json:"of,omitempty"`
}

type ribbon struct {
	*strings.Reader `json:"-"`
	Last            loud `json:"last"`
}

// loud writes its own JSON, in its own way.
type loud string

func (l loud) MarshalJSON() ([]byte, error) {
	if l == "refused" {
		return nil, errors.New("it will not be written")
	}
	return json.Marshal(map[string]string{"loud": string(l)})
}

func drawWritten(t *rapid.T, deep int) gift {
	text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "<&>", "\u2028", "a\xff", "\x00\"\\"}))
	amount := rapid.Custom(func(t *rapid.T) quoin.Amount {
		return quoin.AmountOf(rapid.Int64().Draw(t, "units"), rapid.IntRange(0, 12).Draw(t, "places"))
	})
	factor := func() quoin.Factor {
		return quoin.FactorOf(rapid.Int64().Draw(t, "n")).Over(quoin.FactorOf(rapid.Int64Range(1, 99).Draw(t, "by")))
	}
	w := gift{
		Text: text.Draw(t, "text"), Word: quoin.Code(text.Draw(t, "word")), Some: text.Draw(t, "some"), Count: rapid.IntRange(-1, 1).Draw(t, "count"),
		Long: rapid.Int64().Draw(t, "long"), Truth: rapid.Bool().Draw(t, "truth"), Amount: amount.Draw(t, "amount"),
		Names: rapid.SliceOfN(text, 0, 2).Draw(t, "names"), Few: rapid.SliceOfN(text, 0, 2).Draw(t, "few"), Hidden: "hidden",
		beneath: beneath{Deep: text.Draw(t, "deep")}, ribbon: ribbon{Last: loud(text.Draw(t, "last"))},
	}
	w.Under.X = rapid.IntRange(0, 1).Draw(t, "x")
	if rapid.Bool().Draw(t, "more") {
		w.Given, w.Rate, w.Factor = amount.Draw(t, "given"), quoin.Some(factor().Rate()), quoin.Some(factor())
		w.Quantity, w.Size, w.Rounding = quoin.MustQuantity("0.5 sheet"), quoin.MustSize("A3"), quoin.HalfEven
		w.Date, _ = quoin.ParseDate("2026-03-01")
		w.At, w.Flags = quoin.InList("channels", 1).Field(text.Draw(t, "field")), quoin.Some(false)
		w.Pairs, w.Floats, w.Any = [][2]quoin.Amount{{amount.Draw(t, "first"), amount.Draw(t, "last")}}, []float64{0.1, 1e30}, map[string]any{"<": w.Text}
		w.ByName = map[string][]quoin.Factor{text.Draw(t, "b"): {factor()}, text.Draw(t, "a"): nil, "c": {}}
		w.Of, w.Step = []beneath{{}, {Deep: "x"}}, new(quoin.Journal)
	}
	if deep > 0 && rapid.Bool().Draw(t, "next") {
		next := drawWritten(t, deep-1)
		w.Next = &next
	}
	return w
}

// asWritten: what Append writes behind a text is what encoding/json writes, without escaping for HTML.
func asWritten(t *rapid.T) {
	w := drawWritten(t, 2)
	var want bytes.Buffer
	e := json.NewEncoder(&want)
	e.SetEscapeHTML(false)
	if err := e.Encode(&w); err != nil {
		t.Fatal(err)
	}
	got, err := Append([]byte("before "), &w, nil)
	if err != nil || string(got)+"\n" != "before "+want.String() {
		t.Fatalf("%v: written is\n%s, by encoding/json\n%s", err, got, want.String())
	}
}

func TestAppend(t *testing.T) { rapid.Check(t, asWritten) }

func FuzzAppend(f *testing.F) { f.Fuzz(rapid.MakeFuzz(asWritten)) }

// A value that cannot be written is an error wherever it stands, and what stands in for a value is written like any other.
func TestAppendInside(t *testing.T) {
	w := gift{Next: &gift{ribbon: ribbon{Last: "refused"}}}
	if text, err := Append(nil, &w, nil); err == nil {
		t.Errorf("written as %s", text)
	}
	inside := func(v any) any {
		if l, ok := v.(*loud); ok {
			return &[]string{string(*l), "<said>"}
		}
		return nil
	}
	text, err := Append(nil, &w.Next.ribbon, inside)
	if err != nil || string(text) != `{"last":["refused","<said>"]}` {
		t.Errorf("%s, %v", text, err)
	}
	if text, err := Append(nil, new(struct{}), nil); err != nil || string(text) != "{}" {
		t.Errorf("nothing is written as %s, %v", text, err)
	}
}
