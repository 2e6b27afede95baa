package channel_test

import (
	"encoding/json"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// The channels here are those of an invented artist who sells linocuts of marsh
// birds. All fees, tax rates and prices are invented.

var exampleCurrency = quoin.MustCurrency("EUR")

func exampleMarketplace() channel.Channel {
	both := []channel.Part{channel.Items, channel.Shipping}
	return channel.Channel{
		ID: "marketplace", LostParcels: quoin.MustRate("1%"),
		Tax:    channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true, OnShipping: true},
		Orders: []channel.Order{{Shipping: quoin.MustAmount("4.50"), Postage: quoin.MustAmount("6.20")}},
		Fees: []channel.Fee{
			{Name: "commission", Rate: quoin.MustRate("7.4%"), Of: both, Tax: quoin.MustRate("20%")},
			{Name: "payment", Rate: quoin.MustRate("3.3%"), Of: both, Fixed: quoin.MustAmount("0.27")},
		},
	}
}

// A print at 24.00, with 4.50 for shipping, of which 28.50 × 0.20 ÷ 1.20 = 4.75
// are tax.
//
//	commission  28.50 × 0.074 = 2.109, rounded 2.11, and its tax 0.42
//	payment     28.50 × 0.033 + 0.27 = 1.2105, rounded 1.21
//	fulfilment  6.20 ÷ 0.99 = 6.2626
func Example() {
	terms := exampleMarketplace().Terms(exampleCurrency)
	s := terms.Settle(0, quoin.MustAmount("24.00"))
	fmt.Println(s.Items, s.Shipping, s.Tax, s.Revenue)
	for i, c := range s.Charges {
		fmt.Println(exampleMarketplace().Fees[i].Name, c.Base, c.Computed.Round(4, quoin.HalfUp), c.Rounded, c.Tax, c.Total)
	}
	fmt.Printf("%.2f %.4f\n", s.Fees, s.Fulfilment)
	// Output:
	// 24.00 4.50 4.75 23.75
	// commission 28.50 2.1090 2.11 0.42 2.53
	// payment 28.50 1.2105 1.21 0.00 1.21
	// 3.74 6.2626
}

// Shops buy a dozen at half the list price, and 5% off that for an early order:
// 24.00 × 0.5 × 0.95 = 11.40 each, 136.80 for twelve.
func ExampleChannel() {
	shops := channel.Channel{
		ID: "shops", TradeDiscount: []quoin.Rate{quoin.MustRate("50%"), quoin.MustRate("5%")}, Orders: []channel.Order{{Items: 12}},
	}
	s := shops.Terms(exampleCurrency).Settle(0, quoin.MustAmount("24.00"))
	fmt.Println(s.Unit, s.Count, s.Items)
	// Output: 11.40 12 136.80
}

// 20% tax in the price leaves 83.3% of it; a commission of 60% and advertising of
// 25% take 85%.
func ExampleChannel_TakesEverything() {
	c := channel.Channel{
		Tax:  channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true},
		Fees: []channel.Fee{{Name: "commission", Rate: quoin.MustRate("60%")}, {Name: "advertising", Rate: quoin.MustRate("25%")}},
	}
	fmt.Println(c.TakesEverything(), exampleMarketplace().TakesEverything())
	// Output: true false
}

// A tax on top of 19.99 × 0.20 = 3.998 is no part of the revenue.
func ExampleTax() {
	list := quoin.MustAmount("19.99")
	for _, inPrice := range []bool{true, false} {
		c := channel.Channel{Tax: channel.Tax{Rate: quoin.MustRate("20%"), InPrice: inPrice}}
		s := c.Terms(exampleCurrency).Settle(0, list)
		fmt.Println(inPrice, s.Items, s.Tax, s.Revenue)
	}
	// Output:
	// true 19.99 3.33 16.66
	// false 19.99 4.00 19.99
}

// An order of two at 30.00 each comes to 60.00, which is sent free.
func ExampleOrder() {
	c := channel.Channel{Orders: []channel.Order{
		{Items: 2, Shipping: quoin.MustAmount("4.50"), FreeFrom: quoin.Some(quoin.MustAmount("60.00"))},
	}}
	terms := c.Terms(exampleCurrency)
	for _, list := range []string{"29.99", "30.00"} {
		s := terms.Settle(0, quoin.MustAmount(list))
		fmt.Println(s.Items, s.Shipping, s.Revenue)
	}
	fmt.Println(channel.Order{}.ItemsOr1(), channel.Order{}.ShareOr1())
	// Output:
	// 59.98 4.50 64.48
	// 60.00 0.00 60.00
	// 1 100%
}

// Of a base of 80.00, 10% up to 50.00 and 5% of the rest are 5.00 + 1.50; taken
// as whole, all of it is charged at 5%.
func ExampleFee_Charge() {
	fee := channel.Fee{Name: "commission", Tiers: []channel.Tier{
		{From: quoin.MustAmount("0"), Rate: quoin.MustRate("10%")},
		{From: quoin.MustAmount("50.00"), Rate: quoin.MustRate("5%")},
	}}
	paid := channel.Payment{Count: 1, Items: quoin.MustAmount("80.00")}
	fmt.Println(fee.Charge(paid, 2).Rounded)
	fee.TierMode = channel.Whole
	fmt.Println(fee.Charge(paid, 2).Rounded)
	// Output:
	// 6.50
	// 4.00
}

// A sale below 10.00 costs 1.50, one from 10.00 on 3.00. Three prints at 9.99 in one order
// are a sale of 29.97; charged for each item, they are three sales below 10.00.
func ExampleTier() {
	fee := channel.Fee{Name: "sale", TierMode: channel.Whole, Tiers: []channel.Tier{
		{From: quoin.MustAmount("0"), Fixed: quoin.MustAmount("1.50")},
		{From: quoin.MustAmount("10.00"), Fixed: quoin.MustAmount("3.00")},
	}}
	paid := channel.Payment{Count: 3, Items: quoin.MustAmount("29.97")}
	fmt.Println(fee.Charge(paid, 2).Rounded)
	fee.Per = quoin.PerItem
	fmt.Println(fee.Charge(paid, 2).Rounded)
	// Output:
	// 3.00
	// 4.50
}

// Of 0.30 for each of three cards at 1.20, at most 0.50 is taken; the fee comes on
// one sale in five, so a fifth of it counts.
func ExampleCharge() {
	fee := channel.Fee{
		Fixed: quoin.MustAmount("0.30"), Per: quoin.PerItem, AtMost: quoin.Some(quoin.MustAmount("0.50")), Share: quoin.Some(quoin.MustRate("20%")),
	}
	c := fee.Charge(channel.Payment{Count: 3, Items: quoin.MustAmount("3.60")}, 2)
	fmt.Println(c.Base, c.Computed, c.Bounded, c.Total.Round(3, quoin.HalfUp))
	// Output: 3.60 0.90 0.50 0.100
}

func ExampleFee() {
	var fee channel.Fee
	err := json.Unmarshal([]byte(`{"name": "payment", "rate": "2.1%", "of": ["items", "shipping"], "fixed": 0.27, "rounding": "up"}`), &fee)
	fmt.Println(fee.Name, fee.Rate, fee.Of, fee.Fixed, fee.Rounding, err)
	err = json.Unmarshal([]byte(`{"of": ["shiping"]}`), &fee)
	fmt.Println(err)
	// Output:
	// payment 2.1% [items shipping] 0.27 up <nil>
	// found "shiping", wanted one of items, shipping, surcharge, tax, discount; did you mean shipping? [unknown_word]
}

// A stand at a fair costs 220.00 and sells 64 prints: 3.4375 each.
func ExampleFixedCost_PerItem() {
	a, err := channel.FixedCost{Cost: quoin.MustAmount("220.00"), Items: quoin.FactorOf(64)}.PerItem()
	fmt.Println(a, err)
	_, err = channel.FixedCost{Cost: quoin.MustAmount("220.00")}.PerItem()
	fmt.Println(err)
	// Output:
	// 3.4375 <nil>
	// items: found nothing, wanted how many items the cost of 220.00 is spread over, above zero [no_items]
}

func exampleTwoKinds() channel.Terms {
	return channel.Channel{
		ID: "own-shop",
		Orders: []channel.Order{
			{Share: quoin.Some(quoin.MustRate("75%")), Items: 1, Shipping: quoin.MustAmount("4.50")},
			{Share: quoin.Some(quoin.MustRate("25%")), Items: 2, Shipping: quoin.MustAmount("4.50")},
		},
		Fees: []channel.Fee{{Name: "advertised sale", Rate: quoin.MustRate("13%"), Share: quoin.Some(quoin.MustRate("10%"))}},
	}.Terms(exampleCurrency)
}

// At 24.00, 0.75 × 28.50 + 0.25 × 52.50 = 34.50 comes in with an average order
// of 0.75 × 1 + 0.25 × 2 = 1.25 items: 27.60 for each. The fee is a tenth of 13%
// of the items, 24.00 for each.
func ExampleTerms_Proceeds() {
	t := exampleTwoKinds().Proceeds(quoin.MustAmount("24.00"))
	fmt.Printf("%.2f %.2f\n", t.Revenue, t.Fees)
	// Output: 27.60 0.31
}

// Postage of 6.00 for one and 7.00 for two is (0.75 × 6.00 + 0.25 × 7.00) ÷ 1.25
// = 5.00 for each.
func ExampleTerms_Average() {
	postage := []quoin.Amount{quoin.MustAmount("6.00"), quoin.MustAmount("7.00")}
	fmt.Printf("%.2f\n", exampleTwoKinds().Average(func(kind int) quoin.Amount { return postage[kind] }))
	// Output: 5.00
}

// By itself, an advertised order of one print at 24.00 brings 28.50 and pays 3.12;
// one of two brings 26.25 for each.
func ExampleTerms_Worst() {
	terms := exampleTwoKinds()
	fmt.Println(terms.Channel(), terms.Orders(), terms.Items(1), terms.Varies())
	for _, one := range terms.Worst() {
		t := one.Proceeds(quoin.MustAmount("24.00"))
		fmt.Printf("%.2f %.2f\n", t.Revenue, t.Fees)
	}
	// Output:
	// own-shop 2 2 true
	// 28.50 3.12
	// 26.25 3.12
}

// Two prints and 4.50 for shipping, free from 60.00 on: up to 29.50 an item brings
// its price and 2.25, from 30.00 on its price alone.
func ExampleTerms_Curve() {
	grid, err := quoin.NewGrid(quoin.MustAmount("0.50"), quoin.MustAmount("50.00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	c := channel.Channel{Orders: []channel.Order{
		{Items: 2, Shipping: quoin.MustAmount("4.50"), FreeFrom: quoin.Some(quoin.MustAmount("60.00"))},
	}}
	for _, p := range c.Terms(exampleCurrency).Curve(grid) {
		fmt.Println(grid.Price(p.First), grid.Price(p.Last), p.Revenue.Slope, p.Revenue.Start, p.Revenue.Within)
	}
	// Output:
	// 0.50 29.50 1 2.25 0.000
	// 30.00 50.00 1 0.00 0.000
}

// What is left after a commission of 7%, rounded to a cent, less 9.30 of goods:
// 0.93 × price − 9.30, give or take half a cent. It is zero at 10.00, and at
// most 0.005 ÷ 0.93 = 0.0054 away from there.
func ExampleStraightLine_Crossing() {
	grid, _ := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("20.00"))
	kept := channel.StraightLine{Slope: quoin.MustFactor("0.93"), Within: quoin.MustAmount("0.005")}
	left := kept.Add(channel.Flat(quoin.MustAmount("-9.30")))
	from, to := left.Crossing(grid, 1, grid.Len())
	fmt.Println(grid.Price(from), grid.Price(to))
	// Output: 9.99 10.01
}

// A flat line is above zero, below it, or within the room that rounding takes.
func ExampleStraightLine_Above() {
	for _, s := range []string{"0.02", "-0.02", "0.004"} {
		l := channel.Flat(quoin.MustAmount(s))
		l.Within = quoin.MustAmount("0.005")
		fmt.Println(s, l.Above(), l.Below())
	}
	// Output:
	// 0.02 true false
	// -0.02 false true
	// 0.004 false false
}

// The steps of the fees alone, each with its value and where it stands.
func ExampleIsFee() {
	trail := quoin.NewTrail(16)
	list := quoin.Given("list price", quoin.Path{}, quoin.MustAmount("24.00").Figure())
	exampleMarketplace().Explain(trail, quoin.InList("channels", 0), exampleCurrency, 0, list)
	for _, n := range quoin.Find(trail.Steps(), channel.IsFee) {
		s := trail.Steps()[n-1]
		fmt.Println(s.At, s.Code, s.Value.Round(2))
	}
	// Output:
	// channels[0].fees[0] fee_base 28.50
	// channels[0].fees[0] fee_rated 2.11
	// channels[0].fees[0] fee_charge 2.11
	// channels[0].fees[0] fee_tax 0.42
	// channels[0].fees[0] fee_charge 2.53
	// channels[0].fees[0] fee 2.53
	// channels[0].fees[1] fee_base 28.50
	// channels[0].fees[1] fee_rated 0.94
	// channels[0].fees[1] fee_charge 1.21
	// channels[0].fees[1] fee 1.21
	// channels[0].orders[0] order_fees 3.74
}

// What the order comes to is what settling it by itself gives.
func ExampleChannel_Explain() {
	trail := quoin.NewTrail(16)
	list := quoin.Given("list price", quoin.Path{}, quoin.MustAmount("24.00").Figure())
	s := exampleMarketplace().Explain(trail, quoin.InList("channels", 0), exampleCurrency, 0, list)
	fmt.Println(s.Revenue.Value.Round(2), s.Tax.Value.Round(2), s.Fees.Value.Round(2), s.Fulfilment.Value.Round(2))
	fmt.Println(quoin.Replay(trail.Steps()))
	// Output:
	// 23.75 4.75 3.74 6.26
	// <nil>
}

// A print of 120.00 with 5.5% and a frame of 60.00 with 20%, and postage of 9.00. In proportion
// it is 6.00 and 3.00.
func ExampleTax_OnPostage() {
	goods := []channel.TaxedGoods{
		{Amount: quoin.MustAmount("120.00"), Rate: quoin.MustRate("5.5%")},
		{Amount: quoin.MustAmount("60.00"), Rate: quoin.MustRate("20%")},
	}
	for _, how := range []channel.ShippingRate{channel.InProportion, channel.AtHighestRate, channel.AtMainRate} {
		fmt.Println(how, channel.Tax{ShippingRate: how}.OnPostage(quoin.MustAmount("9.00"), goods, 2))
	}
	// Output:
	// proportion 0.93
	// highest 1.80
	// main 0.50
}
