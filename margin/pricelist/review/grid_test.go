package review_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

// inSteps are the small shop as its prices can be asked in several ways. None of them
// moves a floor: 10.00 keeps 5.00 after 4.00 of paper and 1.00 of commission.
var inSteps = map[string]string{
	"steps of a cent": small,
	"steps of 0.50":   strings.Replace(small, `"price_limit"`, `"price_step": "0.50", "price_limit"`, 1),
	"steps of 1.00":   strings.Replace(small, `"price_limit"`, `"price_step": "1.00", "price_limit"`, 1),
	"endings":         strings.Replace(small, `"rules": [`, `"rules": [{"id": "ends", "rule": "ending", "ends_in": ["0.90"]}, `, 1),
	"steps and endings": strings.NewReplacer(`"price_limit"`, `"price_step": "0.10", "price_limit"`,
		`"rules": [`, `"rules": [{"id": "ends", "rule": "ending", "ends_in": ["4.90"], "every": "5.00"}, `).Replace(small),
	"prices on a shelf": strings.Replace(small, `"id": "web",`, `"id": "web", "price_points": {"step": "2.00"},`, 1),
}

// Paper alone asks for 12.00, the fee alone for 11.25, both for 13.50 (TestShares). In
// steps of 1.00 the floors would be 10, 12, 12 and 14, and the fee would have as much as
// the paper.
func TestSharesOnAnyGrid(t *testing.T) {
	for name, doc := range inSteps {
		r := must(review.Compare(edited(t, doc), nil, edited(t, doc, `"4.00"`, `"5.80"`, `10%`, `20%`), quoin.Rate{}))(t)
		f := floor(t, r, "heron")
		if got := f.Before.String() + " to " + f.After.String() + ": " + shares(f); got != "10.00 to 13.50: "+commission+" 1.38; "+paper+" 2.12" {
			t.Errorf("%s: %s", name, got)
		}
		if c := f.Channels[0]; c.Before.String() != "10.00" || c.After.String() != "13.50" {
			t.Errorf("%s: alone from %s to %s", name, c.Before, c.After)
		}
	}
}

// As TestSensitivity has them worked out; in steps of 1.00 all but the fee would swing by
// 1.00, and the fee by as much.
func TestSensitivityOnAnyGrid(t *testing.T) {
	const want = `supplies["paper"].quantity 0.90; products["heron"].bill["paper"].quantity 0.88; supplies["paper"].price 0.88; `
	for name, doc := range inSteps {
		got := ""
		for _, f := range review.Matter(must(review.Sensitivity(edited(t, doc), quoin.Rate{}))(t), "heron") {
			got += f.Input + " " + f.Swing.String() + "; "
		}
		if got != want {
			t.Errorf("%s: %s", name, got)
		}
	}
}

// The step of prices, and what stands on a shelf, are no changes that floors rest on.
func TestGridsMoveNoFloor(t *testing.T) {
	for _, name := range []string{"steps of 1.00", "prices on a shelf"} {
		r := must(review.Compare(edited(t, small), nil, edited(t, inSteps[name]), quoin.Rate{}))(t)
		if f := floor(t, r, "heron"); len(r.Changes) != 1 || r.Changes[0].Floor || r.Method != "" || !f.Change.Or(amount("1")).IsZero() {
			t.Errorf("%s: %s", name, written(r))
		}
	}
}

// Where the commission takes 7.4% and a margin of 92.6% is asked, rounding alone decides:
// of n cents, 0.074 × n less itself rounded has to come to the 0.4 cents of goods. 6 cents do:
// 0.444 is rounded to nothing. With goods of 0.45 cents 20 are the first: 1.48 is rounded to
// 1. In cents that is too much to be looked at up to 100000.00, in steps of 1.00 it is not,
// so that the document is decided; and so are its floors.
func TestFloorsOfFlatLines(t *testing.T) {
	doc := edited(t, small, `"price_limit": "200.00"`, `"price_step": "1.00", "price_limit": "100000.00"`, `"1 sheet", "price"`, `"1000 sheet", "price"`,
		`"10%"`, `"7.4%"`, `"contribution", "at_least": "5.00"`, `"net_margin", "at_least": "92.6%"`)
	now := doc
	now.Supplies = append(now.Supplies[:0:0], now.Supplies...)
	now.Supplies[0].Price = amount("4.50")
	f := floor(t, must(review.Compare(doc, nil, now, quoin.Rate{}))(t), "heron")
	if f.Before.String() != "0.06" || f.After.String() != "0.20" || shares(f) != paper+" 0.14" {
		t.Errorf("%s", written(f))
	}
}
