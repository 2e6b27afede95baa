package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
	"example.com/quoin/internal/problemtest"
)

// What is refused of a channel, in full: several faults at once, by what they are about.
func TestProblemsTold(t *testing.T) {
	day := quoin.MustDate
	for _, c := range []struct {
		what string
		in   channel.Channel
		want string
	}{
		{"fees", channel.Channel{ID: "web", Orders: []channel.Order{{ID: "home"}}, Fees: []channel.Fee{
			{Rate: rate("3%"), Of: []channel.Part{"items", "shipping", "items"}, Orders: []string{"home", "hame"}},
			{Rate: rate("3%"), Tiers: []channel.Tier{{From: amount("0"), Rate: rate("1%")}, {From: amount("5"), Rate: rate("2%")}, {From: amount("5")}}},
		}}, `fault fees[0].orders[1]: found "hame", wanted the id of one of the channel's orders; did you mean home? [unknown_id]
fault fees[0].of[2]: found "items" again, wanted each part once [repeated_part]
fault fees[1].rate: found 3% beside tiers, wanted a rate or tiers; make the rate the first tier, from 0 [rate_and_tiers]
fault fees[1].tiers[2].rate: found nothing, wanted the field rate or fixed, or both; write "fixed": 0 if nothing is charged there [missing_field]
fault fees[1].tiers[2].from: found 5 after 5, wanted tiers in rising order [unsorted_tiers]`},
		{"orders", channel.Channel{ID: "web", Orders: []channel.Order{
			{ID: "a", Share: someRate("50%"), Zone: "home", Reorder: true, Codes: []string{"x", "x", "y", "z"}},
			{ID: "a", Share: someRate("40%"), Surcharge: &channel.Surcharge{}, Others: &channel.Others{Items: quoin.FactorOf(1), Worth: amount("1"), Mass: quoin.MustQuantity("5 g")}},
		}, Promotions: []promo.Offer{{ID: "x", Rate: rate("5%")}, {ID: "y", Rate: rate("5%"), Alone: true}, {ID: "x", Rate: rate("5%")}, {ID: "bad"}}}, `fault orders[1].id: found "a" again, wanted an id of its own in the channel [duplicate_id]
fault promotions[2].id: found "x" again, wanted an id of its own in the channel [duplicate_id]
fault promotions[3]: found an offer that takes nothing off, wanted exactly one of rate, amount, buy and free, price, sale [missing_discount]
fault orders[0].codes[1]: found "x" again, wanted each code once [duplicate_id]
fault orders[0].codes[2]: found "y" beside other codes, wanted it alone: it does not stack [does_not_stack]
fault orders[0].codes[3]: found "z", wanted the id of one of the channel's promotions [unknown_id]
fault orders[0].zone: found a zone, and no tariff in the channel, wanted a tariff that has zones, or no zone [stray_terms]
fault orders[0].reorder: found a reorder, and no trade terms in the channel, wanted trade terms, or no reorder [stray_terms]
fault orders[1].surcharge: found a surcharge of nothing, wanted a rate or a fixed amount above 0, or both; leave the surcharge out if there is none [missing_field]
fault orders[1].others.mass: found a mass of others, and no tariff in the channel, wanted a tariff that parcels go by, or no mass [stray_terms]`},
		{"price points", channel.Channel{ID: "web", PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.955")}, Every: amount("1.005")}}, `fault price_points.every: found 1.005, wanted a whole number of minor units, with 2 digits [step_off_minor_unit]
fault price_points.ends_in[0]: found 0.955, wanted a whole number of minor units, with 2 digits [step_off_minor_unit]`},
		{"a step and endings", channel.Channel{ID: "web", PricePoints: &channel.PricePoints{Step: amount("0.125"), EndsIn: []quoin.Amount{amount("0.95")}}}, `fault price_points.step: found a step beside endings, wanted a step or endings [bad_price_points]`},
		{"neither", channel.Channel{ID: "web", PricePoints: &channel.PricePoints{}}, `fault price_points.step: found neither a step nor endings, wanted one of them [bad_price_points]`},
		{"every alone", channel.Channel{ID: "web", PricePoints: &channel.PricePoints{Step: amount("1"), Every: amount("5")}}, `fault price_points.every: found every without ends_in, wanted endings in ends_in, or no every [bad_price_points]`},
		{"an ending of all", channel.Channel{ID: "web", PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.95"), amount("1")}}}, `fault price_points.ends_in[1]: found 1, wanted less than every, 1 [bad_price_points]`},
		{"tax", channel.Channel{
			ID: "web", Tax: channel.Tax{Rounded: channel.RoundedNet, Of: channel.OfFullPrice, ShippingRate: channel.AtHighestRate, Classes: []channel.TaxClass{{"a", rate("5%")}, {"a", rate("6%")}}},
			Orders: []channel.Order{{TaxClasses: []channel.TaxClass{{"b", rate("5%")}, {"b", rate("6%")}}}}, OnDemand: &channel.OnDemand{Pays: channel.FlatFee},
		}, `fault tax.classes[1].class: found "a" again, wanted one rate for each class [duplicate_id]
fault orders[0].tax_classes[1].class: found "b" again, wanted one rate for each class [duplicate_id]
fault tax.rounded: found the net rounded, and tax added on top of it, wanted in_price, or no rounded: tax on top is taken of the net, which is the price [stray_terms]
fault tax.of: found a tax of the full price where a shop or a house sells, wanted a tax of what is paid [stray_terms]
fault tax.shipping_rate: found a rate for shipping that is not taxed, wanted on_shipping, or no shipping_rate [stray_terms]`},
		{"trade", channel.Channel{
			ID: "web", Orders: []channel.Order{{Shipping: amount("5"), FreeFrom: some("9"), Others: &channel.Others{Items: quoin.FactorOf(1), Worth: amount("1")}}},
			Trade: &channel.Trade{
				Freight: channel.Prepaid, FreeFrom: some("9"), Allowance: rate("5%"), LineSheet: channel.LineSheetHead{ValidFrom: day("2026-03-02"), ValidUntil: day("2026-03-01")},
				Credit: channel.Credit{Interest: rate("5%"), EarlyDays: 10},
			},
		}, `fault orders[0].shipping: found shipping beside freight in the trade terms, wanted postage alone: what the shop is charged follows [stray_freight]
fault orders[0].free_from: found free_from beside freight in the trade terms, wanted free_from in the trade terms [stray_freight]
fault trade.free_from: found freight that is not added, wanted freight added, which is free from there [stray_terms]
fault trade.allowance: found an allowance or freight by allowance, one without the other, wanted both or none [stray_terms]
fault trade.line_sheet.valid_until: found 2026-03-01, wanted a day on or after valid_from, which is 2026-03-02 [out_of_range]
fault trade.credit.early: found no discount for paying early, wanted the discount that early_days, taken and early_rounded are about [stray_terms]
fault trade.credit.days: found nothing, wanted after how many days the money comes in [stray_terms]
fault orders[0].others: found other items in the order, in a channel with trade terms, wanted other items only where you sell to buyers yourself [stray_terms]`},
		{"an allowance of nothing", channel.Channel{ID: "web", Trade: &channel.Trade{Freight: channel.Allowance, Credit: channel.Credit{Days: 5, Early: rate("2%"), EarlyDays: 10}}}, `fault trade.allowance: found an allowance or freight by allowance, one without the other, wanted both or none [stray_terms]
fault trade.credit.early_days: found 10, wanted at most the 5 days of the net amount [out_of_range]`},
		{"early, and no days", channel.Channel{ID: "web", Trade: &channel.Trade{Credit: channel.Credit{Early: rate("2%")}}}, `fault trade.credit.early_days: found nothing, wanted within how many days the early discount is given [stray_terms]
fault trade.credit.days: found nothing, wanted after how many days the money comes in [stray_terms]`},
		{"credit that is sound", channel.Channel{ID: "web", Trade: &channel.Trade{
			LineSheet: channel.LineSheetHead{ValidFrom: day("2026-03-01"), ValidUntil: day("2026-03-01")},
			Credit:    channel.Credit{Days: 10, Early: rate("2%"), EarlyDays: 10, EarlyRounded: channel.RoundedDue},
		}}, ""},
		{"consignment", channel.Channel{
			ID: "web", Orders: []channel.Order{{Surcharge: &channel.Surcharge{Rate: rate("1%")}}},
			Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Borne: channel.ByShop}, Registered: []channel.Party{channel.Maker, channel.Maker}, Interest: rate("5%")},
		}, `fault consignment.discount.rate: found no discount, wanted the discount that is borne [stray_terms]
fault consignment.registered[1]: found "maker" again, wanted each side once [repeated_part]
fault consignment.days: found nothing, wanted after how many days the money comes in [stray_terms]
fault orders[0].surcharge: found a surcharge, where a shop or a house is paid, wanted a surcharge only where buyers pay you [stray_terms]`},
		{"discounts forbidden", channel.Channel{ID: "web", Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Borne: channel.Forbidden}}}, `fault consignment.discount.rate: found 10%, and discounts are forbidden, wanted no discount [stray_terms]`},
		{"none, and forbidden", channel.Channel{ID: "web", Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Borne: channel.Forbidden}}}, ""},
		{"a share of no discount", channel.Channel{ID: "web", Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Share: someRate("10%")}}}, `fault consignment.discount.rate: found no discount, wanted the discount that is borne [stray_terms]`},
		{"on demand", channel.Channel{
			ID: "web", Returns: &refund.Rates{Returned: rate("5%"), Resold: rate("5%")},
			OnDemand: &channel.OnDemand{Pays: channel.AboveBase, Rate: rate("5%"), Sizes: []channel.OnDemandProduct{{Product: "a"}, {Product: "a"}}},
		}, `fault on_demand.rate: found 5% beside above_base, wanted a rate for a royalty and for a share of the rest, and for nothing else [stray_terms]
fault on_demand.pays: found prints on demand, and returns that are sold again, wanted no resold: what comes back is the house's [stray_terms]
fault on_demand.sizes[1].product: found "a" again, wanted each product once [duplicate_id]`},
		{"a royalty of nothing", channel.Channel{ID: "web", OnDemand: &channel.OnDemand{Pays: channel.Royalty}}, `fault on_demand.rate: found no rate, wanted a rate for a royalty and for a share of the rest, and for nothing else [stray_terms]`},
		{"a royalty of too much", channel.Channel{ID: "web", Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, OnDemand: &channel.OnDemand{Pays: channel.Royalty, Rate: rate("84%")}}, `fault on_demand.rate: found a rate of 84% of the price, of which the tax in it leaves the house 83.33%, wanted a rate below that; lower the rate, or set without_tax where it is of the price without the tax [pays_more_than_left]`},
		{"returns", channel.Channel{ID: "web", Returns: &refund.Rates{Returned: rate("90%"), Disputed: rate("20%")}}, `fault returns.returned: found 110% given back by returns and lost disputes, wanted at most 100% [refunds_above_all]`},
		{"fixed cost", channel.Channel{ID: "web", FixedCost: channel.FixedCost{Cost: amount("20.00")}}, `fault fixed_cost.items: found nothing, wanted how many items the cost of 20.00 is spread over, above zero [no_items]`},
		{"a tariff and no mass", channel.Channel{ID: "web", Tariff: "post", Orders: []channel.Order{{Zone: "home", Others: &channel.Others{Items: quoin.FactorOf(1), Worth: amount("1")}}}}, `fault orders[0].others.mass: found nothing, wanted the field mass, by which its tariff charges [missing_field]`},
		{"all of it fees", channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("60%")}, {Rate: rate("40%")}}}, `fault fees: found fees that grow at least as fast as what the shop keeps of the price, wanted fees that leave something of a higher price; check the rates, their tax and their base [fees_take_everything]`},
		{"nearly", channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("60%")}, {Rate: rate("39.9%")}}}, ""},
	} {
		if got := problemtest.Told(c.in.Check(eur)); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}
