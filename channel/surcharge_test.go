package channel_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
)

// byCard is a print and 5.00 of shipping with a surcharge of 2% and 0.10, of which a fee of 2% and 0.25 is taken. All
// invented.
func byCard() channel.Channel {
	return channel.Channel{
		ID:     "shop",
		Orders: []channel.Order{{Shipping: amount("5.00"), Surcharge: &channel.Surcharge{Rate: rate("2%"), Fixed: amount("0.10")}}},
		Fees:   []channel.Fee{{Name: "card", Rate: rate("2%"), Fixed: amount("0.25"), Of: []channel.Part{channel.Items, channel.Shipping, channel.Surcharged, channel.SalesTax}}},
	}
}

func TestSurcharge(t *testing.T) {
	taxed := func(of channel.Tax) func(*channel.Channel) {
		return func(c *channel.Channel) { of.Rate, of.OnShipping = rate("20%"), true; c.Tax = of }
	}
	for _, c := range []struct {
		what string
		of   []func(*channel.Channel)
		want string // surcharge, revenue, tax, fees
	}{
		// 2% of 25.00 and 0.10; the fee 2% of 25.60 and 0.25: 0.762.
		{"untaxed", nil, "0.60 25.60 0.00 0.76"},
		// 2% of 25.00 and 0.25.
		{"a fee that leaves it out", []func(*channel.Channel){func(c *channel.Channel) { c.Fees[0].Of = c.Fees[0].Of[:2] }}, "0.60 25.60 0.00 0.75"},
		// 25.00 ÷ 6 is 4.17 and 0.60 ÷ 6 is 0.10, each rounded by itself.
		{"tax in it", []func(*channel.Channel){taxed(channel.Tax{InPrice: true})}, "0.60 21.33 4.27 0.76"},
		{"of which it is free", []func(*channel.Channel){taxed(channel.Tax{InPrice: true}), func(c *channel.Channel) { c.Orders[0].Surcharge.TaxRate = someRate("0%") }}, "0.60 21.43 4.17 0.76"},
		// 0.60 × 5 ÷ 105 is 0.029.
		{"at a rate of its own", []func(*channel.Channel){taxed(channel.Tax{InPrice: true}), func(c *channel.Channel) { c.Orders[0].Surcharge.TaxRate = someRate("5%") }}, "0.60 21.40 4.20 0.76"},
		// The class of the print is free of tax; the surcharge has none: 0.10 of it is tax.
		{"beside a class", []func(*channel.Channel){taxed(channel.Tax{InPrice: true, Classes: []channel.TaxClass{{Class: "print"}}}), func(c *channel.Channel) { *c = c.TaxedAs("print") }}, "0.60 25.50 0.10 0.76"},
		// 2% of 21.33 and 0.25: 0.6766.
		{"a fee without tax", []func(*channel.Channel){taxed(channel.Tax{InPrice: true}), func(c *channel.Channel) { c.Fees[0].WithoutTax = true }}, "0.60 21.33 4.27 0.68"},
		// 2% of 30.00 and 0.10 are 0.70, with 0.14 on top; the fee 2% of 30.84 and 0.25: 0.8668.
		{"tax on top", []func(*channel.Channel){taxed(channel.Tax{})}, "0.70 25.70 5.14 0.87"},
		// Half of 5.00 and of 0.10: 2% of 22.50 and 0.05 are 0.50. Others bear 2% of 42.50 and 0.05, which is 0.90. The
		// fee on 66.40 is 2% and 0.25; own items bear 2% of 23.00 and half of 0.25: 0.585.
		{"beside others", []func(*channel.Channel){func(c *channel.Channel) {
			c.Orders[0].Others = &channel.Others{Items: over("1"), Worth: amount("40.00")}
		}}, "0.50 23.00 0.00 0.59"},
		// 2.00 at least, which 2% of 66.40 and 0.25 (1.578) stay 0.422 below: half of that on 0.585.
		{"beside others, with a least fee", []func(*channel.Channel){func(c *channel.Channel) {
			c.Orders[0].Others, c.Fees[0].AtLeast = &channel.Others{Items: over("1"), Worth: amount("40.00")}, amount("2.00")
		}}, "0.50 23.00 0.00 0.80"},
		// 27.00 with 4.50 of tax on top: 2% and 0.05 are 0.59, with 0.12 on top. Others come to 51.00 with tax, 1.07 and 0.21. Of
		// 79.99 the fee is 1.5998 and 0.25, and 2.00 at least: 2% of 27.71, and half of 0.4002, are 0.7543.
		{"beside others, with tax on top", []func(*channel.Channel){taxed(channel.Tax{}), func(c *channel.Channel) {
			c.Orders[0].Others, c.Fees[0].AtLeast = &channel.Others{Items: over("1"), Worth: amount("40.00")}, amount("2.00")
		}}, "0.59 23.09 4.62 0.75"},
		// Sold for dollars of 0.80: 25.00 USD and 5.00 USD; 2% and 0.10 are 0.70, of 30.70 in all. The fee is 0.864, which
		// is 0.86, and conversion 1% of 30.70, which is 0.31.
		{"abroad", []func(*channel.Channel){func(c *channel.Channel) {
			c.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.8"), Conversion: rate("1%")}
		}}, "0.70 30.70 0.00 1.17"},
		// 10% of 20.00, and of 5.00 and of 0.60 where they go back too.
		{"returns", []func(*channel.Channel){func(c *channel.Channel) { c.Fees, c.Returns = nil, &refund.Rates{Returned: rate("10%")} }}, "0.60 25.60 0.00 2.00"},
		{"returns with the surcharge", []func(*channel.Channel){func(c *channel.Channel) {
			c.Fees, c.Returns = nil, &refund.Rates{Returned: rate("10%"), Shipping: true, Surcharge: true}
		}}, "0.60 25.60 0.00 2.56"},
		{"returns, without the tax in it", []func(*channel.Channel){taxed(channel.Tax{InPrice: true}), func(c *channel.Channel) {
			c.Fees, c.Returns = nil, &refund.Rates{Returned: rate("10%"), Shipping: true, Surcharge: true}
		}}, "0.60 21.33 4.27 2.13"},
	} {
		one := byCard()
		for _, of := range c.of {
			of(&one)
		}
		s := one.Terms(eur).Settle(0, amount("20.00"))
		got := fmt.Sprintf("%.2f %.2f %.2f %s", s.Surcharge, s.Revenue, s.Tax, shown(s.Fees.Round(2, quoin.HalfDown)))
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
		if !s.Paid().Equal(s.Revenue.Add(s.Tax)) {
			t.Errorf("%s: paid %s", c.what, s.Paid())
		}
	}
}

func TestSurchargeOfABuyer(t *testing.T) {
	c := byCard()
	c.Orders[0].Items = 2
	// 2% of 45.00 and 0.10 for two.
	if got := c.Terms(eur).BuyerPays(amount("20.00")); !got.Surcharge.Equal(amount("0.50")) || !got.Item.Equal(amount("20.00")) {
		t.Errorf("%+v", got)
	}
}

func TestSurchargeIsChecked(t *testing.T) {
	for _, c := range []struct {
		what string
		of   func(*channel.Channel)
		want string
	}{
		{"own shop", func(*channel.Channel) {}, ""},
		{"to shops", func(c *channel.Channel) { c.Trade = &channel.Trade{} }, ""},
		{"a rate alone", func(c *channel.Channel) { c.Orders[0].Surcharge.Fixed = amount("0") }, ""},
		{"of nothing", func(c *channel.Channel) { c.Orders[0].Surcharge = &channel.Surcharge{} }, "orders[0].surcharge missing_field"},
		{"above all", func(c *channel.Channel) { c.Orders[0].Surcharge.Rate = rate("101%") }, "orders[0].surcharge.rate out_of_range"},
		{"below nothing", func(c *channel.Channel) { c.Orders[0].Surcharge.Fixed = amount("-1") }, "orders[0].surcharge.fixed out_of_range"},
		{"consignment", func(c *channel.Channel) { c.Consignment = &channel.Consignment{Commission: someRate("40%")} }, "orders[0].surcharge stray_terms"},
		{"on demand", func(c *channel.Channel) {
			c.OnDemand = &channel.OnDemand{Pays: channel.AboveBase, Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("9")}}}
		}, "orders[0].surcharge stray_terms"},
	} {
		one := byCard()
		c.of(&one)
		got := ""
		if ps, ok := one.Check(eur).(quoin.Problems); ok {
			got = ps[0].Path + " " + string(ps[0].Code)
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// A surcharge that comes to more than fees and tax take of it makes up for fees that would take all.
func TestSurchargeGrowsWithThePrice(t *testing.T) {
	c := byCard()
	for _, l := range []struct {
		fee, surcharge string
		of             []channel.Part
		want           bool
	}{
		{"100%", "2%", nil, false},
		{"100%", "2%", []channel.Part{channel.Items, channel.Surcharged}, true},
		{"99%", "2%", []channel.Part{channel.Items, channel.Surcharged}, false},
		{"100%", "0%", nil, true},
	} {
		c.Fees[0].Rate, c.Orders[0].Surcharge.Rate, c.Fees[0].Of = rate(l.fee), rate(l.surcharge), l.of
		if got := c.TakesEverything(); got != l.want {
			t.Errorf("a fee of %s of %v, a surcharge of %s: %t", l.fee, l.of, l.surcharge, got)
		}
	}
}
