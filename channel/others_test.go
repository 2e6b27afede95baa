package channel_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// besideFrame is a print in an order with 1 frame worth 40.00, or worth something else. All invented.
func besideFrame(worth string) channel.Channel {
	return channel.Channel{
		Orders: []channel.Order{{
			Shipping: amount("4.50"), FreeFrom: some("50.00"), Postage: amount("6.20"),
			Others: &channel.Others{Items: over("1"), Worth: amount(worth)},
		}},
		Fees: []channel.Fee{{Name: "card", Rate: rate("2%"), Fixed: amount("0.30"), Of: []channel.Part{channel.Items, channel.Shipping}}},
	}
}

// What a print at 20.00 bears of an order.
func TestAPrintBearsItsShare(t *testing.T) {
	with := func(c channel.Channel, of func(*channel.Channel)) channel.Channel {
		of(&c)
		return c
	}
	fee := func(f channel.Fee) func(*channel.Channel) {
		return func(c *channel.Channel) { c.Fees = []channel.Fee{f} }
	}
	order := func(of func(*channel.Order)) func(*channel.Channel) {
		return func(c *channel.Channel) { of(&c.Orders[0]) }
	}
	code := func(o promo.Offer) func(*channel.Channel) {
		return func(c *channel.Channel) {
			o.ID = "c"
			c.Promotions, c.Orders[0].Codes, c.Fees = []promo.Offer{o}, []string{"c"}, nil
		}
	}
	tiers := []channel.Tier{{Rate: rate("10%")}, {From: amount("50.00"), Rate: rate("5%"), Fixed: amount("0.40")}}
	for _, c := range []struct {
		what string
		c    channel.Channel
		want string // revenue, tax, fees, postage
	}{
		// 60.00 reach 50.00: no shipping. 2% of 60.00 and 0.30 are 1.50: 0.40 and 0.15 of it are the print's.
		{"free from 50.00", besideFrame("40.00"), "20.00 0.00 0.55 3.10"},
		// 45.00 do not: 2.25 of 4.50 are charged for the print. 2% of 22.25 is 0.445, and 0.15: 0.595.
		{"not free", besideFrame("25.00"), "22.25 0.00 0.60 3.10"},
		// Of 20% in 22.25: 3.7083.
		{"tax in prices", with(besideFrame("25.00"), func(c *channel.Channel) { c.Tax = channel.Tax{Rate: rate("20%"), InPrice: true, OnShipping: true} }), "18.54 3.71 0.60 3.10"},
		// Two prints and one other: two thirds of 4.50 and 6.20; the fee is 2% of 43.00 and 0.20.
		{"two of three", with(besideFrame("5.00"), order(func(o *channel.Order) { o.Items = 2 })), "21.50 0.00 0.53 2.0667"},
		// 2 frames in three orders of four, 1.5 on average.
		{"a fraction of others", with(besideFrame("40.00"), order(func(o *channel.Order) { o.Others.Items = over("1.5") })), "20.00 0.00 0.52 2.48"},
		{"a fixed fee for each item", with(besideFrame("40.00"), fee(channel.Fee{Fixed: amount("0.30"), Per: quoin.PerItem})), "20.00 0.00 0.30 3.10"},
		// 5% of 60.00 is 3.00, and 4.00 at least: 1.00 more, half of it beside 5% of 20.00.
		{"at least", with(besideFrame("40.00"), fee(channel.Fee{Rate: rate("5%"), AtLeast: amount("4.00")})), "20.00 0.00 1.50 3.10"},
		// 2.40 at most: 0.60 less, half of it off 1.00.
		{"at most", with(besideFrame("40.00"), fee(channel.Fee{Rate: rate("5%"), AtMost: some("2.40")})), "20.00 0.00 0.70 3.10"},
		// 10% of 180.00 would be 18.00: the 17.40 that the bound takes off are shared, 8.70 of 2.00. It is never below 0.
		{"at most, and worth much", with(besideFrame("160.00"), fee(channel.Fee{Rate: rate("10%"), AtMost: some("0.60")})), "20.00 0.00 0.00 3.10"},
		// 5% from 50.00 on: 10% of 50.00, 5% of 10.00 and 0.40 are 5.90. Beside 5% of 60.00 that is 2.90, half of it 1.45, and 1.00.
		{"tiers", with(besideFrame("40.00"), fee(channel.Fee{Tiers: tiers})), "20.00 0.00 2.45 3.10"},
		// 5% of 60.00 and 0.40: 1.00 and 0.20.
		{"the highest tier", with(besideFrame("40.00"), fee(channel.Fee{Tiers: tiers, TierMode: channel.Whole})), "20.00 0.00 1.20 3.10"},
		// 20.00 a month over 10 orders is 2.00 an order.
		{"together", with(besideFrame("40.00"), fee(channel.Fee{Fixed: amount("20.00"), OrdersTogether: over("10")})), "20.00 0.00 1.00 3.10"},
		// Tax on top of the frame is in the base, too: 2% of 72.00 and 0.30; of the print 0.48 and 0.15.
		{"of tax on top", with(with(besideFrame("40.00"), fee(channel.Fee{Rate: rate("2%"), Fixed: amount("0.30"), Of: []channel.Part{channel.Items, channel.SalesTax}})),
			func(c *channel.Channel) { c.Tax = channel.Tax{Rate: rate("20%")} }), "20.00 4.00 0.63 3.10"},
		// 60.00 reach 55.00; after it 58.00 are still above 50.00.
		{"a code from 55.00", with(besideFrame("40.00"), code(promo.Offer{Rate: rate("10%"), From: amount("55.00")})), "18.00 0.00 0.00 3.10"},
		{"a code from 61.00", with(besideFrame("40.00"), code(promo.Offer{Rate: rate("10%"), From: amount("61.00")})), "20.00 0.00 0.00 3.10"},
		// 5.00 off the order: 2.50 off the print.
		{"a code of an amount", with(besideFrame("40.00"), code(promo.Offer{Amount: amount("5.00")})), "17.50 0.00 0.00 3.10"},
		// 59.00 after 10.00 off 60.00 … 5.00 of it the print's: 55.00 are below 56.00, so shipping is charged.
		{"shipping after codes", with(with(besideFrame("40.00"), order(func(o *channel.Order) { o.FreeFrom = some("56.00") })), code(promo.Offer{Amount: amount("10.00")})), "17.25 0.00 0.00 3.10"},
		{"shipping before codes", with(with(besideFrame("40.00"), order(func(o *channel.Order) { o.FreeFrom, o.FreeTest = some("56.00"), promo.Before })), code(promo.Offer{Amount: amount("10.00")})), "15.00 0.00 0.00 3.10"},
		// 4% of 20.00, and half of 4% of 6.00 and 1% of 15.00.
		{"returns", with(besideFrame("40.00"), func(c *channel.Channel) {
			c.Fees = nil
			c.Returns = &refund.Rates{Returned: rate("4%"), Postage: amount("6.00"), Disputed: rate("1%"), Lost: someRate("0%"), Fee: amount("15.00")}
		}), "20.00 0.00 0.9950 3.10"},
	} {
		p := c.c.Terms(eur).Proceeds(amount("20.00"))
		if got := fmt.Sprintf("%.2f %.2f %s %s", p.Revenue, p.Tax, shown(p.Fees), shown(p.Fulfilment)); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// shown is an amount with two digits, or up to four where it has more.
func shown(a quoin.Amount) string {
	if a = a.Round(4, quoin.HalfUp); a.Round(2, quoin.Down).Equal(a) {
		return a.Round(2, quoin.Down).String()
	}
	return a.String()
}

// Each part of an order, seen from its own side, sums up to the whole: of postage, and of a fee to the cent.
func TestPartsOfAnOrderSumUp(t *testing.T) { rapid.Check(t, partsOfAnOrderSumUp) }
func FuzzPartsOfAnOrderSumUp(f *testing.F) { f.Fuzz(rapid.MakeFuzz(partsOfAnOrderSumUp)) }

func partsOfAnOrderSumUp(t *rapid.T) {
	d := draws{t}
	f := channel.Fee{Rate: d.rate("rate", 200), Fixed: d.money("fixed", 90), Expected: true}
	if d.yes("bounded") {
		f.AtLeast = d.money("at least", 300)
	}
	k, n := rapid.Int64Range(1, 5).Draw(t, "items"), rapid.Int64Range(1, 5).Draw(t, "others")
	price, other := quoin.AmountOf(rapid.Int64Range(1, 9000).Draw(t, "price"), 2), quoin.AmountOf(rapid.Int64Range(1, 9000).Draw(t, "price of others"), 2)
	part := func(own, others int64, at, beside quoin.Amount) channel.Settlement {
		c := channel.Channel{Fees: []channel.Fee{f}, Orders: []channel.Order{{
			Items: own, Postage: amount("7.00"), Others: &channel.Others{Items: quoin.FactorOf(others), Worth: beside.Times(quoin.FactorOf(others))},
		}}}
		return c.Terms(eur).Settle(0, at)
	}
	a, b := part(k, n, price, other), part(n, k, other, price)
	sum := func(x, y quoin.Amount) quoin.Amount { return x.Add(y).Snap() }
	whole := channel.Fee{Rate: f.Rate, Fixed: f.Fixed, AtLeast: f.AtLeast, Expected: true}.Charge(channel.Payment{Count: k + n, Items: a.Items.Add(b.Items)}, 2)
	if got := sum(a.Fulfilment, b.Fulfilment); !got.Equal(amount("7.00")) {
		t.Fatalf("%s of postage of 7.00", got)
	}
	if a.Fees.IsZero() || b.Fees.IsZero() { // where the other part bears more than all, by the formula
		return
	}
	if got := sum(a.Fees, b.Fees); !got.Equal(whole.Total.Snap()) {
		t.Fatalf("%s and %s of a fee of %s", a.Fees, b.Fees, whole.Total)
	}
}

// Others where somebody else sells, or a tariff says how it is sent.
func TestOthersAreRefusedElsewhere(t *testing.T) {
	for _, c := range []struct {
		what string
		of   func(*channel.Channel)
		want string
	}{
		{"own shop", func(*channel.Channel) {}, ""},
		{"trade", func(c *channel.Channel) { c.Trade = &channel.Trade{} }, "orders[0].others stray_terms"},
		{"consignment", func(c *channel.Channel) { c.Consignment = &channel.Consignment{Commission: someRate("40%")} }, "orders[0].others stray_terms"},
		{"on demand", func(c *channel.Channel) {
			c.OnDemand = &channel.OnDemand{Pays: channel.AboveBase, Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("9")}}}
		}, "orders[0].others stray_terms"},
		{"no items", func(c *channel.Channel) { c.Orders[0].Others = &channel.Others{Worth: amount("9")} }, "orders[0].others.items missing_field"},
		{"none", func(c *channel.Channel) { c.Orders[0].Others.Items = over("0") }, "orders[0].others.items out_of_range"},
		{"weighed for nothing", func(c *channel.Channel) { c.Orders[0].Others.Mass = quoin.MustQuantity("45 g") }, "orders[0].others.mass stray_terms"},
		{"not weighed by a tariff", func(c *channel.Channel) { c.Tariff, c.Orders[0].Zone = "post", "home" }, "orders[0].others.mass missing_field"},
		{"worth less than nothing", func(c *channel.Channel) { c.Orders[0].Others.Worth = amount("-1") }, "orders[0].others.worth out_of_range"},
	} {
		one := besideFrame("40.00")
		one.ID = "shop"
		c.of(&one)
		got := ""
		if ps, ok := one.Check(eur).(quoin.Problems); ok {
			got = ps[0].Path + " " + string(ps[0].Code)
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q: %v", c.what, got, c.want, one.Check(eur))
		}
	}
}

// Curves of an order with one other, by hand.
func TestCurvesBesideOthers(t *testing.T) {
	one := func(f channel.Fee) channel.Channel {
		return channel.Channel{Orders: []channel.Order{{Others: &channel.Others{Items: over("1"), Worth: amount("40")}}}, Fees: []channel.Fee{f}}
	}
	for _, c := range []struct {
		what string
		c    channel.Channel
		want string
	}{
		{"free from 50", besideFrame("40"), "9: 1.00+2.25 less 0.02+0.20; 60: 1.00+0.00 less 0.02+0.15"},
		// 10% of 40 + p is 5 from p = 10 on. Below it half of what 5 is more than that: 0.1 p + (5 − 4 − 0.1 p) ÷ 2.
		{"at least 5", one(channel.Fee{Rate: rate("10%"), AtLeast: amount("5")}), "9: 1.00+0.00 less 0.05+0.50; 60: 1.00+0.00 less 0.10+0.00"},
		// 3 at most, always: 0.1 p + (3 − 4 − 0.1 p) ÷ 2, nothing up to 10,
		// where rounding may yet tell.
		{"at most 3", one(channel.Fee{Rate: rate("10%"), AtMost: some("3")}), "9: 1.00+0.00 less 0.00+0.00; 10: 1.00+0.00 less 0.05-0.50; 60: 1.00+0.00 less 0.05-0.50"},
	} {
		if got := pieces(c.c.Terms(eur), grid(t, "1", "60")); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
	}
}
