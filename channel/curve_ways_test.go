package channel_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

func grid(t *testing.T, step, limit string) quoin.Grid {
	t.Helper()
	g, err := quoin.NewGrid(amount(step), amount(limit))
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// pieces writes where each piece ends, and its lines of revenue and fees as
// slope and start.
func pieces(tm channel.Terms, g quoin.Grid) string {
	var out []string
	for _, p := range tm.Curve(g) {
		out = append(out, fmt.Sprintf("%s: %.2f%+.2f less %.2f%+.2f", g.Price(p.Last), p.Revenue.Slope, p.Revenue.Start, p.Fees.Slope, p.Fees.Start))
	}
	return strings.Join(out, "; ")
}

// Curves drawn by hand: the last price of each piece, and the slope and start of
// its lines. A piece begins at the price that reaches what breaks it.
func TestCurves(t *testing.T) {
	one := func(codes ...string) []channel.Order { return []channel.Order{{Codes: codes}} }
	for _, c := range []struct {
		what string
		c    channel.Channel
		want string
	}{
		{
			"five off from 30",
			channel.Channel{Orders: one("a"), Promotions: []promo.Offer{{ID: "a", Amount: amount("5"), From: amount("30")}}},
			"29: 1.00+0.00 less 0.00+0.00; 60: 1.00-5.00 less 0.00+0.00",
		},
		// At 5 and below it is given away.
		{
			"five off",
			channel.Channel{Orders: one("a"), Promotions: []promo.Offer{{ID: "a", Amount: amount("5")}}},
			"4: 0.00+0.00 less 0.00+0.00; 60: 1.00-5.00 less 0.00+0.00",
		},
		{
			"a sale at 12",
			channel.Channel{Orders: one("a"), Promotions: []promo.Offer{{ID: "a", Sale: some("12")}}},
			"12: 1.00+0.00 less 0.00+0.00; 60: 0.00+12.00 less 0.00+0.00",
		},
		// 0.9 × 50 = 45 reaches the threshold of the second.
		{
			"a tenth, then five off from 45 left",
			channel.Channel{Orders: one("a", "b"), Promotions: []promo.Offer{{ID: "a", Rate: rate("10%")}, {ID: "b", Amount: amount("5"), From: amount("45")}}},
			"49: 0.90+0.00 less 0.00+0.00; 60: 0.90-5.00 less 0.00+0.00",
		},
		{
			"a tenth, then five off from 45 before",
			channel.Channel{Orders: one("a", "b"), Promotions: []promo.Offer{{ID: "a", Rate: rate("10%")}, {ID: "b", Amount: amount("5"), From: amount("45"), Test: promo.Before}}},
			"44: 0.90+0.00 less 0.00+0.00; 60: 0.90-5.00 less 0.00+0.00",
		},
		{
			"half of what is beyond 20", channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("50%"), Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("20")}}}}.For("rail"),
			"19: 1.00+0.00 less 0.00+0.00; 60: 1.00+0.00 less 0.50-10.00",
		},
		// Of three items the house keeps half of 3 × list − 60, and pays the tax of 0.2 × 3 × list: nothing is left up to 33.33.
		{"the same of orders of three, tax in prices", channel.Channel{
			Tax: channel.Tax{Rate: rate("25%"), InPrice: true}, Orders: []channel.Order{{Items: 3}},
			OnDemand: &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("50%"), Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("20")}}},
		}.For("rail"), "19: 0.80+0.00 less 0.00+0.00; 33: 0.80+0.00 less 0.00+0.00; 60: 0.80+0.00 less 0.30-10.00"},
		{
			"a commission of 40% after 10",
			channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%"), CostsFirst: amount("10")}},
			"9: 1.00+0.00 less 0.00+0.00; 60: 1.00+0.00 less 0.40-4.00",
		},
		// 10% of ten orders is at most 30.
		{
			"a cap of a month",
			channel.Channel{Fees: []channel.Fee{{Rate: rate("10%"), AtMost: some("30"), OrdersTogether: over("10")}}},
			"29: 1.00+0.00 less 0.10+0.00; 60: 1.00+0.00 less 0.00+3.00",
		},
		// 10% up to 400 of ten orders, then 5%.
		{
			"a threshold of a year",
			channel.Channel{Fees: []channel.Fee{{Tiers: []channel.Tier{{Rate: rate("10%")}, {From: amount("400"), Rate: rate("5%")}}, OrdersTogether: over("10")}}},
			"39: 1.00+0.00 less 0.10+0.00; 60: 1.00+0.00 less 0.05+2.00",
		},
		// 5% of 2 × list, at most 4.
		{
			"a freight allowance",
			channel.Channel{Orders: []channel.Order{{Items: 2, Postage: amount("4")}}, Trade: &channel.Trade{Freight: channel.Allowance, Allowance: rate("5%")}},
			"39: 1.00+0.00 less 0.05+0.00; 60: 1.00+0.00 less 0.00+2.00",
		},
		{
			"freight free from 50",
			channel.Channel{Orders: []channel.Order{{Postage: amount("4")}}, Trade: &channel.Trade{Freight: channel.Added, FreeFrom: some("50")}},
			"49: 1.00+4.00 less 0.00+0.00; 60: 1.00+0.00 less 0.00+0.00",
		},
		{
			"abroad, at 0.80",
			channel.Channel{ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80")}, Fees: []channel.Fee{{Rate: rate("10%"), Fixed: amount("0.50")}}},
			"60: 1.00+0.00 less 0.10+0.40",
		},
	} {
		if got := pieces(c.c.Terms(eur), grid(t, "1", "60")); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
	}
}

// How many pieces there are follows from the terms, however many prices.
func TestCurveGrowsWithTermsAlone(t *testing.T) {
	c := channel.Channel{
		Orders:     []channel.Order{{Codes: []string{"a", "b"}, Shipping: amount("4.50"), FreeFrom: some("60")}},
		Promotions: []promo.Offer{{ID: "a", Amount: amount("5"), From: amount("30")}, {ID: "b", Sale: some("45")}},
		Fees:       []channel.Fee{{Rate: rate("10%"), AtMost: some("30"), OrdersTogether: over("10")}},
	}
	small, great := len(c.Terms(eur).Curve(grid(t, "0.01", "100"))), len(c.Terms(eur).Curve(grid(t, "0.01", "1000000")))
	if small != great || small > 12 {
		t.Errorf("%d pieces up to 100, %d up to a million", small, great)
	}
}

// What comes off may lie between two units of the currency; the pieces follow it.
func TestCodesBetweenCents(t *testing.T) {
	sale := func(a string) promo.Offer { return promo.Offer{ID: "a", Sale: some(a)} }
	off := func(a string) promo.Offer { return promo.Offer{ID: "a", Amount: amount(a)} }
	for _, c := range []struct {
		offer                promo.Offer
		currency, step, last string // the last price before it changes its form
	}{
		{sale("9.995"), "EUR", "0.01", "9.99"},
		{sale("9.99"), "EUR", "0.01", "9.99"},
		{sale("9.991"), "EUR", "0.01", "9.99"},
		{sale("9.40"), "JPY", "1", "9"},
		{sale("9.60"), "JPY", "1", "9"},
		// An amount is money once it is rounded: 5.01, 5.00, 6.
		{off("5.005"), "EUR", "0.01", "5.00"},
		{off("5.004"), "EUR", "0.01", "4.99"},
		{off("5.50"), "JPY", "1", "5"},
	} {
		ch := channel.Channel{Orders: []channel.Order{{Codes: []string{"a"}}}, Promotions: []promo.Offer{c.offer}}
		tm, g := ch.Terms(quoin.MustCurrency(c.currency)), grid(t, c.step, "30")
		all := tm.Curve(g)
		if len(all) != 2 || !g.Price(all[0].Last).Equal(amount(c.last)) {
			t.Errorf("%+v in %s: %d pieces, the first up to %s, want 2, up to %s", c.offer, c.currency, len(all), g.Price(all[0].Last), c.last)
		}
		for _, p := range all {
			for i := p.First; i <= p.Last; i++ {
				got, price := tm.Proceeds(g.Price(i)).Revenue, g.Price(i)
				off := got.Sub(price.Times(p.Revenue.Slope)).Sub(p.Revenue.Start)
				if off.Cmp(p.Revenue.Within) > 0 || off.Neg().Cmp(p.Revenue.Within) > 0 {
					t.Errorf("%s brings %s, off its line by %s, which claims %s", price, got, off, p.Revenue.Within)
				}
			}
		}
	}
}

// Codes that halve what is left double the pieces each; Breaks counts them, so
// that a document can be refused before its curve is drawn.
func TestBreaksCountsCodes(t *testing.T) {
	var c channel.Channel
	var o channel.Order
	half := amount("1024")
	for i := range 8 {
		half = half.Times(quoin.MustFactor("0.5"))
		o.Codes = append(o.Codes, fmt.Sprint(i))
		c.Promotions = append(c.Promotions, promo.Offer{ID: fmt.Sprint(i), From: half, Amount: half})
	}
	c.Orders = []channel.Order{o}
	if n := len(c.Terms(eur).Curve(grid(t, "1", "1024"))); n > c.Breaks() {
		t.Errorf("%d pieces, where terms break at %d prices at most", n, c.Breaks())
	}
}
