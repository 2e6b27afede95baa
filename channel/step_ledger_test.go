package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
	"example.com/quoin/internal/steptest"
)

// explained is an order of kind i, step by step.
func explained(c channel.Channel, i int, list string) []quoin.Step {
	t := quoin.NewTrail(64)
	c.Explain(t, quoin.InList("channels", 3), eur, i, quoin.Given("list price", quoin.InField("list"), amount(list).Figure()))
	return t.Steps()
}

// shopWithAll has tax of 25% in its prices, two kinds of order, a code, and fees of every make.
func shopWithAll() channel.Channel {
	return channel.Channel{
		ID: "web", Uplift: rate("10%"), TradeDiscount: []quoin.Rate{rate("20%")}, Promotion: rate("5%"), LostParcels: rate("2%"),
		Tax:        channel.Tax{Rate: rate("25%"), InPrice: true, OnShipping: true},
		Promotions: []promo.Offer{{ID: "ten", Amount: amount("10.00")}},
		Orders: []channel.Order{{ID: "one", Share: someRate("60%"), Shipping: amount("5.00"), FreeFrom: some("100.00"), Postage: amount("4.90")}, {
			ID: "two", Share: someRate("40%"), Items: 2, Shipping: amount("5.00"), FreeFrom: some("150.00"), FreeTest: promo.Before, TaxRate: someRate("20%"),
			Codes: []string{"ten"}, Postage: amount("7.35"), Surcharge: &channel.Surcharge{Rate: rate("1%"), Fixed: amount("0.10")},
		}},
		Fees: []channel.Fee{
			{Name: "listing", Rate: rate("10%"), Of: []channel.Part{channel.Items, channel.Discount, channel.Shipping}, WithoutTax: true, AtLeast: amount("1.00"), AtMost: some("12.00"), Tax: rate("20%")},
			{Name: "payment", Rate: rate("2%"), Of: []channel.Part{channel.Items, channel.Shipping, channel.Surcharged}, Fixed: amount("0.30"), Per: quoin.PerItem, Orders: []string{"two"}},
			{Name: "tiers", Tiers: []channel.Tier{{From: amount("0"), Rate: rate("1%")}, {From: amount("50.00"), Rate: rate("2%"), Fixed: amount("0.50")}}},
			{Name: "whole", TierMode: channel.Whole, Tiers: []channel.Tier{{From: amount("20.00"), Rate: rate("3%"), Fixed: amount("0.20")}, {From: amount("90.00"), Rate: rate("1%")}}, Per: quoin.PerItem, Expected: true, Share: someRate("25%")},
			{Name: "monthly", Fixed: amount("20.00"), OrdersTogether: quoin.FactorOf(40)},
		},
	}
}

func ledgers() (out []struct {
	what, want string
	steps      []quoin.Step
},
) {
	add := func(what, want string, steps []quoin.Step) {
		out = append(out, struct {
			what, want string
			steps      []quoin.Step
		}{what, want, steps})
	}
	add("one print", onePrint, explained(shopWithAll(), 0, "100.00"))
	add("two prints", twoPrints, explained(shopWithAll(), 1, "100.00"))
	abroad := channel.Channel{
		ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80"), Conversion: rate("2%")},
		PricePoints:     &channel.PricePoints{EndsIn: []quoin.Amount{amount("4.95")}, Every: amount("5.00")},
		Orders:          []channel.Order{{Postage: amount("8.00"), Shipping: amount("6.00")}},
		Returns:         &refund.Rates{Returned: rate("10%"), Postage: amount("4.00"), Fees: rate("50%"), Shipping: true},
		Fees:            []channel.Fee{{Name: "sale", Rate: rate("10%")}},
	}
	add("abroad", abroadLedger, explained(abroad, 0, "20.00"))
	abroad = channel.Channel{PricePoints: &channel.PricePoints{Step: amount("0.50")}}
	add("points", pointsLedger, explained(abroad, 0, "0.10"))
	trade := channel.Channel{
		TradeDiscount: []quoin.Rate{rate("50%")}, Tax: channel.Tax{Rate: rate("20%")}, Orders: []channel.Order{{Items: 4, Postage: amount("9.00"), Reorder: true}},
		Trade: &channel.Trade{
			Freight: channel.Added, FreeFrom: some("100.00"), Agent: rate("10%"), AgentReorder: someRate("5%"), Defects: rate("1%"),
			Credit: channel.Credit{Days: 30, Interest: rate("7.3%"), Early: rate("2%"), EarlyDays: 10, Taken: someRate("50%"), Bad: rate("1%")},
		},
	}
	add("trade", tradeLedger, explained(trade, 0, "40.00"))
	trade = channel.Channel{Orders: []channel.Order{{Postage: amount("9.00")}}, Trade: &channel.Trade{Freight: channel.Allowance, Allowance: rate("10%")}}
	add("allowance", allowanceLedger, explained(trade, 0, "40.00"))
	gallery := channel.Channel{
		Tax: channel.Tax{Rate: rate("20%"), InPrice: true},
		Consignment: &channel.Consignment{
			OnMaker: someRate("100%"), CostsFirst: amount("10.00"), Registered: []channel.Party{channel.Maker}, Days: 73, Interest: rate("5%"),
			Discount: channel.Reduction{Rate: rate("10%"), Share: someRate("30%"), Borne: channel.ByMaker},
		},
	}
	add("gallery", galleryLedger, explained(gallery, 1, "120.00"))
	shelf := channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%"), Days: 73, Interest: rate("5%")}}
	add("shelf", shelfLedger, explained(shelf, 0, "50.00"))
	house := channel.Channel{Tax: channel.Tax{Rate: rate("25%"), InPrice: true}, OnDemand: &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("40%"), Sizes: []channel.OnDemandProduct{{Product: "a4", Base: amount("10.00")}}}}.For("a4")
	add("house", houseLedger, explained(house, 0, "50.00"))
	house.OnDemand = &channel.OnDemand{Pays: channel.FlatFee, Sizes: []channel.OnDemandProduct{{Product: "a4", Flat: amount("3.00")}}}
	add("flat", flatLedger, explained(house, 0, "50.00"))
	beside := channel.Channel{
		Tax:    channel.Tax{Rate: rate("20%"), InPrice: true, OnShipping: true, Classes: []channel.TaxClass{{Class: "print", Rate: rate("10%")}}},
		Orders: []channel.Order{{Shipping: amount("6.00"), Postage: amount("8.00"), Others: &channel.Others{Items: quoin.FactorOf(1), Worth: amount("30.00")}, Surcharge: &channel.Surcharge{Rate: rate("1%"), Fixed: amount("0.20")}}},
		Fees:   []channel.Fee{{Name: "card", Rate: rate("2%"), Fixed: amount("0.30"), Of: []channel.Part{channel.Items, channel.Shipping}}},
	}.TaxedAs("print")
	add("beside", besideLedger, explained(beside, 0, "20.00"))
	set := channel.Channel{Tax: channel.Tax{Rate: rate("20%"), Classes: []channel.TaxClass{{Class: "print", Rate: rate("10%")}}, OnShipping: true, Per: channel.PerTaxedUnit}, Orders: []channel.Order{{Items: 3, Shipping: amount("4.00")}}}
	add("set", setLedger, explained(set.OfParts(channel.TaxedPart{Name: "rail", Class: "print", Price: amount("30")}, channel.TaxedPart{Name: "frame", Price: amount("10")}), 0, "39.99"))
	set.Promotion = rate("0.05%")
	add("units", unitsLedger, explained(set, 0, "10.00"))
	return out
}

func TestStepLedgers(t *testing.T) {
	for _, l := range ledgers() {
		steptest.Ledger(t, l.what, l.steps, l.want)
	}
}

const onePrint = `
	// 100 × 1.1 × 0.8 × 0.95 = 83.60, and 5.00 since that is below 100; 88.60 ÷ 5 is tax
	1 unit_price @channels[3].orders[0]: product list price @list 100.00, uplift @channels[3].uplift 1+10%, trade discount @channels[3].trade_discount[0] 1−20% = 88.00 half_up 88.00
	2 items @channels[3].orders[0]: product unit_price #1 88.00, items @channels[3].orders[0].items or 1, promotion @channels[3].promotion 1−5% = 83.60 half_up 83.60
	3 shipping @channels[3].orders[0]: below shipping @channels[3].orders[0].shipping 5.00, items #2 83.60, free from @channels[3].orders[0].free_from 100.00 = 5.00
	4 taxable @channels[3].orders[0]: sum items #2 83.60, shipping #3 5.00 = 88.60
	5 tax @channels[3].orders[0]: quotient taxable #4 88.60, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 17.72 half_up 17.72
	6 order_revenue @channels[3].orders[0]: sum items #2 83.60, shipping #3 5.00, tax #5 −17.72 = 70.88
	7 full_price @channels[3].orders[0]: product unit_price #1 88.00, items @channels[3].orders[0].items or 1 = 88.00
	8 discount @channels[3].orders[0]: sum full_price #7 88.00, items #2 −83.60 = 4.40
	// 10% of (83.60 + 4.40 + 5.00) ÷ 1.25 = 7.44, and 20% on it
	9 fee_base @channels[3].fees[0] (listing): sum items #2 83.60, discount #8 4.40, shipping #3 5.00 = 93.00
	10 fee_base_tax @channels[3].fees[0] (listing): quotient fee_base #9 93.00, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 18.60 half_up 18.60
	11 fee_base @channels[3].fees[0] (listing): sum items #2 83.60, discount #8 4.40, shipping #3 5.00, fee_base_tax #10 −18.60 = 74.40
	12 fee_rated @channels[3].fees[0] (listing): product fee_base #11 74.40, rate @channels[3].fees[0].rate 10% = 7.44
	13 fee_charge @channels[3].fees[0] (listing): sum fee_rated #12 7.44, fixed @channels[3].fees[0].fixed or 0 = 7.44
	14 fee_at_least @channels[3].fees[0] (listing): greatest fee_charge #13 7.44, at least @channels[3].fees[0].at_least 1.00 = 7.44
	15 fee_at_most @channels[3].fees[0] (listing): least fee_at_least #14 7.44, at most @channels[3].fees[0].at_most 12.00 = 7.44 half_up 7.44
	16 fee_tax @channels[3].fees[0] (listing): product fee_at_most #15 7.44, tax @channels[3].fees[0].tax 20% = 1.488 half_up 1.49
	17 fee_charge @channels[3].fees[0] (listing): sum fee_at_most #15 7.44, fee_tax #16 1.49 = 8.93
	18 fee @channels[3].fees[0] (listing): product fee_charge #17 8.93, share @channels[3].fees[0].share or 100% = 8.93
	// 1% of 50 and 2% of 33.60, and 0.50
	19 fee_slice @channels[3].fees[2] (tiers): sum next from @channels[3].fees[2].tiers[1].from 50.00, from @channels[3].fees[2].tiers[0].from −0 = 50.00
	20 fee_slice @channels[3].fees[2] (tiers): sum items #2 83.60, from @channels[3].fees[2].tiers[1].from −50.00 = 33.60
	21 fee_rated @channels[3].fees[2] (tiers): weighted fee_slice #19 50.00, tier rate @channels[3].fees[2].tiers[0].rate 1%, fee_slice #20 33.60, tier rate @channels[3].fees[2].tiers[1].rate 2% = 1.172
	22 fee_charge @channels[3].fees[2] (tiers): sum fee_rated #21 1.172, tier fixed @channels[3].fees[2].tiers[1].fixed 0.50, fixed @channels[3].fees[2].fixed or 0 = 1.672 half_up 1.67
	23 fee @channels[3].fees[2] (tiers): product fee_charge #22 1.67, share @channels[3].fees[2].share or 100% = 1.67
	// (3% of 83.60 and 0.20) × 25%; 20 ÷ 40
	24 fee_rated @channels[3].fees[3] (whole): product items #2 83.60, tier rate @channels[3].fees[3].tiers[0].rate 3% = 2.508
	25 fee_fixed @channels[3].fees[3] (whole): product tier fixed @channels[3].fees[3].tiers[0].fixed 0.20, items @channels[3].orders[0].items or 1 = 0.20
	26 fee_charge @channels[3].fees[3] (whole): sum fee_rated #24 2.508, fee_fixed #25 0.20, fixed @channels[3].fees[3].fixed or 0 = 2.708
	27 fee @channels[3].fees[3] (whole): product fee_charge #26 2.708, share @channels[3].fees[3].share 25% = 0.677
	28 fee_rated @channels[3].fees[4] (monthly): product items #2 83.60, rate @channels[3].fees[4].rate or 0% = 0.00
	29 fee_charge @channels[3].fees[4] (monthly): sum fee_rated #28 0.00, fixed @channels[3].fees[4].fixed 20.00 = 20.00 half_up 20.00
	30 fee_per_order @channels[3].fees[4] (monthly): quotient fee_charge #29 20.00, over @channels[3].fees[4].orders_together 40 = 0.50
	31 fee @channels[3].fees[4] (monthly): product fee_per_order #30 0.50, share @channels[3].fees[4].share or 100% = 0.50
	32 order_fees @channels[3].orders[0]: sum listing #18 8.93, tiers #23 1.67, whole #27 0.677, monthly #31 0.50 = 11.777
	// 4.90 ÷ 0.98
	33 order_fulfilment @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage 4.90, loss @channels[3].lost_parcels 1−2% = 5.00`

const twoPrints = `
	// 2 × 88 × 0.95 − 10 = 157.20; before the code it was more than 150. 157.20 ÷ 6 is tax
	1 unit_price @channels[3].orders[1]: product list price @list 100.00, uplift @channels[3].uplift 1+10%, trade discount @channels[3].trade_discount[0] 1−20% = 88.00 half_up 88.00
	2 items @channels[3].orders[1]: product unit_price #1 88.00, items @channels[3].orders[1].items 2, promotion @channels[3].promotion 1−5% = 167.20 half_up 167.20
	3 offer_off @channels[3].promotions[0] (ten): least amount @channels[3].promotions[0].amount 10.00, items #2 167.20 = 10.00 half_up 10.00
	4 offer_left @channels[3].promotions[0] (ten): sum items #2 167.20, offer_off #3 −10.00 = 157.20
	5 shipping @channels[3].orders[1]: below shipping @channels[3].orders[1].shipping 5.00, items #2 167.20, free from @channels[3].orders[1].free_from 150.00 = 0.00
	6 taxable @channels[3].orders[1]: sum offer_left #4 157.20, shipping #5 0.00 = 157.20
	7 tax @channels[3].orders[1]: quotient taxable #6 157.20, tax rate @channels[3].orders[1].tax_rate 20%, tax rate @channels[3].orders[1].tax_rate 1+20% = 26.20 half_up 26.20
	// 1% of 157.20 and 0.10; a sixth of 1.67 is tax
	8 before_surcharge @channels[3].orders[1].surcharge: sum offer_left #4 157.20, shipping #5 0.00, tax on top 0 = 157.20
	9 surcharge_rated @channels[3].orders[1].surcharge: product before_surcharge #8 157.20, rate @channels[3].orders[1].surcharge.rate 1% = 1.572
	10 surcharge @channels[3].orders[1].surcharge: sum surcharge_rated #9 1.572, fixed @channels[3].orders[1].surcharge.fixed 0.10 = 1.672 half_up 1.67
	11 surcharge_tax @channels[3].orders[1].surcharge: quotient surcharge #10 1.67, tax rate @channels[3].orders[1].tax_rate 20%, tax rate @channels[3].orders[1].tax_rate 1+20% = 0.278333333333 half_up 0.28
	12 tax @channels[3].orders[1]: sum tax #7 26.20, surcharge_tax #11 0.28 = 26.48
	13 order_revenue @channels[3].orders[1]: sum offer_left #4 157.20, shipping #5 0.00, surcharge #10 1.67, tax #12 −26.48 = 132.39
	// 176 ÷ 1.2 = 146.67, of which 10% is above 12; and 20% on 12
	14 full_price @channels[3].orders[1]: product unit_price #1 88.00, items @channels[3].orders[1].items 2 = 176.00
	15 discount @channels[3].orders[1]: sum full_price #14 176.00, offer_left #4 −157.20 = 18.80
	16 fee_base @channels[3].fees[0] (listing): sum offer_left #4 157.20, discount #15 18.80, shipping #5 0.00 = 176.00
	17 fee_base_tax @channels[3].fees[0] (listing): quotient fee_base #16 176.00, tax rate @channels[3].orders[1].tax_rate 20%, tax rate @channels[3].orders[1].tax_rate 1+20% = 29.333333333333 half_up 29.33
	18 fee_base @channels[3].fees[0] (listing): sum offer_left #4 157.20, discount #15 18.80, shipping #5 0.00, fee_base_tax #17 −29.33 = 146.67
	19 fee_rated @channels[3].fees[0] (listing): product fee_base #18 146.67, rate @channels[3].fees[0].rate 10% = 14.667
	20 fee_charge @channels[3].fees[0] (listing): sum fee_rated #19 14.667, fixed @channels[3].fees[0].fixed or 0 = 14.667
	21 fee_at_least @channels[3].fees[0] (listing): greatest fee_charge #20 14.667, at least @channels[3].fees[0].at_least 1.00 = 14.667
	22 fee_at_most @channels[3].fees[0] (listing): least fee_at_least #21 14.667, at most @channels[3].fees[0].at_most 12.00 = 12.00 half_up 12.00
	23 fee_tax @channels[3].fees[0] (listing): product fee_at_most #22 12.00, tax @channels[3].fees[0].tax 20% = 2.40 half_up 2.40
	24 fee_charge @channels[3].fees[0] (listing): sum fee_at_most #22 12.00, fee_tax #23 2.40 = 14.40
	25 fee @channels[3].fees[0] (listing): product fee_charge #24 14.40, share @channels[3].fees[0].share or 100% = 14.40
	// 2% of 158.87 and 2 × 0.30
	26 fee_base @channels[3].fees[1] (payment): sum offer_left #4 157.20, shipping #5 0.00, surcharge #10 1.67 = 158.87
	27 fee_rated @channels[3].fees[1] (payment): product fee_base #26 158.87, rate @channels[3].fees[1].rate 2% = 3.1774
	28 fee_fixed @channels[3].fees[1] (payment): product fixed @channels[3].fees[1].fixed 0.30, items @channels[3].orders[1].items 2 = 0.60
	29 fee_charge @channels[3].fees[1] (payment): sum fee_rated #27 3.1774, fee_fixed #28 0.60 = 3.7774 half_up 3.78
	30 fee @channels[3].fees[1] (payment): product fee_charge #29 3.78, share @channels[3].fees[1].share or 100% = 3.78
	// 1% of 50 and 2% of 107.20, and 0.50
	31 fee_slice @channels[3].fees[2] (tiers): sum next from @channels[3].fees[2].tiers[1].from 50.00, from @channels[3].fees[2].tiers[0].from −0 = 50.00
	32 fee_slice @channels[3].fees[2] (tiers): sum offer_left #4 157.20, from @channels[3].fees[2].tiers[1].from −50.00 = 107.20
	33 fee_rated @channels[3].fees[2] (tiers): weighted fee_slice #31 50.00, tier rate @channels[3].fees[2].tiers[0].rate 1%, fee_slice #32 107.20, tier rate @channels[3].fees[2].tiers[1].rate 2% = 2.644
	34 fee_charge @channels[3].fees[2] (tiers): sum fee_rated #33 2.644, tier fixed @channels[3].fees[2].tiers[1].fixed 0.50, fixed @channels[3].fees[2].fixed or 0 = 3.144 half_up 3.14
	35 fee @channels[3].fees[2] (tiers): product fee_charge #34 3.14, share @channels[3].fees[2].share or 100% = 3.14
	// 157.20 is below 2 × 90: 3% and 2 × 0.20, × 25%
	36 fee_rated @channels[3].fees[3] (whole): product offer_left #4 157.20, tier rate @channels[3].fees[3].tiers[0].rate 3% = 4.716
	37 fee_fixed @channels[3].fees[3] (whole): product tier fixed @channels[3].fees[3].tiers[0].fixed 0.20, items @channels[3].orders[1].items 2 = 0.40
	38 fee_charge @channels[3].fees[3] (whole): sum fee_rated #36 4.716, fee_fixed #37 0.40, fixed @channels[3].fees[3].fixed or 0 = 5.116
	39 fee @channels[3].fees[3] (whole): product fee_charge #38 5.116, share @channels[3].fees[3].share 25% = 1.279
	40 fee_rated @channels[3].fees[4] (monthly): product offer_left #4 157.20, rate @channels[3].fees[4].rate or 0% = 0.00
	41 fee_charge @channels[3].fees[4] (monthly): sum fee_rated #40 0.00, fixed @channels[3].fees[4].fixed 20.00 = 20.00 half_up 20.00
	42 fee_per_order @channels[3].fees[4] (monthly): quotient fee_charge #41 20.00, over @channels[3].fees[4].orders_together 40 = 0.50
	43 fee @channels[3].fees[4] (monthly): product fee_per_order #42 0.50, share @channels[3].fees[4].share or 100% = 0.50
	44 order_fees @channels[3].orders[1]: sum listing #25 14.40, payment #30 3.78, tiers #35 3.14, whole #39 1.279, monthly #43 0.50 = 23.099
	45 order_fulfilment @channels[3].orders[1]: quotient postage @channels[3].orders[1].postage 7.35, loss @channels[3].lost_parcels 1−2% = 7.50`

const abroadLedger = `
	// 20 ÷ 0.80 = 25, nearest to 24.95
	1 unit_price @channels[3].orders[0]: product list price @list 20.00, uplift @channels[3].uplift or 1+0% = 20.00
	2 unit_price @channels[3].orders[0]: quotient unit_price #1 20.00, rate @channels[3].foreign_currency.rate 0.8 = 25.00
	3 price_point_steps @channels[3].price_points: quotient unit_price #2 25.00, every @channels[3].price_points.every 5.00 = 5 down 5
	4 price_point_steps @channels[3].price_points: sum price_point_steps #3 5, to the nearest -1 = 4
	5 price_point @channels[3].price_points: weighted price_point_steps #4 4, every @channels[3].price_points.every 5.00, one 1, ending @channels[3].price_points.ends_in[0] 4.95 = 24.95
	6 items @channels[3].orders[0]: product price_point #5 24.95, items @channels[3].orders[0].items or 1, promotion @channels[3].promotion or 1−0% = 24.95 half_up 24.95
	7 tax @channels[3].orders[0]: product items #6 24.95, tax rate @channels[3].tax.rate or 0% = 0.00 half_up 0.00
	8 order_revenue @channels[3].orders[0]: sum items #6 24.95, shipping @channels[3].orders[0].shipping 6.00 = 30.95
	// 10% of it, of which half of a tenth comes back; 2% of 30.95; a tenth of 30.95; a tenth of 4 ÷ 0.80
	9 fee_rated @channels[3].fees[0] (sale): product items #6 24.95, rate @channels[3].fees[0].rate 10% = 2.495
	10 fee_charge @channels[3].fees[0] (sale): sum fee_rated #9 2.495, fixed @channels[3].fees[0].fixed or 0 = 2.495 half_up 2.50
	11 fee_returned @channels[3].returns (sale): product returned @channels[3].returns.returned 10%, part @channels[3].returns.part or 100%, fees @channels[3].returns.fees 50% = 0.05
	12 fee_stays @channels[3].returns (sale): sum one 1, fee_returned #11 −0.05 = 0.95
	13 fee @channels[3].fees[0] (sale): product fee_charge #10 2.50, share @channels[3].fees[0].share or 100%, fee_stays #12 0.95 = 2.375
	14 fee_base @channels[3].foreign_currency (conversion): sum items #6 24.95, shipping @channels[3].orders[0].shipping 6.00, tax #7 0.00 = 30.95
	15 fee_rated @channels[3].foreign_currency (conversion): product fee_base #14 30.95, conversion @channels[3].foreign_currency.conversion 2% = 0.619
	16 fee_charge @channels[3].foreign_currency (conversion): sum fee_rated #15 0.619, fixed @channels[3].foreign_currency.fixed or 0 = 0.619 half_up 0.62
	17 fee @channels[3].foreign_currency (conversion): product fee_charge #16 0.62, share @channels[3].foreign_currency.share or 100% = 0.62
	18 fee_base @channels[3].returns (refunds): sum items #6 24.95, shipping @channels[3].orders[0].shipping 6.00 = 30.95
	19 refund_share @channels[3].returns (refunds): weighted returned @channels[3].returns.returned 10%, part @channels[3].returns.part or 100%, disputed @channels[3].returns.disputed or 0%, lost @channels[3].returns.lost or 100% = 0.1
	20 fee_rated @channels[3].returns (refunds): product fee_base #18 30.95, refund_share #19 0.1 = 3.095
	21 fee_charge @channels[3].returns (refunds): sum fee_rated #20 3.095, fixed @channels[3].returns.fixed or 0 = 3.095
	22 fee @channels[3].returns (refunds): product fee_charge #21 3.095, share @channels[3].returns.share or 100% = 3.095
	23 fee_rated @channels[3].returns (returns and disputes): product items #6 24.95, rate @channels[3].returns.rate or 0% = 0.00
	24 refund_postage @channels[3].returns (returns and disputes): quotient postage @channels[3].returns.postage 4.00, rate @channels[3].foreign_currency.rate 0.8 = 5.00
	25 refund_per_order @channels[3].returns (returns and disputes): weighted returned @channels[3].returns.returned 10%, refund_postage #24 5.00, disputed @channels[3].returns.disputed or 0%, fee @channels[3].returns.fee or 0 = 0.50
	26 fee_charge @channels[3].returns (returns and disputes): sum fee_rated #23 0.00, refund_per_order #25 0.50 = 0.50
	27 fee @channels[3].returns (returns and disputes): product fee_charge #26 0.50, share @channels[3].returns.share or 100% = 0.50
	28 order_fees @channels[3].orders[0]: sum sale #13 2.375, conversion #17 0.62, refunds #22 3.095, returns and disputes #27 0.50 = 6.59
	29 order_fulfilment @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage 8.00, loss @channels[3].lost_parcels or 1−0% = 8.00
	// 30.95 × 0.8, 6.59 × 0.8
	30 in_shop_currency @channels[3].orders[0]: product order_revenue #8 30.95, rate @channels[3].foreign_currency.rate 0.8 = 24.76
	31 in_shop_currency @channels[3].orders[0]: product tax #7 0.00, rate @channels[3].foreign_currency.rate 0.8 = 0.00
	32 in_shop_currency @channels[3].orders[0]: product order_fees #28 6.59, rate @channels[3].foreign_currency.rate 0.8 = 5.272`

const pointsLedger = `
	1 unit_price @channels[3]: product list price @list 0.10, uplift @channels[3].uplift or 1+0% = 0.10
	2 price_point_steps @channels[3].price_points: quotient unit_price #1 0.10, step @channels[3].price_points.step 0.50 = 0.2 half_up 0
	3 price_point_steps @channels[3].price_points: greatest price_point_steps #2 0, at least one 1 = 1
	4 price_point @channels[3].price_points: product price_point_steps #3 1, step @channels[3].price_points.step 0.50 = 0.50
	5 items @channels[3]: product price_point #4 0.50, items @channels[3].items or 1, promotion @channels[3].promotion or 1−0% = 0.50 half_up 0.50
	6 tax @channels[3]: product items #5 0.50, tax rate @channels[3].tax.rate or 0% = 0.00 half_up 0.00
	7 order_revenue @channels[3]: sum items #5 0.50, shipping @channels[3].shipping or 0 = 0.50
	8 order_fulfilment @channels[3]: quotient postage @channels[3].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`
