package rule_test

import (
	"encoding/json"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// The prints are linocuts of marsh birds by an invented artist; all fees and
// prices are invented.

// exampleGrid is prices in steps of a cent up to 40.00.
func exampleGrid() quoin.Grid {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	if err != nil {
		panic(err)
	}
	return g
}

func printRuns(s rule.Set) {
	var runs [][2]quoin.Amount
	for first, last := range s.Runs() {
		runs = append(runs, [2]quoin.Amount{first, last})
	}
	fmt.Println(runs)
}

// exampleItem costs nothing to make and is sold in one channel, where shipping of
// 4.50 is charged up to 24.99 and free from 25.00 on.
func exampleItem() rule.Item {
	shop := channel.Channel{ID: "own-shop", Orders: []channel.Order{
		{Shipping: quoin.MustAmount("4.50"), FreeFrom: quoin.Some(quoin.MustAmount("25.00"))},
	}}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{})
	return rule.NewItem("bittern-a5", exampleGrid(), sale)
}

// Two sizes: the small one costs at least 14.80, the large one 1.4 times as much
// or more, and prices end in .00 or .50. The least are 15.00 and 21.00.
func Example() {
	items := []rule.Item{rule.NewItem("bittern-a5", exampleGrid()), rule.NewItem("bittern-a4", exampleGrid())}
	rules := []rule.Rule{
		{ID: "floor", Products: []string{"bittern-a5"}, Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("14.80"))}},
		{ID: "ladder", Products: []string{"bittern-a5", "bittern-a4"}, Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.4"))}},
		{ID: "half", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00"), quoin.MustAmount("0.50")}}, Strength: rule.Prefer},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	fmt.Println(d.Prices, d.Dropped, err)
	for i, p := range d.Prices {
		why, _ := d.Lower(i, p)
		for _, by := range why.By {
			fmt.Println("not", why.Price, "by", by.Rule, by.Bound, by.Asked)
		}
	}
	// Output:
	// [15.00 21.00] [] <nil>
	// not 14.50 by floor at_least 14.80
	// not 20.50 by ladder at_least 21.00
}

func ExampleSet() {
	g := exampleGrid()
	s := rule.Between(g, quoin.MustAmount("14.80"), quoin.MustAmount("24.00"))
	least, _ := s.Least()
	greatest, _ := s.Greatest()
	next, _ := s.Next(quoin.MustAmount("3.00"))
	_, above := s.Next(quoin.MustAmount("24.01"))
	prev, _ := s.Prev(quoin.MustAmount("99.00"))
	fmt.Println(least, greatest, next, above, prev)
	fmt.Println(s.Contains(quoin.MustAmount("15")), s.Contains(quoin.MustAmount("15.005")), rule.Set{}.IsEmpty())
	// Output:
	// 14.80 24.00 14.80 false 24.00
	// true false true
}

func ExampleSet_And() {
	g := exampleGrid()
	low := rule.Between(g, quoin.MustAmount("0"), quoin.MustAmount("24.00"))
	high := rule.Between(g, quoin.MustAmount("14.80"), quoin.MustAmount("99.00"))
	both, err := low.And(high)
	printRuns(both)
	all, _ := both.And(rule.All(g))
	fmt.Println(all.Equal(both), err)
	// Output:
	// [[14.80 24.00]]
	// true <nil>
}

// An order keeps its price and, below 25.00, the shipping of 4.50. So 27.00 stay
// from 22.50 to 24.99, and again from 27.00 on: the set has a hole.
func ExampleRule_Allowed() {
	r := rule.Rule{ID: "27 stay", Kind: rule.Contribution{AtLeast: quoin.MustAmount("27.00")}}
	s, err := r.Allowed(exampleItem())
	printRuns(s)
	fmt.Println(r.Holds(exampleItem(), quoin.MustAmount("24.99")), r.Holds(exampleItem(), quoin.MustAmount("25.00")), err)
	// Output:
	// [[22.50 24.99] [27.00 40.00]]
	// true false <nil>
}

func ExampleRule_Judge() {
	r := rule.Rule{ID: "27 stay", Kind: rule.Contribution{AtLeast: quoin.MustAmount("27.00")}}
	for _, v := range r.Judge(exampleItem(), quoin.MustAmount("25.00")) {
		fmt.Println(v.OK, v.Channel, v.Bound, v.Asked.Round(2), v.Got.Round(2))
	}
	// Output: false own-shop at_least 27.00 25.00
}

// At 24.99 29.49 stay; that much stays again at 29.49.
func ExampleDeadZones() {
	zones, err := rule.DeadZones(exampleGrid(), exampleItem().Offers[0])
	for _, z := range zones {
		again, _ := z.Again.Get()
		fmt.Println(z.After, "keeps", z.Contribution.Round(2, quoin.HalfUp), "and", z.First, "to", z.Last, "less, until", again)
		fmt.Println(z.Holds(quoin.MustAmount("26.00")))
	}
	fmt.Println(err)
	// Output:
	// 24.99 keeps 29.49 and 25.00 to 29.48 less, until 29.49
	// true
	// <nil>
}

// At least 3.5 times what the goods cost: 3.5 × 4.20 = 14.70.
func ExampleCostMultiple() {
	sale := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("4.20")})
	s, _ := rule.Rule{Kind: rule.CostMultiple{AtLeast: quoin.MustFactor("3.5")}}.Allowed(rule.NewItem("bittern-a5", exampleGrid(), sale))
	printRuns(s)
	// Output: [[14.70 40.00]]
}

// Of a price p, p − 4.20 has to be at least 0.65 p: p at least 4.20 ÷ 0.35.
func ExampleGrossMargin() {
	sale := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("4.20")})
	s, _ := rule.Rule{Kind: rule.GrossMargin{AtLeast: quoin.MustRate("65%")}}.Allowed(rule.NewItem("bittern-a5", exampleGrid(), sale))
	printRuns(s)
	// Output: [[12.00 40.00]]
}

// With overhead of 1.80 and a quarter of the rest for income tax, (p − 4.20 − 1.80)
// × 0.75 has to be at least p ÷ 4: 0.5 p at least 4.50.
func ExampleNetMargin() {
	sale := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("4.20")})
	sale.Overhead, sale.IncomeTax = quoin.MustAmount("1.80"), quoin.MustRate("25%")
	s, _ := rule.Rule{Kind: rule.NetMargin{AtLeast: quoin.MustRate("25%")}}.Allowed(rule.NewItem("bittern-a5", exampleGrid(), sale))
	printRuns(s)
	// Output: [[9.00 40.00]]
}

// One sale in ten pays an advertising fee of half. On average 95% of the price
// stays, so 9.50 from 10.00 on; when the fee is charged half stays, so from 19.00
// on (a fee of 9.50 on 18.99, after rounding, leaves 9.49).
func ExampleScope() {
	shop := channel.Channel{Fees: []channel.Fee{{Rate: quoin.MustRate("50%"), Share: quoin.Some(quoin.MustRate("10%"))}}}
	it := rule.NewItem("bittern-a5", exampleGrid(), margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{}))
	for _, in := range []rule.Scope{rule.Average, rule.Worst} {
		k := rule.Contribution{AtLeast: quoin.MustAmount("9.50"), AskedOf: in}
		s, _ := rule.Rule{Kind: k}.Allowed(it)
		least, _ := s.Least()
		fmt.Println(in, least)
	}
	// Output:
	// average 10.00
	// worst 19.00
}

// Whole and half units from 20.00 to 21.00.
func ExampleEnding() {
	k := rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00"), quoin.MustAmount("0.50")}}
	s, err := rule.Rule{Kind: k}.Allowed(rule.NewItem("bittern-a5", exampleGrid()))
	near, _ := s.And(rule.Between(exampleGrid(), quoin.MustAmount("20.00"), quoin.MustAmount("21.00")))
	printRuns(near)
	fmt.Println(k.Mod(), err)
	// Output:
	// [[20.00 20.00] [20.50 20.50] [21.00 21.00]]
	// 1 <nil>
}

// Within 10% of today's 24.00: 2.40 to either side.
func ExampleMaxChange() {
	it := rule.NewItem("bittern-a5", exampleGrid())
	it.Today = quoin.Some(quoin.MustAmount("24.00"))
	s, _ := rule.Rule{Kind: rule.MaxChange{AtMost: quoin.MustRate("10%")}}.Allowed(it)
	printRuns(s)
	// Output: [[21.60 26.40]]
}

func exampleComparables() []comparables.Record {
	return []comparables.Record{
		{Venue: "harbour stall", Price: quoin.MustAmount("24.00"), Sold: 12},
		{Venue: "harbour stall", Price: quoin.MustAmount("20.00"), Sold: 31},
		{Venue: "harbour stall", Price: quoin.MustAmount("30.00"), Sold: 4},
		{Venue: "reed shelf", Price: quoin.MustAmount("40.00"), Sold: 2},
		{Venue: "reed shelf", Price: quoin.MustAmount("240.00"), Sold: 0},
	}
}

// What never sold does not count; the end records stand for all beyond them.
func ExampleMarket_RangeOf_sold() {
	from, to, ok := rule.Market{MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1), FromQuantile: quoin.MustRate("25%"), ToQuantile: quoin.MustRate("90%")}.RangeOf(rule.Item{Comparables: exampleComparables()})
	fmt.Printf("%.2f %.2f %t\n", from, to, ok)
	// Output: 24.00 40.00 true
}

// A size that costs 10.00 to 15.00 takes the next one to 14.00 to 30.00.
func ExampleSizeRatio_Up() {
	k := rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.4")), AtMost: quoin.Some(quoin.MustFactor("2"))}
	up, _ := k.Up(rule.Between(exampleGrid(), quoin.MustAmount("10.00"), quoin.MustAmount("15.00")))
	printRuns(up)
	down, _ := k.Down(rule.Between(exampleGrid(), quoin.MustAmount("28.00"), quoin.MustAmount("28.00"))) // 28 ÷ 2 to 28 ÷ 1.4
	printRuns(down)
	fmt.Println(k.HoldsBetween(quoin.MustAmount("15.00"), quoin.MustAmount("20.99")))
	// Output:
	// [[14.00 30.00]]
	// [[14.00 20.00]]
	// false
}

// A preference that would leave no price is dropped; the rest holds.
func ExampleDecision() {
	items := []rule.Item{rule.NewItem("bittern-a5", exampleGrid()), rule.NewItem("bittern-a4", exampleGrid())}
	rules := []rule.Rule{
		{ID: "floor", Products: []string{"bittern-a4"}, Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("24.00"))}},
		{ID: "small change", Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("20.00"))}, Strength: rule.Prefer},
		{ID: "not below 12", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("12.00"))}, Strength: rule.Prefer},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	fmt.Println(d.Prices, d.Dropped, d.Emptied, len(d.Rules()), err)
	// Output: [12.00 24.00] [small change] [bittern-a4] 3 <nil>
}

// A floor of 24.00 asks 24.00 × 1.4 = 33.60 of the next size, which may cost at
// most 28.00. The rule on endings has no part in it; and without the market rule
// the rest can hold.
func ExampleDecide_conflict() {
	items := []rule.Item{rule.NewItem("bittern-a5", exampleGrid()), rule.NewItem("bittern-a4", exampleGrid())}
	rules := []rule.Rule{
		{ID: "floor", Products: []string{"bittern-a5"}, Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("24.00"))}},
		{ID: "tens of cents", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0")}, Every: quoin.MustAmount("0.10")}},
		{ID: "ladder", Products: []string{"bittern-a5", "bittern-a4"}, Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.4"))}},
		{ID: "market", Products: []string{"bittern-a4"}, Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("28.00"))}},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	fmt.Println(d.Prices, d.Conflict, err)
	d, err = rule.Decide(items, rules[:3], rule.Least)
	fmt.Println(d.Prices, d.Conflict, err)
	// Output:
	// [] [floor ladder market] <nil>
	// [24.00 33.60] [] <nil>
}

// How far a floor and a ceiling are apart: 28.00 ÷ 1.4 = 20.00.
func ExampleGap() {
	items := []rule.Item{rule.NewItem("bittern-a5", exampleGrid()), rule.NewItem("bittern-a4", exampleGrid())}
	rules := []rule.Rule{
		{ID: "floor", Products: []string{"bittern-a5"}, Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("24.00"))}},
		{ID: "market", Products: []string{"bittern-a4"}, Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("28.00"))}},
		{ID: "ladder", Products: []string{"bittern-a5", "bittern-a4"}, Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.4"))}},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	fmt.Println(d.Conflict, d.Involved(), err)
	for _, g := range d.Gaps {
		fmt.Println(g.Product, g.Floor, g.FloorBy, g.Ceiling, g.CeilingBy)
	}
	// Output:
	// [floor market ladder] [0 1] <nil>
	// bittern-a5 24.00 [floor] 20.00 [market ladder]
}

func ExampleFit() {
	items := []rule.Item{rule.NewItem("bittern-a5", exampleGrid())}
	floor := rule.Rule{ID: "floor", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("24.00"))}}
	ceiling := rule.Rule{ID: "ceiling", Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("23.99"))}}
	fmt.Println(rule.Fit(items, []rule.Rule{floor}))
	fmt.Println(rule.Fit(items, []rule.Rule{floor, ceiling}))
	// Output:
	// true <nil>
	// false <nil>
}

// Allowed are 22.50 to 24.99, and 27.00 on; from today's 26.00 the one is 1.01
// away, the other 1.00.
func ExampleChoice() {
	it := exampleItem()
	it.Today = quoin.Some(quoin.MustAmount("26.00"))
	rules := []rule.Rule{{ID: "27 stay", Kind: rule.Contribution{AtLeast: quoin.MustAmount("27.00")}}}
	for _, choose := range []rule.Choice{rule.Nearest, rule.Least, rule.Greatest} {
		d, _ := rule.Decide([]rule.Item{it}, rules, choose)
		fmt.Println(choose, d.Prices[0])
	}
	// Output:
	// nearest 27.00
	// least 22.50
	// greatest 40.00
}

func ExampleRule() {
	var r rule.Rule
	err := json.Unmarshal([]byte(`{"id": "ladder", "rule": "size_ratio", "products": ["bittern-a5", "bittern-a4"], "at_least": 1.4, "strength": "prefer"}`), &r)
	step := r.Kind.(rule.SizeRatio)
	fmt.Println(r.ID, r.Strength, r.Kind, step.AtLeast.Or(quoin.Factor{}), r.SpeaksOf("bittern-a3", ""), err)
	data, err := json.Marshal(r)
	fmt.Println(string(data), err)
	// Output:
	// ladder prefer size_ratio 1.4 false <nil>
	// {"id":"ladder","strength":"prefer","products":["bittern-a5","bittern-a4"],"rule":"size_ratio","at_least":"1.4"} <nil>
}

func ExampleKinds() {
	for _, k := range rule.Kinds() {
		fmt.Print(k, " ")
	}
	fmt.Println()
	// Output: price cost_multiple gross_margin net_margin contribution market ending max_change size_ratio
}

// A shelf holds what a channel's terms are on a grid, once for all products.
func ExampleCompiledChannel() {
	terms := channel.Channel{ID: "fair"}.Terms(quoin.MustCurrency("EUR"))
	shelf := rule.CompileChannel(terms, exampleGrid())
	for _, goods := range []string{"4.20", "7.00"} {
		offer := shelf.Offer(margin.NewSale(terms, margin.Goods{PerItem: quoin.MustAmount(goods)}))
		it := rule.Item{ID: "print", Grid: exampleGrid(), Offers: []rule.Offer{offer}}
		s, _ := rule.Rule{Kind: rule.Contribution{AtLeast: quoin.MustAmount("8.00")}}.Allowed(it)
		least, _ := s.Least()
		fmt.Println(offer.Channel, least)
	}
	// Output:
	// fair 12.20
	// fair 15.00
}

// Prices that end in .50 or .00, from 12.00 to 15.00, said short.
func ExamplePattern() {
	grid, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("15.00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	item := rule.Item{ID: "bittern-a4", Grid: grid}
	endings, err := rule.Rule{Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0.00"), quoin.MustAmount("0.50")}}}.Allowed(item)
	if err != nil {
		fmt.Println(err)
		return
	}
	set, err := endings.And(rule.Between(grid, quoin.MustAmount("11.60"), quoin.MustAmount("15.00")))
	if err != nil {
		fmt.Println(err)
		return
	}
	p := set.Pattern()
	fmt.Println("between", p.Between[0][0], "and", p.Between[0][1], "modulo", p.Every, "one of", p.EndsIn)
	// Output: between 12.00 and 15.00 modulo 1.00 one of [0.00 0.50]
}

// Two venues sell a print of 20 × 20 cm without tax. The harbour adds 20% and sends
// a print of half its sides for 6.00 more; prices that grow with the sides are
// twice as much for the product: 12.00 ÷ 1.2 × 2. The reed shelf frames its own.
func ExampleMarket_RangeOf() {
	it := rule.NewItem("bittern-square", exampleGrid())
	it.Size = quoin.MustSize("20 x 20 cm")
	it.Comparables = []comparables.Record{
		{
			Venue: "harbour stall", Price: quoin.MustAmount("12.00"), Sold: 9, Size: quoin.MustSize("10 x 10 cm"), Tax: quoin.MustRate("20%"),
			Postage: quoin.MustAmount("6.00"), PostageOnTop: quoin.MustAmount("6.00"),
		},
		{
			Venue: "reed shelf", Price: quoin.MustAmount("70.00"), Sold: 2, Size: quoin.MustSize("20 x 20 cm"),
			Framed: true, FrameWorth: quoin.Some(quoin.MustAmount("46.00")),
		},
	}
	k := rule.Market{MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1), ToQuantile: quoin.MustRate("100%"), Basis: &comparables.Basis{Exponent: quoin.Some(quoin.MustFactor("0.5"))}}
	from, to, ok := k.RangeOf(it)
	fmt.Printf("%.2f %.2f %t\n", from, to, ok)
	k.MinSales = quoin.Some[int64](5)
	_, _, ok = k.RangeOf(it)
	fmt.Println(ok)
	// Output:
	// 20.00 24.00 true
	// false
}
