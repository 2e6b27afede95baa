package rule_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// Of a small grid every price is looked at, and of a large one those at and beside the ends of what is
// allowed: a rule that is off at any of them is told of.
func TestAgreesLooksAtEveryPrice(t *testing.T) {
	grid := func(limit string) quoin.Grid {
		g, err := quoin.NewGrid(amount("0.01"), amount(limit))
		if err != nil {
			t.Fatal(err)
		}
		return g
	}
	off := func(p quoin.Amount) rule.Rule {
		low, high, first, last := amount("0.02"), amount("100.05"), amount("250.03"), amount("250.09")
		return rule.Rule{ID: "off", Kind: rule.Custom{
			Name: "off at a price",
			Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
				return rule.Between(it.Grid, low, high).Or(rule.Between(it.Grid, first, last))
			},
			Judge: func(it rule.Item, _ []rule.Offer, price quoin.Amount) []rule.Verdict {
				in := price.Cmp(low) >= 0 && price.Cmp(high) <= 0 || price.Cmp(first) >= 0 && price.Cmp(last) <= 0
				return []rule.Verdict{{OK: in != price.Equal(p), Got: price.Figure()}}
			},
		}}
	}
	for _, c := range []struct {
		limit  string
		prices string
	}{
		{"0.08", "0.01 0.02 0.03 0.04 0.05 0.06 0.07 0.08"},
		{"99.99", "0.01 99.99"}, // 9,999 prices
		{"100.00", "33.33 100.00"},
		// Of 100,000 prices every tenth, from the first on, and 0.01 and 0.02, 100.05 and 100.06 and so on.
		{"1000.00", "0.02 700.11 100.05 100.06 250.03 250.10"},
	} {
		for p := range strings.FieldsSeq(c.prices) {
			err := off(amount(p)).Agrees(rule.NewItem("print", grid(c.limit)))
			ps, _ := err.(quoin.Problems)
			if len(ps) != 1 || !strings.HasPrefix(ps[0].Found, p+" ") {
				t.Errorf("up to %s, off at %s: %v", c.limit, p, err)
			}
		}
		if err := off(amount("2000.00")).Agrees(rule.NewItem("print", grid(c.limit))); err != nil {
			t.Errorf("up to %s: %v", c.limit, err)
		}
	}
}

// A plan is of as many sales as channels, each of them compiled.
func TestNoPlanWithoutItsChannels(t *testing.T) {
	it := twoChannels(t, "print")
	terms := it.Offers[0].Sale.Terms
	shelf := rule.CompileChannel(terms, it.Grid)
	sale := it.Offers[0].Sale
	sale.Goods = nil
	sales := []margin.Sale{sale, sale}
	both := []*rule.CompiledChannel{shelf, nil}
	if _, ok := rule.NewPlan(nil, both[:1], nil, it.Grid, rule.Least); ok {
		t.Error("a plan of one channel and no sale")
	}
	if plan, ok := rule.NewPlan(nil, both[:1], sales[:1], it.Grid, rule.Least); !ok || plan == nil {
		t.Error("no plan of one channel")
	}
	if _, ok := rule.NewPlan(nil, both, sales, it.Grid, rule.Least); ok {
		t.Error("a plan of a channel that there is not")
	}
}
