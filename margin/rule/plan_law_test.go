package rule_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// plannedWays are the channels of ways that a plan serves, by name, and others whose sums are written
// with many places.
func plannedWays() (names []string, all map[string]channel.Channel) {
	all = ways()
	rate := quoin.MustRate
	all["kinds of order"] = channel.Channel{
		Orders: []channel.Order{{Share: quoin.Some(rate("62.5%")), Shipping: amount("3.50"), Postage: amount("4.20")}, {Share: quoin.Some(rate("37.5%")), Items: 3, FreeFrom: quoin.Some(amount("40.00")), Shipping: amount("3.50"), Postage: amount("6.10")}},
		Fees:   []channel.Fee{{Rate: rate("12%"), Share: quoin.Some(rate("25%")), Fixed: amount("0.35")}}, LostParcels: rate("3%"),
	}
	all["up to a bound"] = channel.Channel{Fees: []channel.Fee{{Rate: rate("9%"), AtLeast: amount("0.80"), AtMost: quoin.Some(amount("1.70"))}, {Rate: rate("2.375%"), Expected: true}}}
	all["all of a higher price"] = channel.Channel{Fees: []channel.Fee{{Rate: rate("99.9%"), Rounding: quoin.Down}}}
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	return names, all
}

func drawnRules(t *rapid.T) []rule.Rule {
	cents := func(what string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, what), 2)
	}
	share := func(what string, most int64) quoin.Rate {
		return cents(what, most).Share(quoin.AmountOf(1, 0))
	}
	scope := func() rule.Scope { return rapid.SampledFrom([]rule.Scope{"", rule.Average, rule.Worst}).Draw(t, "of") }
	var out []rule.Rule
	for i := range rapid.IntRange(1, 4).Draw(t, "rules") {
		r := rule.Rule{ID: fmt.Sprint("r", i)}
		switch rapid.IntRange(0, 7).Draw(t, "kind") {
		case 0:
			r.Kind = rule.Contribution{AtLeast: cents("least", 900), AskedOf: scope()}
		case 1:
			r.Kind = rule.GrossMargin{AtLeast: share("gross", 80), AskedOf: scope()}
		case 2:
			r.Kind = rule.NetMargin{AtLeast: share("net", 40), AskedOf: scope()}
		case 3:
			r.Kind = rule.CostMultiple{AtLeast: quoin.FactorOf(rapid.Int64Range(0, 12).Draw(t, "times")).Over(quoin.FactorOf(2))}
		case 4:
			r.Kind = rule.MaxChange{AtMost: share("change", 60)}
		case 5:
			k := rule.Price{}
			if rapid.Bool().Draw(t, "from") {
				k.AtLeast = quoin.Some(cents("at least", 1500))
			}
			if rapid.Bool().Draw(t, "to") {
				k.AtMost = quoin.Some(cents("at most", 2600).Add(amount("4.00")))
			}
			r.Kind = k
		case 6:
			k := rule.Ending{EndsIn: []quoin.Amount{cents("ends in", 99)}}
			if rapid.Bool().Draw(t, "two endings") {
				k.EndsIn = append(k.EndsIn, cents("or in", 99))
			}
			if rapid.Bool().Draw(t, "every") {
				k.Every = quoin.AmountOf(rapid.Int64Range(1, 5).Draw(t, "units"), 0)
			}
			r.Kind = k
		default:
			low := rapid.Int64Range(0, 10).Draw(t, "quantile")
			r.Kind = rule.Market{FromQuantile: quoin.FactorOf(low).Over(quoin.FactorOf(20)).Rate(), ToQuantile: quoin.FactorOf(low + 8).Over(quoin.FactorOf(20)).Rate(), MinVenues: quoin.Some(int64(1)), MinSales: quoin.Some(int64(2))}
		}
		if rapid.IntRange(0, 2).Draw(t, "prefers") == 0 {
			r.Strength = rule.Prefer
		}
		switch rapid.IntRange(0, 5).Draw(t, "speaks of") {
		case 0:
			r.Products = []string{"print"}
		case 1:
			r.Products = []string{"other"}
		case 2:
			r.Designs = []string{"rail"}
		}
		if rule.Rule.AsksChannels(r) && rapid.IntRange(0, 3).Draw(t, "of a channel") == 0 {
			r.Channels = []string{"first"}
		}
		out = append(out, r)
	}
	return out
}

// A plan decides what Decide does, price by price, or says that it does not.
func TestPlansDecideAlike(t *testing.T) {
	decided, dropped, left, twoChannels := 0, 0, 0, 0
	names, all := plannedWays()
	eur := quoin.MustCurrency("EUR")
	var memory rule.PlannedItem // used for one product after the other
	one := func(t *rapid.T) {
		grid, err := quoin.NewGrid(amount(rapid.SampledFrom([]string{"0.01", "0.05"}).Draw(t, "step")), amount("45.00"))
		if err != nil {
			t.Fatal(err)
		}
		var compiled []*rule.CompiledChannel
		var sales []margin.Sale
		it := rule.Item{ID: "print", Design: rapid.SampledFrom([]string{"", "rail", "heron"}).Draw(t, "design"), Grid: grid}
		memory.ID, memory.Design, memory.Goods = it.ID, it.Design, nil
		sold := false
		for j, id := range []string{"first", "second"}[:rapid.IntRange(1, 2).Draw(t, "channels")] {
			c := all[rapid.SampledFrom(names).Draw(t, "way")]
			c.ID = id
			terms := c.For("print").Terms(eur)
			goods := quoin.AmountOf(rapid.Int64Range(0, 600).Draw(t, "goods"), 2).Over(quoin.FactorOf(rapid.SampledFrom([]int64{1, 3, 7}).Draw(t, "÷")))
			sale := margin.NewSale(terms, margin.Goods{PerItem: goods, PerOrder: quoin.AmountOf(rapid.Int64Range(0, 90).Draw(t, "an order"), 2)})
			sale.FixedCost, sale.Overhead = quoin.AmountOf(rapid.Int64Range(0, 50).Draw(t, "fixed"), 2), quoin.AmountOf(rapid.Int64Range(0, 50).Draw(t, "overhead"), 2).Over(quoin.FactorOf(3))
			sale.IncomeTax = quoin.MustRate(rapid.SampledFrom([]string{"0%", "22%", "100%"}).Draw(t, "income tax"))
			shelf := rule.CompileChannel(terms, grid)
			compiled = append(compiled, shelf)
			bare := sale
			bare.Goods = nil
			sales = append(sales, bare)
			in := j == 0 || rapid.Bool().Draw(t, "sold there")
			if in {
				it.Offers = append(it.Offers, shelf.Offer(sale))
			}
			sold = sold || j > 0 && in
			memory.Goods = append(memory.Goods, rule.PlannedGoods{Sold: in, PerItem: sale.GoodsPerItem(), Orders: sale.Goods})
		}
		if rapid.Bool().Draw(t, "priced today") {
			it.Today = quoin.Some(quoin.AmountOf(rapid.Int64Range(1, 5000).Draw(t, "today"), 2))
		}
		for i := range rapid.IntRange(0, 6).Draw(t, "comparables") {
			it.Comparables = append(it.Comparables, comparables.Record{Product: "print", Venue: fmt.Sprint("v", i%2), Price: quoin.AmountOf(rapid.Int64Range(300, 3000).Draw(t, "seen at"), 2), Sold: 1})
		}
		memory.Today, memory.Comparables = it.Today, it.Comparables
		choose := rapid.SampledFrom([]rule.Choice{"", rule.Nearest, rule.Least, rule.Greatest}).Draw(t, "choose")
		rules := drawnRules(t)
		if len(it.Offers) < len(compiled) { // a channel in which nothing is sold is none that a rule can name
			for i := range rules {
				rules[i].Channels = nil
			}
		}
		for i := range rules { // nor is a product or a design that there is not
			if slices.Contains(rules[i].Products, "other") {
				rules[i].Products = nil
			}
			if len(rules[i].Designs) > 0 && it.Design != "rail" {
				rules[i].Designs = nil
			}
		}
		plan, ok := rule.NewPlan(rules, compiled, sales, grid, choose)
		if !ok || !plan.Decide(&memory) {
			left++
			return
		}
		want, err := rule.Decide([]rule.Item{it}, rules, choose)
		if err != nil || len(want.Conflict) > 0 {
			t.Fatalf("a plan decides %s, and Decide says %v, %v", memory.Price, want.Conflict, err)
		}
		least, _ := want.Allowed[0].Least()
		greatest, _ := want.Allowed[0].Greatest()
		if !memory.Price.Equal(want.Prices[0]) || !memory.Least.Equal(least) || !memory.Greatest.Equal(greatest) || !slices.Equal(memory.Dropped, want.Dropped) {
			t.Fatalf("%s of %s to %s without %v; want %s of %s to %s without %v", memory.Price, memory.Least, memory.Greatest, memory.Dropped, want.Prices[0], least, greatest, want.Dropped)
		}
		decided++
		if len(want.Dropped) > 0 {
			dropped++
		}
		if sold {
			twoChannels++
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 4 {
			one(t)
		}
	})
	if decided < 100 || dropped < 5 || left < 30 || twoChannels < 15 {
		t.Errorf("only %d decided, %d without a preference, %d in two channels; %d left", decided, dropped, twoChannels, left)
	}
}

// The price of any index is allowed where the rule holds at it: of costs that are cut near what is
// asked, and where rounding alone decides, whole numbers leave it to decimals.
func TestCutCostsAreLeftToDecimals(t *testing.T) {
	names, all := plannedWays()
	eur := quoin.MustCurrency("EUR")
	held, broken := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		grid, err := quoin.NewGrid(amount("0.01"), amount("12.00"))
		if err != nil {
			t.Fatal(err)
		}
		c := all[rapid.SampledFrom(names).Draw(t, "way")]
		c.ID = "shop"
		terms := c.For("print").Terms(eur)
		// What is left of some price is asked for, to the last digit or a hair more or less.
		goods := quoin.AmountOf(rapid.Int64Range(1, 900).Draw(t, "goods"), 2).Over(quoin.FactorOf(rapid.SampledFrom([]int64{1, 3, 7, 11}).Draw(t, "÷")))
		sale := margin.NewSale(terms, margin.Goods{PerItem: goods})
		sale.IncomeTax = quoin.MustRate(rapid.SampledFrom([]string{"0%", "22%"}).Draw(t, "income tax"))
		it := rule.NewItem("print", grid, sale)
		at := grid.Price(rapid.Int64Range(1, grid.Len()).Draw(t, "at"))
		st := sale.At(at)
		hair := quoin.AmountOf(rapid.SampledFrom([]int64{-1, 0, 0, 1}).Draw(t, "a hair"), rapid.SampledFrom([]int{4, 8, 12}).Draw(t, "places"))
		kinds := []rule.Kind{rule.Contribution{AtLeast: st.Contribution.Add(hair)}}
		if gross, ok := st.GrossMargin(); ok && gross.Sign() >= 0 {
			kinds = append(kinds, rule.GrossMargin{AtLeast: gross})
		}
		if net, ok := st.NetMargin(); ok && net.Sign() >= 0 {
			kinds = append(kinds, rule.NetMargin{AtLeast: net})
		}
		for _, kind := range kinds {
			r := rule.Rule{ID: "asked", Kind: kind}
			set, err := r.Allowed(it)
			if err != nil {
				continue // less than nothing is asked
			}
			i := grid.Floor(at)
			for n := max(1, i-40); n <= min(grid.Len(), i+40); n++ {
				p := grid.Price(n)
				holds := r.Holds(it, p)
				if set.Contains(p) != holds {
					t.Fatalf("%v %+v at %s: allowed %t, and it holds %t", kind, kind, p, set.Contains(p), holds)
				}
				if holds {
					held++
				} else {
					broken++
				}
			}
		}
	})
	if held < 1000 || broken < 1000 {
		t.Errorf("only %d held, %d did not", held, broken)
	}
}
