package review_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

// An egret is made like the heron that it is based on, and a crane like the egret: what a sheet costs moves all three,
// though the heron alone names it. With paper at 5.80 and a fee of 20% it is 13.50, as in TestShares; a wren of other
// board is moved by the fee alone, from (5.00 + 2.20) ÷ 0.9 = 8.00 to 7.20 ÷ 0.8 = 9.00.
func TestChangesReachHeirs(t *testing.T) {
	doc := strings.NewReplacer(`"products": [`, `"products": [{"id": "wren", "bill": [{"supply": "board", "quantity": "1 sheet"}]}, `,
		`"quantity": "1 sheet"}]}]`, `"quantity": "1 sheet"}]}, {"id": "egret", "extends": "heron"}, {"id": "crane", "extends": "egret"}]`,
		`"supplies": [`, `"supplies": [{"id": "board", "quantity": "1 sheet", "price": "2.20"}, `).Replace(small)
	r := must(review.Compare(edited(t, doc), nil, edited(t, doc, `"4.00"`, `"5.80"`, `10%`, `20%`), quoin.Rate{}))(t)
	for product, want := range map[string]string{
		"heron": "10.00 13.50 " + commission + " 1.38; " + paper + " 2.12", "egret": "10.00 13.50 " + commission + " 1.38; " + paper + " 2.12",
		"crane": "10.00 13.50 " + commission + " 1.38; " + paper + " 2.12", "wren": "8.00 9.00 " + commission + " 1.00",
	} {
		f := floor(t, r, product)
		if got := f.Before.String() + " " + f.After.String() + " " + shares(f); got != want {
			t.Errorf("%s: %s, want %s", product, got, want)
		}
	}
}

// Numbers that are tried have no more places than a document takes: 0.33333333 × 1.1 is 0.366666663.
func TestTriedNumbersAreWritten(t *testing.T) {
	seen := 0
	for price, want := range map[string]string{"0.33333333": "0.30000000 0.36666666", "0.05555555": "0.05000000 0.06111111", "4.00": "3.60 4.40", "4": "3.6 4.4"} {
		for _, e := range must(review.Sensitivity(edited(t, small, `"4.00"`, `"`+price+`"`), quoin.MustRate("10%")))(t) {
			if e.Input != paper {
				continue
			}
			if seen++; e.Down+" "+e.Up != want {
				t.Errorf("%s: %s %s, want %s", price, e.Down, e.Up, want)
			}
		}
	}
	if seen != 4 {
		t.Errorf("%d prices matter", seen)
	}
}
