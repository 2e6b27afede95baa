package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// What is kept of shipping, worked out by hand.
func TestShippingKept(t *testing.T) {
	abroad := sold("USD", "0.80")
	abroad.Tax = in("20%", onPost)
	set := channel.Channel{Tax: in("0%", onPost)}.OfParts(channel.TaxedPart{Class: "print", Price: amount("30.00")}, channel.TaxedPart{Class: "frame", Price: amount("10.00")})
	set.Tax.Classes = []channel.TaxClass{{Class: "print", Rate: rate("5%")}, {Class: "frame", Rate: rate("20%")}}
	dear := set
	highest(&dear.Tax)
	for _, l := range []struct {
		what          string
		c             channel.Channel
		charged, kept string
	}{
		{"no tax", channel.Channel{}, "4.50", "4.50"},
		{"tax in the price of goods alone", channel.Channel{Tax: in("20%")}, "4.50", "4.50"},
		{"tax on top", channel.Channel{Tax: in("20%", onPost, onTop)}, "4.50", "4.50"},
		{"tax in it, 4.50 ÷ 6", channel.Channel{Tax: in("20%", onPost)}, "4.50", "3.75"},
		{"tax of another country, 4.50 ÷ 11", channel.Channel{Tax: in("20%", onPost), Orders: []channel.Order{{TaxRate: quoin.Some(rate("10%"))}}}, "4.50", "4.09"},
		{"no tax there", channel.Channel{Tax: in("20%", onPost), Orders: []channel.Order{{TaxRate: quoin.Some(rate("0%"))}}}, "4.50", "4.50"},
		{"in dollars at 0.80: 4.00 − 0.67", abroad, "4.00", "2.664"},
		// 3.00 with 5% in it is 2.86, and 1.00 with 20% 0.83.
		{"beside a print and a frame, in proportion", set, "4.00", "3.69"},
		{"at the frame's rate, 4.00 − 0.67", dear, "4.00", "3.33"},
		{"beside a frame of another rate, 4.00 − 0.67", besideAFrame("5%"), "4.00", "3.33"},
		{"beside a frame of a lower rate, 4.00 − 0.80", besideAFrame("25%"), "4.00", "3.20"},
		{"nothing charged", channel.Channel{Tax: in("20%", onPost)}, "0", "0"},
	} {
		if got := l.c.Terms(eur).ShippingKept(0, amount(l.charged)); !got.Equal(amount(l.kept)) {
			t.Errorf("%s: %s of %s, want %s", l.what, got, l.charged, l.kept)
		}
	}
}

// It is what an order of an item that costs nothing brings in.
func TestShippingKeptIsTheRevenueOfGifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := sold(rapid.SampledFrom([]string{"USD", "JPY", "KWD"}).Draw(t, "currency"), "0.80")
		c.Tax = in("0%")
		draws{t}.taxed(&c.Tax)
		c.Tax.Rate, c.Tax.InPrice, c.Tax.OnShipping = draws{t}.rate("tax", 300), draws{t}.yes("in price"), draws{t}.yes("on shipping")
		charged := quoin.AmountOf(rapid.Int64Range(0, 2_000).Draw(t, "charged"), min(c.Money(eur).Digits(), 2))
		c.Orders = []channel.Order{{Shipping: charged, TaxRate: draws{t}.maybeRate("elsewhere", 300)}}
		if (draws{t}).yes("a set") {
			c = c.OfParts(channel.TaxedPart{Class: "print", Price: amount("30.00")}, channel.TaxedPart{Class: "frame", Price: amount("12.00")})
		}
		terms := c.Terms(eur)
		want := terms.Home(terms.Settle(0, quoin.Amount{}).Revenue)
		if got := terms.ShippingKept(0, charged); !got.Equal(want) {
			t.Fatalf("%s of %s, an order of nothing else brings %s", got, charged, want)
		}
	})
}
