package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
)

// One order of 40.00 with 4.50 for shipping, and a commission of 10% with 0.30.
func TestAfterTheSale(t *testing.T) {
	shop := func(r refund.Rates) channel.Channel {
		return channel.Channel{
			Orders: []channel.Order{{Shipping: amount("4.50")}}, Returns: &r,
			Fees: []channel.Fee{{Name: "commission", Rate: rate("10%"), Fixed: amount("0.30")}, {Name: "listing", Fixed: amount("0.15")}},
		}
	}
	taxed := func(r refund.Rates, onShipping bool) channel.Channel {
		c := shop(r)
		c.Tax = channel.Tax{Rate: rate("25%"), InPrice: true, OnShipping: onShipping}
		return c
	}
	tenth := rate("10%")
	for _, l := range []ledger{
		{what: "nothing comes back", c: shop(refund.Rates{}), fees: "commission 4.30; listing 0.15"},
		{what: "one in ten", c: shop(refund.Rates{Returned: tenth}), fees: "commission 4.30; listing 0.15; refunds 4.00"},
		{what: "with its shipping", c: shop(refund.Rates{Returned: tenth, Shipping: true}), fees: "commission 4.30; listing 0.15; refunds 4.45"},
		{what: "half the price", c: shop(refund.Rates{Returned: tenth, Part: someRate("50%")}), fees: "commission 4.30; listing 0.15; refunds 2.00"},
		// 4.30 × (1 − 0.10 × 0.50).
		{what: "half the fees", c: shop(refund.Rates{Returned: tenth, Fees: rate("50%")}), fees: "commission 4.085; listing 0.15; refunds 4.00"},
		// 4.30 × (1 − 0.10 × 0.50 × 1).
		{what: "all fees of half the price", c: shop(refund.Rates{Returned: tenth, Part: someRate("50%"), Fees: rate("100%")}), fees: "commission 4.085; listing 0.15; refunds 2.00"},
		{what: "postage of 6.00", c: shop(refund.Rates{Returned: tenth, Postage: amount("6.00")}), fees: "commission 4.30; listing 0.15; refunds 4.00; returns and disputes 0.60"},
		// 40.00 × (0.10 + 0.02 × 0.50), and 0.60 + 0.02 × 14.00.
		{
			what: "disputes, half of them lost", c: shop(refund.Rates{Returned: tenth, Postage: amount("6.00"), Disputed: rate("2%"), Lost: someRate("50%"), Fee: amount("14.00")}),
			fees: "commission 4.30; listing 0.15; refunds 4.40; returns and disputes 0.88",
		},
		{what: "all come back, and all fees", c: shop(refund.Rates{Returned: rate("100%"), Fees: rate("100%")}), fees: "listing 0.15; refunds 40"},
		{
			what: "disputes alone, all lost", c: shop(refund.Rates{Disputed: rate("2%"), Fee: amount("14.00"), Fees: rate("100%")}),
			fees: "commission 4.30; listing 0.15; refunds 0.80; returns and disputes 0.28",
		},
		{
			what: "disputes alone, none lost", c: shop(refund.Rates{Disputed: rate("2%"), Lost: someRate("0%"), Fee: amount("14.00")}),
			fees: "commission 4.30; listing 0.15; returns and disputes 0.28",
		},
	} {
		l.list, l.items, l.shipping, l.revenue = "40.00", "40", "4.50", "44.50"
		l.check(t)
	}
	for _, l := range []ledger{
		// Without its tax of 8.00 the print is 32.00.
		{what: "refunds of net items", c: taxed(refund.Rates{Returned: tenth}, false), tax: "8", revenue: "36.50", fees: "commission 4.30; listing 0.15; refunds 3.20"},
		{what: "and of untaxed shipping", c: taxed(refund.Rates{Returned: tenth, Shipping: true}, false), tax: "8", revenue: "36.50", fees: "commission 4.30; listing 0.15; refunds 3.65"},
		// 44.50 × 0.25 ÷ 1.25 = 8.90: 35.60.
		{what: "and of taxed shipping", c: taxed(refund.Rates{Returned: tenth, Shipping: true}, true), tax: "8.90", revenue: "35.60", fees: "commission 4.30; listing 0.15; refunds 3.56"},
	} {
		l.list, l.items, l.shipping = "40.00", "40", "4.50"
		l.check(t)
	}
}

// Fees of the list come back as far as the channel says, a commission with the price.
func TestFeesThatStay(t *testing.T) {
	c := gallery(channel.Consignment{Commission: someRate("40%")})
	c.Returns = &refund.Rates{Returned: rate("10%"), Fees: rate("100%")}
	c.Fees = []channel.Fee{
		{Name: "card", Rate: rate("3%"), Share: someRate("50%")},
		{Name: "slices", Tiers: []channel.Tier{{Rate: rate("2%")}, {From: amount("30"), Rate: rate("1%")}}},
	}
	// 1.50 × 50% × 90%; (0.60 + 0.20) × 90%; 20 × 90%, since a tenth of the sales is undone.
	ledger{what: "on consignment", c: c, list: "50.00", items: "50", revenue: "50", fees: "card 0.675; slices 0.72; commission 18; refunds 5"}.check(t)
}

// What a shop or a house keeps goes back with the price, what is only expected, and
// what the channel's list takes, as they say.
func TestGivenBackWithThePrice(t *testing.T) {
	back := refund.Rates{Returned: rate("10%"), Part: someRate("50%"), Disputed: rate("2%"), Lost: someRate("50%")} // 6% in all
	shop := gallery(channel.Consignment{Commission: someRate("40%"), Interest: rate("10%"), Days: 73})
	shop.Returns = &back
	printed := house(channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("50%")})
	printed.Returns = &back
	// 20.00 × 94%; 50.00 × 60% × 2%; 50.00 × 6%.
	ledger{what: "a shop", c: shop, list: "50.00", items: "50", revenue: "50", fees: "commission 18.80; waiting for the money 0.60; refunds 3"}.check(t)
	// (40.00 − 18.00) × 50% × 94%; 40.00 × 6%.
	ledger{what: "a house", c: printed, list: "40.00", items: "40", revenue: "40", fees: "the house keeps 10.34; refunds 2.40"}.check(t)
}

func TestBack(t *testing.T) {
	for _, c := range []struct{ returned, resold, want string }{{"10%", "80%", "8%"}, {"10%", "0%", "0%"}, {"0%", "80%", "0%"}, {"5%", "100%", "5%"}} {
		got := channel.Channel{Returns: &refund.Rates{Returned: rate(c.returned), Resold: rate(c.resold)}}.Back()
		if !got.Equal(rate(c.want)) {
			t.Errorf("%s returned, %s of it sold again: %s, want %s", c.returned, c.resold, got, c.want)
		}
	}
	if got := (channel.Channel{}).Back(); !got.Equal(quoin.Rate{}) {
		t.Errorf("nothing said: %s comes back", got)
	}
}
