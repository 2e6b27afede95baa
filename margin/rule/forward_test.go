package rule_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// ways are channels in which what is kept bends, falls, stands still or moves by points, some of them
// with a fee that no plan serves. All invented.
func ways() map[string]channel.Channel {
	rate, factor := quoin.MustRate, quoin.MustFactor
	taxed := channel.Tax{Rate: rate("20%"), InPrice: true}
	whole := channel.Fee{TierMode: channel.Whole, Tiers: []channel.Tier{{Rate: rate("5%")}, {From: amount("12.00"), Rate: rate("17%")}}}
	fixed := channel.Fee{TierMode: channel.Whole, Tiers: []channel.Tier{{From: amount("0"), Fixed: amount("1.50")}, {From: amount("10.00"), Fixed: amount("3.00")}, {From: amount("14.00"), Rate: rate("17%"), Fixed: amount("1.00")}}}
	each := channel.Fee{Per: quoin.PerItem, Tiers: fixed.Tiers}
	flat := &channel.OnDemand{Pays: channel.FlatFee, Sizes: []channel.OnDemandProduct{{Product: "print", Flat: amount("5.00")}}}
	half := &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("50%"), Sizes: []channel.OnDemandProduct{{Product: "print", Base: amount("3.00")}}}
	bound := channel.Fee{Rate: rate("3.5%"), Of: []channel.Part{channel.Items, channel.Items}, AtLeast: amount("0.5"), Expected: true} // no plan counts a part twice
	return map[string]channel.Channel{
		"plain":                   {Fees: []channel.Fee{{Rate: rate("7%"), Fixed: amount("0.25")}}},
		"no plan":                 {Fees: []channel.Fee{bound}},
		"no plan, taxed":          {Tax: taxed, Fees: []channel.Fee{bound, {Rate: rate("11%"), WithoutTax: true}}},
		"a rate of the whole":     {Fees: []channel.Fee{whole}},
		"no plan, of the whole":   {Fees: []channel.Fee{whole, bound}},
		"fixed tiers":             {Fees: []channel.Fee{fixed}},
		"no plan, fixed tiers":    {Fees: []channel.Fee{fixed, bound}},
		"fixed tiers for each":    {Orders: []channel.Order{{Items: 2}}, Fees: []channel.Fee{each}},
		"flat":                    {OnDemand: flat},
		"flat, taxed":             {OnDemand: flat, Tax: taxed},
		"flat, points":            {OnDemand: flat, PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.99")}}},
		"half of the rest, taxed": {OnDemand: half, Tax: taxed},
		"points":                  {PricePoints: &channel.PricePoints{Step: amount("2.50")}, Fees: []channel.Fee{{Rate: rate("9%"), Fixed: amount("0.25")}}},
		"no plan, points":         {PricePoints: &channel.PricePoints{Step: amount("2.50")}, Fees: []channel.Fee{bound}},
		"free postage and a code": {Orders: []channel.Order{{Shipping: amount("3.50"), FreeFrom: quoin.Some(amount("15.00")), Postage: amount("4.10"), Codes: []string{"two"}}}, Promotions: []promo.Offer{{ID: "two", Amount: amount("2.00"), From: amount("9.00")}}},
		"abroad":                  {ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("JPY"), Rate: factor("0.0061")}, Fees: []channel.Fee{{Rate: rate("8%")}}},
		"fees that leave little":  {Fees: []channel.Fee{{Rate: rate("50%"), Rounding: quoin.Up}, {Rate: rate("49.9%"), Rounding: quoin.Down}}},
	}
}

// Whatever the channel and whatever is asked: a price is allowed where the rule, evaluated forward, holds
// at it, and nowhere else.
func TestAllowedIsWhereTheRuleHolds(t *testing.T) {
	eur := quoin.MustCurrency("EUR")
	grid, err := quoin.NewGrid(amount("0.01"), amount("26.00"))
	if err != nil {
		t.Fatal(err)
	}
	planned, without := 0, 0
	for name, c := range ways() {
		c.ID = "shop"
		terms := c.For("print").Terms(eur)
		if _, ok := terms.Plan(); ok {
			planned++
		} else {
			without++
		}
		base, printed := c.For("print").Prints()
		if !printed {
			base = amount("2.10")
		}
		sale := margin.NewSale(terms, margin.GoodsOnDemand(base))
		sale.Overhead, sale.IncomeTax = amount("0.37"), quoin.MustRate("22%")
		it := rule.NewItem("print", grid, sale)
		for _, kind := range []rule.Kind{
			rule.Contribution{AtLeast: amount("5.00")},
			rule.Contribution{AtLeast: amount("0.01")},
			rule.Contribution{AtLeast: amount("5.01")},
			rule.Contribution{},
			rule.Contribution{AtLeast: amount("3.00"), AskedOf: rule.Worst},
			rule.GrossMargin{AtLeast: quoin.MustRate("45%")},
			rule.NetMargin{AtLeast: quoin.MustRate("20%")},
			rule.NetMargin{},
		} {
			r := rule.Rule{ID: "asked", Kind: kind}
			set, err := r.Allowed(it)
			if err != nil {
				t.Errorf("%s, %v: %v", name, kind, err)
				continue
			}
			for i := int64(1); i <= grid.Len(); i++ {
				if p := grid.Price(i); set.Contains(p) != r.Holds(it, p) {
					t.Errorf("%s, %s: at %v allowed %t, and it holds %t", name, fmt.Sprintf("%v %+v", kind, kind), p, set.Contains(p), !set.Contains(p))
					break
				}
			}
		}
	}
	if planned < 5 || without < 4 {
		t.Errorf("%d channels with a plan, %d without", planned, without)
	}
}

// What each rule allows, of whom it speaks, and which sizes follow each other.
func TestDesignsOfItems(t *testing.T) {
	grid, err := quoin.NewGrid(amount("1.00"), amount("100.00"))
	if err != nil {
		t.Fatal(err)
	}
	var items []rule.Item
	for _, it := range []struct{ id, design, size string }{{"heron-a3", "heron", "A3"}, {"card", "", "A6"}, {"heron-a5", "heron", "A5"}, {"rail-a5", "rail", "A5"}, {"heron-a4", "heron", "A4"}, {"rail-a4", "rail", "A4"}} {
		items = append(items, rule.Item{ID: it.id, Design: it.design, Size: quoin.MustSize(it.size), Grid: grid})
	}
	twice := rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("2"))}
	listed := twice
	listed.Order = rule.Listed
	rules := []rule.Rule{
		{ID: "five", Products: []string{"heron-a5", "card"}, Kind: floor(5)},
		{ID: "sizes", Kind: twice},
		{ID: "as listed", Designs: []string{"rail"}, Kind: listed, Strength: rule.Prefer},
		{ID: "rails", Designs: []string{"rail"}, Kind: floor(3)},
		{ID: "all", Kind: ceiling(90)},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil {
		t.Fatal(err)
	}
	// 5, 10 and 20 for the heron, 3 and 6 for the rail; the card has its own.
	if got := fmt.Sprint(d.Prices); got != "[20.00 5.00 5.00 3.00 10.00 6.00]" {
		t.Errorf("prices %s", got)
	}
	for r, want := range map[int]string{0: "", 1: "2-4 4-0 3-5 ", 2: "3-5 "} {
		got := ""
		for a, b := range d.LadderPairs(r) {
			got += fmt.Sprintf("%d-%d ", a, b)
		}
		if got != want {
			t.Errorf("rungs of %s: %s, want %s", rules[r].ID, got, want)
		}
	}
	for i, want := range map[int]string{0: "[1 4]", 1: "[0 4]", 2: "[0 1 4]", 3: "[1 2 3 4]"} {
		if got := fmt.Sprint(d.Speaking(i)); got != want {
			t.Errorf("rules that speak of %s: %s, want %s", items[i].ID, got, want)
		}
	}
	for _, c := range []struct {
		r, i int
		want string
	}{{0, 1, "{5.00 to 100.00}"}, {0, 0, "{1.00 to 100.00}"}, {1, 0, "{1.00 to 100.00}"}, {3, 5, "{3.00 to 100.00}"}, {4, 2, "{1.00 to 90.00}"}} {
		if got := d.Allows(c.r, c.i).String(); got != c.want {
			t.Errorf("%s allows %s %s, want %s", rules[c.r].ID, items[c.i].ID, got, c.want)
		}
	}
}

// A conflict on the ladder of one design is about its items, not about those of others.
func TestConflictOfOneDesign(t *testing.T) {
	grid, err := quoin.NewGrid(amount("1.00"), amount("100.00"))
	if err != nil {
		t.Fatal(err)
	}
	var items []rule.Item
	for i := range 12 {
		items = append(items, rule.Item{ID: fmt.Sprintf("p%d", i), Design: fmt.Sprintf("d%d", i%4), Grid: grid})
	}
	d, err := rule.Decide(items, []rule.Rule{
		{ID: "sizes", Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("2")), Order: rule.Listed}},
		about("from ten", floor(10), "p2", "p3"), about("to thirty", ceiling(30), "p10", "p11"), about("dear", floor(20), "p3"),
	}, rule.Least)
	if err != nil {
		t.Fatal(err)
	}
	// 10, 20, 40 and at most 30: p2, p6 and p10, and p3, p7 and p11 too.
	if got := fmt.Sprint(d.Conflict, d.Involved()); got != "[sizes from ten to thirty] [2 3 6 7 10 11]" {
		t.Errorf("%s", got)
	}
}
