package channel_test

import (
	"encoding/json"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// Ways of selling linocuts of marsh birds. All fees, rates, terms and prices are
// invented.

// settledAs prints what an order comes to, and its fees by name.
func settledAs(t channel.Terms, kind int, list string) {
	s := t.Settle(kind, quoin.MustAmount(list))
	fmt.Printf("items %.2f, shipping %.2f, tax %.2f, revenue %.2f\n", s.Items, s.Shipping, s.Tax, s.Revenue)
	for i, name := range t.Fees() {
		if total := s.Charges[i].Total; !total.IsZero() {
			fmt.Printf("%s %.4f\n", name, total)
		}
	}
}

func exampleShops() channel.Channel {
	return channel.Channel{
		ID: "shops", TradeDiscount: []quoin.Rate{quoin.MustRate("50%")},
		Orders: []channel.Order{
			{ID: "first", Share: quoin.Some(quoin.MustRate("25%")), Items: 12, Postage: quoin.MustAmount("9.60")},
			{ID: "again", Share: quoin.Some(quoin.MustRate("75%")), Items: 12, Postage: quoin.MustAmount("9.60"), Reorder: true},
		},
		Trade: &channel.Trade{
			Freight: channel.Added, Agent: quoin.MustRate("15%"), AgentReorder: quoin.Some(quoin.MustRate("10%")),
			Credit: channel.Credit{Days: 30, Interest: quoin.MustRate("8%"), Early: quoin.MustRate("2%"), EarlyDays: 10, Taken: quoin.Some(quoin.MustRate("40%"))},
		},
	}
}

// A dozen at half of 24.00 is 144.00, and the shop is charged the postage: an
// invoice of 153.60. Two in five take 2% off it, 3.07 × 0.4; money is waited for
// 22 days on average, 153.60 × 8% × 22 ÷ 365; the agent has 10% of a reorder.
func ExampleTrade() {
	settledAs(exampleShops().Terms(exampleCurrency), 1, "24.00")
	// Output:
	// items 144.00, shipping 9.60, tax 0.00, revenue 153.60
	// early payment 1.2280
	// waiting for the money 0.7406
	// agent 14.4000
}

// Where the shop pays the carrier, and is given 5% of the items towards it, sending
// costs the maker nothing else.
func ExampleFreight() {
	c := exampleShops()
	c.Trade = &channel.Trade{Freight: channel.Allowance, Allowance: quoin.MustRate("5%")}
	t := c.Terms(exampleCurrency)
	settledAs(t, 0, "24.00")
	fmt.Println(t.Settle(0, quoin.MustAmount("24.00")).Fulfilment)
	// Output:
	// items 144.00, shipping 0.00, tax 0.00, revenue 144.00
	// freight allowance 7.2000
	// 0.00
}

// 2% for paying 20 days early is 2 ÷ 98 for 20 days, and 18 times that in a year
// of 360.
func ExampleCredit_EarlyCost() {
	terms := channel.Credit{Days: 30, Early: quoin.MustRate("2%"), EarlyDays: 10}
	for _, year := range []int64{360, 365} {
		cost, ok := terms.EarlyCost(year)
		fmt.Println(cost.Round(2), ok)
	}
	// Output:
	// 36.73% true
	// 37.24% true
}

// Left to grow over and over in a year of 365 days, the same is more.
func ExampleCredit_EarlyYield() {
	yield, ok := channel.Credit{Days: 30, Early: quoin.MustRate("2%"), EarlyDays: 10}.EarlyYield(365)
	fmt.Println(yield.Round(2), ok)
	// Output: 44.59% true
}

// A minimum of 150.00 takes three cases of six at 12.00.
func ExampleTrade_Makes() {
	fmt.Println(channel.Trade{Case: 6}.Makes(quoin.MustAmount("150.00"), quoin.MustAmount("12.00")))
	// Output: 18 true
}

// What the buyer pays: 40.00 and 4.50 with 25% of tax on both, on top or in them.
func ExampleSettlement_Paid() {
	for _, inPrice := range []bool{false, true} {
		c := channel.Channel{
			Tax:    channel.Tax{Rate: quoin.MustRate("25%"), InPrice: inPrice, OnShipping: true},
			Orders: []channel.Order{{Shipping: quoin.MustAmount("4.50")}},
		}
		fmt.Printf("%.2f\n", c.Terms(exampleCurrency).Settle(0, quoin.MustAmount("40.00")).Paid())
	}
	// Output:
	// 55.63
	// 44.50
}

// Two in five pay after 10 days, the others after 30; at 7.3% a year each day is
// 0.02% of the invoice.
func ExampleCredit_Carries() {
	terms := channel.Credit{
		Days: 30, Interest: quoin.MustRate("7.3%"), Early: quoin.MustRate("2%"), EarlyDays: 10, Taken: quoin.Some(quoin.MustRate("40%")),
	}
	fmt.Println(terms.Waits(), terms.Carries())
	// Output: 22 0.44%
}

// Of 50.00 a gallery keeps 40% of what is beyond the frame for 12.00: 38.00 × 0.4.
// It pays after 73 days, a fifth of a year, at 10%: 2% of the maker's 60%. The
// maker is registered for the tax of 20% in the price.
func ExampleConsignment() {
	c := channel.Channel{
		ID: "gallery", Tax: channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true},
		Consignment: &channel.Consignment{
			Commission: quoin.Some(quoin.MustRate("40%")), CostsFirst: quoin.MustAmount("12.00"), Registered: []channel.Party{channel.Maker},
			Days: 73, Interest: quoin.MustRate("10%"), LostPieces: quoin.MustRate("5%"),
		},
	}
	settledAs(c.Terms(exampleCurrency), 0, "50.00")
	fmt.Println(c.Lost())
	// Output:
	// items 50.00, shipping 0.00, tax 8.33, revenue 41.67
	// commission 15.2000
	// waiting for the money 0.6000
	// 5%
}

// A shop that doubles what it pays has half of the price.
func ExampleConsignment_Takes() {
	fmt.Println(channel.Consignment{OnMaker: quoin.Some(quoin.MustRate("100%"))}.Takes())
	fmt.Println(channel.Consignment{Commission: quoin.Some(quoin.MustRate("40%"))}.Takes())
	// Output:
	// 50%
	// 40%
}

// A tenth off 50.00 costs each its part of 5.00, or the maker all of it, or the
// shop.
func ExampleReduction() {
	for _, borne := range []channel.DiscountBearer{channel.Shared, channel.ByMaker, channel.ByShop} {
		c := channel.Channel{Consignment: &channel.Consignment{
			Commission: quoin.Some(quoin.MustRate("40%")), Discount: channel.Reduction{Rate: quoin.MustRate("10%"), Borne: borne},
		}}
		s := c.Terms(exampleCurrency).Settle(0, quoin.MustAmount("50.00"))
		fmt.Println(borne, s.Revenue.Sub(s.Fees))
	}
	// Output:
	// shared 27.00
	// maker 25.00
	// shop 30.00
}

func exampleHouse() channel.Channel {
	return channel.Channel{
		ID: "house",
		OnDemand: &channel.OnDemand{
			Pays: channel.ShareOfRest, Rate: quoin.MustRate("50%"),
			Sizes: []channel.OnDemandProduct{
				{Product: "rail", Base: quoin.MustAmount("18.00")},
				{Product: "bittern", Base: quoin.MustAmount("25.00")},
			},
		},
	}
}

// A house prints a rail for 18.00 and keeps half of what 40.00 leaves, 11.00; the
// maker gets the other half.
func ExampleOnDemand() {
	rail := exampleHouse().For("rail")
	settledAs(rail.Terms(exampleCurrency), 0, "40.00")
	// Output:
	// items 40.00, shipping 0.00, tax 0.00, revenue 40.00
	// the house keeps 11.0000
}

// The same terms leave less of a bittern, which costs more to print.
func ExampleChannel_For() {
	fmt.Println(exampleHouse().ByProduct())
	for _, product := range []string{"rail", "bittern"} {
		c := exampleHouse().For(product)
		s := c.Terms(exampleCurrency).Settle(0, quoin.MustAmount("40.00"))
		base, _ := c.Prints()
		fmt.Println(c.Product, s.Revenue.Sub(s.Fees).Sub(base))
	}
	// Output:
	// true
	// rail 11.00
	// bittern 7.50
}

// What a house asks takes the place of all that goes into a print.
func ExampleChannel_Prints() {
	fmt.Println(exampleHouse().For("bittern").Prints())
	fmt.Println(exampleMarketplace().Prints())
	// Output:
	// 25.00 true
	// 0 false
}

// Of the parcels 2% are lost in the post, and of what arrives 5% in the shop: 98% ×
// 95% is left.
func ExampleChannel_Lost() {
	c := channel.Channel{LostParcels: quoin.MustRate("2%"), Consignment: &channel.Consignment{LostPieces: quoin.MustRate("5%")}}
	trail := quoin.NewTrail(2)
	fmt.Println(c.Lost(), c.ExplainLost(trail, quoin.InList("channels", 0)).Value, quoin.Replay(trail.Steps()))
	// Output: 6.9% 0.069 <nil>
}

// One order in ten comes back, and four in five of those prints can be sold again.
// Of 40.00, 4.00 are given back on average, and with it half of the commission.
func ExampleChannel_Back() {
	c := channel.Channel{
		Fees:    []channel.Fee{{Name: "commission", Rate: quoin.MustRate("10%")}},
		Returns: &refund.Rates{Returned: quoin.MustRate("10%"), Resold: quoin.MustRate("80%"), Fees: quoin.MustRate("50%")},
	}
	fmt.Println(c.Back())
	settledAs(c.Terms(exampleCurrency), 0, "40.00")
	// Output:
	// 8%
	// items 40.00, shipping 0.00, tax 0.00, revenue 40.00
	// commission 3.8000
	// refunds 4.0000
}

// Prices that end in .90 or .50, or what a till can give back.
func ExamplePricePoints_Nearest() {
	ends := channel.PricePoints{EndsIn: []quoin.Amount{quoin.MustAmount("0.90"), quoin.MustAmount("0.50")}}
	till := channel.PricePoints{Step: quoin.MustAmount("0.05")}
	for _, price := range []string{"24.18", "24.20", "24.24"} {
		a := quoin.MustAmount(price)
		fmt.Println(price, ends.Nearest(a), till.Nearest(a))
	}
	// Output:
	// 24.18 23.90 24.20
	// 24.20 24.50 24.20
	// 24.24 24.50 24.25
}

func ExamplePricePoints_Check() {
	fmt.Println(channel.PricePoints{Step: quoin.MustAmount("0.05")}.Check())
	fmt.Println(channel.PricePoints{EndsIn: []quoin.Amount{quoin.MustAmount("9")}}.Check())
	// Output:
	// <nil>
	// ends_in[0]: found 9, wanted less than every, 1 [bad_price_points]
}

func exampleAbroad() channel.Channel {
	return channel.Channel{
		ID: "abroad", PricePoints: &channel.PricePoints{Step: quoin.MustAmount("5.00")},
		ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80"), Date: quoin.MustDate("2026-03-01"), Conversion: quoin.MustRate("2%")},
		Orders:          []channel.Order{{Shipping: quoin.MustAmount("9.00"), Postage: quoin.MustAmount("6.00")}},
	}
}

// 26.00 at home are 32.50 where a unit costs 0.80, and are asked as 35.00. Changing
// 44.00 back takes 2%, 0.88.
func ExampleForeignCurrency() {
	settledAs(exampleAbroad().Terms(exampleCurrency), 0, "26.00")
	// Output:
	// items 35.00, shipping 9.00, tax 0.00, revenue 44.00
	// conversion 0.8800
}

// A settlement is in the currency that buyers pay in; takings are in the shop's.
func ExampleTerms_Home() {
	t := exampleAbroad().Terms(exampleCurrency)
	list := quoin.MustAmount("26.00")
	s := t.Settle(0, list)
	fmt.Printf("%.2f %.2f\n", s.Revenue, t.Home(s.Revenue))
	fmt.Printf("%.2f\n", t.Proceeds(list).Revenue)
	// Output:
	// 44.00 35.20
	// 35.20
}

// A gallery that takes a tenth off on a quarter of its sales makes two kinds of one.
func ExampleTerms_Order() {
	c := channel.Channel{
		Orders: []channel.Order{{Name: "at the gallery"}},
		Consignment: &channel.Consignment{
			Commission: quoin.Some(quoin.MustRate("40%")),
			Discount:   channel.Reduction{Rate: quoin.MustRate("10%"), Share: quoin.Some(quoin.MustRate("25%"))},
		},
	}
	t := c.Terms(exampleCurrency)
	for i := range t.Orders() {
		o, place := t.Order(i)
		fmt.Println(o.Name, place, t.Share(i), t.Settle(i, quoin.MustAmount("50.00")).Items)
	}
	fmt.Println(c.Kinds())
	// Output:
	// at the gallery, at the full price 0 75% 50.00
	// at the gallery, at the discount 0 25% 45.00
	// [0 0]
}

// Fees of the channel's list come first, then those that follow from its way of
// selling.
func ExampleTerms_Fees() {
	c := exampleShops()
	c.Fees = []channel.Fee{{Name: "payment", Rate: quoin.MustRate("1%")}}
	for _, name := range c.Terms(exampleCurrency).Fees() {
		fmt.Println(name)
	}
	// Output:
	// payment
	// early payment
	// waiting for the money
	// agent
	// agent
}

// What is charged on many orders together, as it falls on one of 40.00: a
// subscription of 24.00 over the 60 orders of a month, clicks of 0.30 of which one in
// fifty becomes an order, and 10% that come to at most 50.00 over twenty orders.
func ExampleFee_Charge_over() {
	paid := channel.Payment{Count: 1, Items: quoin.MustAmount("40.00")}
	for _, f := range []channel.Fee{
		{Name: "subscription", Fixed: quoin.MustAmount("24.00"), OrdersTogether: quoin.FactorOf(60)},
		{Name: "clicks", Fixed: quoin.MustAmount("0.30"), OrdersTogether: quoin.MustFactor("0.02")},
		{Name: "capped", Rate: quoin.MustRate("10%"), AtMost: quoin.Some(quoin.MustAmount("50.00")), OrdersTogether: quoin.FactorOf(20)},
	} {
		c := f.Charge(paid, 2)
		fmt.Printf("%s: %.2f together, %.2f each\n", f.Name, c.Rounded, c.Total)
	}
	// Output:
	// subscription: 24.00 together, 0.40 each
	// clicks: 0.30 together, 15.00 each
	// capped: 50.00 together, 2.50 each
}

// Three at 20.00 are 60.00, a tenth off them leaves 54.00, and five off that 49.00,
// in the order of the channel. Postage is free from 55.00, tested before or after.
func ExampleOrder_codes() {
	for _, test := range []promo.Test{promo.After, promo.Before} {
		c := channel.Channel{
			Promotions: []promo.Offer{{ID: "TENTH", Rate: quoin.MustRate("10%")}, {ID: "FIVE", Amount: quoin.MustAmount("5.00")}},
			Orders: []channel.Order{{
				Items: 3, Codes: []string{"FIVE", "TENTH"}, FreeTest: test,
				Shipping: quoin.MustAmount("4.50"), FreeFrom: quoin.Some(quoin.MustAmount("55.00")),
			}},
		}
		s := c.Terms(exampleCurrency).Settle(0, quoin.MustAmount("20.00"))
		fmt.Println(test, s.Items, s.Discount, s.Shipping)
	}
	// Output:
	// after 49.00 11.00 4.50
	// before 49.00 11.00 0.00
}

// A price of 24.00 holds 20% of tax at home, 4.00. For a buyer who is taxed at 10%
// the gross price stays, or the net one of 20.00.
func ExampleConstant() {
	for _, constant := range []channel.Constant{channel.Gross, channel.Net} {
		c := channel.Channel{
			Tax:    channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true, Constant: constant},
			Orders: []channel.Order{{TaxRate: quoin.Some(quoin.MustRate("10%"))}},
		}
		s := c.Terms(exampleCurrency).Settle(0, quoin.MustAmount("24.00"))
		fmt.Println(constant, s.Unit, s.Tax, s.Revenue)
	}
	// Output:
	// gross 24.00 2.18 21.82
	// net 22.00 2.00 20.00
}

// As a document gives it.
func ExamplePayout() {
	var way channel.OnDemand
	err := json.Unmarshal([]byte(`{"pays": "royalty", "rate": "20%", "without_tax": true}`), &way)
	fmt.Println(way.Pays, way.Rate, way.WithoutTax, err)
	err = json.Unmarshal([]byte(`{"pays": "royaly"}`), &way)
	fmt.Println(err)
	// Output:
	// royalty 20% true <nil>
	// found "royaly", wanted one of above_base, royalty, share_of_rest, flat_fee; did you mean royalty? [unknown_word]
}
