package review_test

import (
	"strconv"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

func refused(err error, code quoin.Code) bool {
	ps, ok := err.(quoin.Problems)
	return ok && len(ps) > 0 && ps[0].Code == code
}

func TestCompareRefuses(t *testing.T) {
	doc := edited(t, small)
	own := doc
	own.Rules = []rule.Rule{{ID: "mine", Kind: rule.Custom{
		Name:    "mine",
		Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) { return rule.All(it.Grid), nil },
		Judge:   func(rule.Item, []rule.Offer, quoin.Amount) []rule.Verdict { return nil },
	}}}
	none := edited(t, small, `"5.00"`, `"500.00"`)
	at := func(id, price string) map[string]quoin.Amount { return map[string]quoin.Amount{id: amount(price)} }
	for _, c := range []struct {
		name      string
		last, now pricelist.Document
		prices    map[string]quoin.Amount
		move      string
		code      quoin.Code
	}{
		{"an empty document", pricelist.Document{}, doc, nil, "0%", "missing_field"},
		{"an empty document now", doc, pricelist.Document{}, nil, "0%", "missing_field"},
		{"another currency", doc, edited(t, small, "EUR", "CHF"), nil, "0%", review.CurrencyChanged},
		{"a rule of the caller's own", doc, own, nil, "0%", "bad_json"},
		{"an unknown product", doc, doc, at("hero", "10.00"), "0%", "unknown_id"},
		{"a price of nothing", doc, doc, at("heron", "0"), "0%", "out_of_range"},
		{"a price below zero", doc, doc, at("heron", "-3.00"), "0%", "out_of_range"},
		{"half a cent", doc, doc, at("heron", "10.005"), "0%", "out_of_range"},
		{"a move below zero", doc, doc, nil, "-1%", "out_of_range"},
		{"no last prices", none, doc, nil, "0%", review.NoLastPrices},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := review.Compare(c.last, c.prices, c.now, quoin.MustRate(c.move))
			if !refused(err, c.code) {
				t.Errorf("%v", err)
			}
		})
	}
}

// TestOddPrices: prices beyond the limit, and off the grid, are looked at as they are.
func TestOddPrices(t *testing.T) {
	doc := edited(t, small, `"price_limit": "200.00"`, `"price_limit": "200.00", "price_step": "0.50"`)
	for _, price := range []string{"0.01", "10.01", "999999999999"} {
		r := must(review.Compare(doc, map[string]quoin.Amount{"heron": amount(price)}, doc, quoin.MustRate("25%")))(t)
		if m := r.Moves[0]; len(m.Volumes) != 1 && !m.Now.Equal(amount(price)) {
			t.Errorf("%s: %s", price, written(m))
		}
	}
	r := must(review.Compare(doc, map[string]quoin.Amount{}, doc, quoin.MustRate("25%")))(t)
	if m := r.Moves[0]; m.Advice != review.New || len(m.Reasons)+len(m.Volumes) > 0 {
		t.Error(written(m))
	}
}

func TestTooManyChanges(t *testing.T) {
	supplies := &strings.Builder{}
	for i := range 401 {
		supplies.WriteString(`, {"id": "s` + strconv.Itoa(i) + `", "quantity": "1 piece", "price": "1.00"}`)
	}
	doc := edited(t, small, `"price": "4.00"}`, `"price": "4.00"}`+supplies.String())
	now := edited(t, strings.Replace(small, `"price": "4.00"}`, `"price": "4.00"}`+strings.ReplaceAll(supplies.String(), "1.00", "1.10"), 1))
	if _, err := review.Compare(doc, nil, now, quoin.Rate{}); !refused(err, quoin.TooMany) {
		t.Error(err)
	}
}

// TestManyThatDoNotStand: a supply and its line, twenty times over, count as one change
// where they are too many to find out which belong together.
func TestManyThatDoNotStand(t *testing.T) {
	supplies, lines := &strings.Builder{}, &strings.Builder{}
	for i := range 20 {
		supplies.WriteString(`, {"id": "s` + strconv.Itoa(i) + `", "quantity": "1 piece", "price": "0.09"}`)
		lines.WriteString(`, {"supply": "s` + strconv.Itoa(i) + `", "quantity": "1 piece"}`)
	}
	now := edited(t, small, `"price": "4.00"}`, `"price": "4.00"}`+supplies.String(), `"quantity": "1 sheet"}]}]`, `"quantity": "1 sheet"}`+lines.String()+`]}]`)
	r := must(review.Compare(edited(t, small), nil, now, quoin.Rate{}))(t)
	f := floor(t, r, "heron")
	// 10.80 ÷ 0.9 = 12.00
	if len(f.Shares) != 1 || len(f.Shares[0].Inputs) != 40 || !f.Shares[0].By.Equal(amount("2.00")) {
		t.Error(written(f))
	}
}
