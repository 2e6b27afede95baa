package form_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

type pace string

type day struct{ n int }

func (d day) String() string { return strings.Repeat("I", d.n) }

type inner struct {
	Wide quoin.Quantity `json:"wide,omitzero"`
	Odd  bool           `json:"odd"`
}

type base struct {
	Spare quoin.Rate `json:"spare"`
}

type everySort struct {
	base
	Base
	ID       string                                  `json:"id"`
	Text     string                                  `json:"any_text"`
	Pace     pace                                    `json:"pace"`
	Count    int64                                   `json:"count" need:"yes"`
	Price    quoin.Amount                            `json:"price,omitzero"`
	Each     quoin.Optional[quoin.Amount]            `json:"each,omitzero"`
	Between  quoin.Range[quoin.Amount]               `json:"between,omitzero"`
	Maybe    quoin.Optional[quoin.Range[quoin.Rate]] `json:"maybe,omitzero"`
	Few      []quoin.Amount                          `json:"few"`
	Many     []string                                `json:"many"`
	Objects  []inner                                 `json:"objects"`
	ByName   map[string][]inner                      `json:"by_name"`
	Inner    inner                                   `json:"inner,omitzero"`
	Pointer  *inner                                  `json:"pointer,omitempty"`
	Day      day                                     `json:"day"`
	Kept     func() int                              `json:"-"`
	PerItem  quoin.Factor
	Problem  quoin.Problem
	Anything any
	hidden   int
}

// Base is embedded, and its fields count as those of the whole.
type Base struct {
	Own quoin.Rate `json:"own,omitzero"`
}

func TestString(t *testing.T) {
	amount, length := quoin.MustAmount, quoin.MustQuantity
	for _, c := range []struct {
		of   everySort
		want string
	}{
		{everySort{}, "no every sort"},
		{everySort{hidden: 1}, "every sort"},
		{everySort{ID: "a"}, `every sort "a"`},
		{everySort{Count: 3, Pace: "slow"}, "every sort: pace slow, count 3"},
		{everySort{ID: "a\nb", Text: "two\nlines"}, `every sort "a·b": any text "two·lines"`},
		{everySort{Price: amount("0.00")}, "every sort: price 0.00"},
		{everySort{Price: amount("10").Over(quoin.FactorOf(3))}, "every sort: price ≈3.33333333"},
		{everySort{Each: quoin.Some(quoin.Amount{})}, "every sort: each 0"},
		{everySort{Each: quoin.Some(amount("4.50")), Between: quoin.Between(amount("4"), amount("5"))}, "every sort: each 4.50, between 4 to 5"},
		{everySort{Maybe: quoin.Some(quoin.Between(quoin.MustRate("1%"), quoin.MustRate("2%")))}, "every sort: maybe 1% to 2%"},
		{everySort{Few: []quoin.Amount{amount("0.50"), amount("0.95")}, Many: []string{"a", "b", "c", "d"}}, "every sort: few [0.50 0.95], many (4)"},
		{everySort{Objects: make([]inner, 1), ByName: map[string][]inner{"a": nil}}, "every sort: objects (1), by name (1)"},
		{everySort{Inner: inner{Wide: length("30 mm"), Odd: true}, Pointer: &inner{}}, "every sort: inner (wide 30 mm, odd)"},
		{everySort{Day: day{2}, Kept: func() int { return 1 }}, "every sort: day II"},
		{everySort{PerItem: quoin.FactorOf(2), Base: Base{quoin.MustRate("5%")}}, "every sort: own 5%, per item 2"},
		{everySort{Problem: quoin.Problem{Code: quoin.BadSize, Found: "A9"}, Anything: inner{Odd: true}}, "every sort: problem found A9 [bad_size], anything (odd)"},
	} {
		if got := form.String(c.of); got != c.want {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
}

type answer struct {
	Record int          `json:"record"`
	Code   quoin.Code   `json:"code"`
	Left   quoin.Amount `json:"left"`
	Wanted quoin.Amount `json:"wanted" need:"yes"`
}

// A number that a document always says is written also where it is 0.
func TestNothingLeft(t *testing.T) {
	for want, of := range map[string]answer{
		"no answer": {},
		"answer: record 0, code too_fine, left 0":  {Code: quoin.TooFine},
		"answer: record 2, left 0.50, wanted 1.00": {Record: 2, Left: quoin.MustAmount("0.50"), Wanted: quoin.MustAmount("1.00")},
	} {
		if got := form.String(of); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
