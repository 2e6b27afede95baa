package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Every figure of a fee by itself, by hand. Of 100.00 and 20.00 of shipping with 25% in both, and
// 1.00 of tax on top, for two items.
func TestChargesInParts(t *testing.T) {
	paid := channel.Payment{Count: 2, Items: amount("100.00"), Shipping: amount("20.00"), Tax: amount("1.00"), Discount: amount("5.00"), Surcharge: amount("2.50"), SurchargeTax: amount("0.50"), Within: rate("25%"), ShippingTaxed: true}
	tiers := []channel.Tier{{From: amount("10.00"), Rate: rate("10%"), Fixed: amount("1.00")}, {From: amount("60.00"), Rate: rate("5%"), Fixed: amount("2.00")}}
	for _, c := range []struct {
		what string
		fee  channel.Fee
		want string // base, computed, bounded, rounded, tax, total
	}{
		{"a rate", channel.Fee{Rate: rate("3.333%")}, "100.00 3.333 3.333 3.33 0.00 3.33"},
		{"expected, and not rounded", channel.Fee{Rate: rate("3.333%"), Expected: true}, "100.00 3.333 3.333 3.333 0.00 3.333"},
		{"all parts", channel.Fee{Rate: rate("10%"), Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax, channel.Discount, channel.Surcharged}}, "128.50 12.85 12.85 12.85 0.00 12.85"},
		// 105 + 20 hold 25 of tax, and 2.50 holds 0.50.
		{"without tax", channel.Fee{Rate: rate("10%"), WithoutTax: true, Of: []channel.Part{channel.Items, channel.Shipping, channel.Discount, channel.Surcharged}}, "102.00 10.20 10.20 10.20 0.00 10.20"},
		{"at least", channel.Fee{Rate: rate("1%"), AtLeast: amount("1.255")}, "100.00 1.00 1.255 1.26 0.00 1.26"},
		{"at most", channel.Fee{Rate: rate("10%"), AtMost: some("7.50")}, "100.00 10.00 7.50 7.50 0.00 7.50"},
		{"taxed, on a share of the sales", channel.Fee{Rate: rate("10%"), Tax: rate("19%"), Share: someRate("25%")}, "100.00 10.00 10.00 10.00 1.90 2.975"},
		{"for each item", channel.Fee{Fixed: amount("0.30"), Per: quoin.PerItem}, "100.00 0.60 0.60 0.60 0.00 0.60"},
		{"for each item of 40 orders", channel.Fee{Fixed: amount("0.30"), Per: quoin.PerItem, OrdersTogether: quoin.FactorOf(40)}, "100.00 24.00 24.00 24.00 0.00 0.60"},
		{"of 40 orders", channel.Fee{Fixed: amount("20.00"), Rate: rate("1%"), AtMost: some("50.00"), OrdersTogether: quoin.FactorOf(40), Tax: rate("10%")}, "100.00 60.00 50.00 50.00 5.00 1.375"},
		// 10% of 50 and 5% of 40, and both fixed amounts.
		{"marginal", channel.Fee{Tiers: tiers}, "100.00 10.00 10.00 10.00 0.00 10.00"},
		{"whole", channel.Fee{Tiers: tiers, TierMode: channel.Whole}, "100.00 7.00 7.00 7.00 0.00 7.00"},
		// From 20 and 120 for two items: 10% of 80 and 2 × 1.00.
		{"marginal, for each item", channel.Fee{Tiers: tiers, Per: quoin.PerItem}, "100.00 10.00 10.00 10.00 0.00 10.00"},
		{"whole, for each item", channel.Fee{Tiers: tiers, Per: quoin.PerItem, TierMode: channel.Whole}, "100.00 12.00 12.00 12.00 0.00 12.00"},
		{"below every tier", channel.Fee{Tiers: []channel.Tier{{From: amount("100.01"), Rate: rate("10%")}}}, "100.00 0 0 0.00 0.00 0.00"},
	} {
		got := c.fee.Charge(paid, 2)
		text := ""
		for _, a := range []quoin.Amount{got.Base, got.Computed, got.Bounded, got.Rounded, got.Tax, got.Total} {
			text += " " + a.Figure().Long()
		}
		want := c.want
		if text[1:] != want && !sameMoney(text[1:], want) {
			t.Errorf("%s:%s, want %s", c.what, text, want)
		}
	}
	// Prices that hold no tax, and shipping that is not taxed.
	paid.Within = quoin.Rate{}
	if got := (channel.Fee{Rate: rate("10%"), WithoutTax: true}).Charge(paid, 2).Base; !got.Equal(amount("100.00")) {
		t.Errorf("of %s, want 100.00: nothing is in it", got)
	}
	paid.Within, paid.ShippingTaxed = rate("25%"), false
	if got := (channel.Fee{Rate: rate("10%"), WithoutTax: true, Of: []channel.Part{channel.Items, channel.Shipping}}).Charge(paid, 2).Base; !got.Equal(amount("100.00")) {
		t.Errorf("of %s, want 80.00 and 20.00", got)
	}
}

// sameMoney reports whether lists of amounts are the same, however they are written.
func sameMoney(a, b string) bool {
	var x, y []quoin.Amount
	for _, s := range []struct {
		text string
		into *[]quoin.Amount
	}{{a, &x}, {b, &y}} {
		for from := 0; from < len(s.text); {
			to := from
			for to < len(s.text) && s.text[to] != ' ' {
				to++
			}
			*s.into = append(*s.into, amount(s.text[from:to]))
			from = to + 1
		}
	}
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		if !x[i].Equal(y[i]) {
			return false
		}
	}
	return true
}

// When fees take all of a higher price: just so, and a hair less.
func TestTakesEverythingToTheHair(t *testing.T) {
	inPrice, onTop := channel.Tax{Rate: rate("25%"), InPrice: true}, channel.Tax{Rate: rate("25%")}
	two := []channel.Order{{Surcharge: &channel.Surcharge{Rate: rate("10%")}}}
	for _, c := range []struct {
		what string
		c    channel.Channel
		want bool
	}{
		{"80% of prices with 25% in them", channel.Channel{Tax: inPrice, Fees: []channel.Fee{{Rate: rate("80%")}}}, true},
		{"79.9%", channel.Channel{Tax: inPrice, Fees: []channel.Fee{{Rate: rate("79.9%")}}}, false},
		{"all without the tax", channel.Channel{Tax: inPrice, Fees: []channel.Fee{{Rate: rate("100%"), WithoutTax: true}}}, true},
		{"99.9% without it", channel.Channel{Tax: inPrice, Fees: []channel.Fee{{Rate: rate("99.9%"), WithoutTax: true}}}, false},
		{"80% of prices and 25% on top", channel.Channel{Tax: onTop, Fees: []channel.Fee{{Rate: rate("80%"), Of: []channel.Part{channel.Items, channel.SalesTax}}}}, true},
		{"79.9% of both", channel.Channel{Tax: onTop, Fees: []channel.Fee{{Rate: rate("79.9%"), Of: []channel.Part{channel.Items, channel.SalesTax}}}}, false},
		{"80%, with 25% of tax on the fee", channel.Channel{Fees: []channel.Fee{{Rate: rate("80%"), Tax: rate("25%")}}}, true},
		{"79.9%, with the same", channel.Channel{Fees: []channel.Fee{{Rate: rate("79.9%"), Tax: rate("25%")}}}, false},
		{"all, on 99.9% of sales", channel.Channel{Fees: []channel.Fee{{Rate: rate("100%"), Share: someRate("99.9%")}}}, false},
		{"all, up to a bound", channel.Channel{Fees: []channel.Fee{{Rate: rate("100%"), AtMost: some("5")}}}, false},
		{"the least of tiers", channel.Channel{Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("0"), Rate: rate("100%")}, {From: amount("9"), Rate: rate("99.9%")}}}}}, false},
		{"all tiers", channel.Channel{Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("0"), Rate: rate("100%")}, {From: amount("9"), Rate: rate("100%")}}}}}, true},
		// 10% on the items: 110% of them come in.
		{"the items, with a surcharge", channel.Channel{Orders: two, Fees: []channel.Fee{{Rate: rate("100%")}}}, false},
		{"both", channel.Channel{Orders: two, Fees: []channel.Fee{{Rate: rate("100%"), Of: []channel.Part{channel.Items, channel.Surcharged}}}}, true},
		{"both with tax in them", channel.Channel{Tax: inPrice, Orders: two, Fees: []channel.Fee{{Rate: rate("100%"), WithoutTax: true, Of: []channel.Part{channel.Items, channel.Surcharged}}}}, true},
		{"80% of both", channel.Channel{Tax: inPrice, Orders: two, Fees: []channel.Fee{{Rate: rate("80%"), Of: []channel.Part{channel.Items, channel.Surcharged}}}}, true},
		{"79.9% of both, in them", channel.Channel{Tax: inPrice, Orders: two, Fees: []channel.Fee{{Rate: rate("79.9%"), Of: []channel.Part{channel.Items, channel.Surcharged}}}}, false},
		// On top: 1.25 of the items, × 10%, and 25% of that again: 1.125 come in besides 0.28125 of tax.
		{"80% of all on top", channel.Channel{Tax: onTop, Orders: two, Fees: []channel.Fee{{Rate: rate("80%"), Of: []channel.Part{channel.Items, channel.SalesTax, channel.Surcharged}}}}, true},
		{"79.9% of all on top", channel.Channel{Tax: onTop, Orders: two, Fees: []channel.Fee{{Rate: rate("79.9%"), Of: []channel.Part{channel.Items, channel.SalesTax, channel.Surcharged}}}}, false},
	} {
		if got := c.c.TakesEverything(); got != c.want {
			t.Errorf("%s: %t, want %t", c.what, got, c.want)
		}
	}
}

// What a house keeps out of which it pays the tax, step by step: of 50.00 with 25% in it 60% of
// what is above 10.00 less 10.00 of tax; of 10.50 0.30 less 2.10, so nothing.
func TestChargesThatOweTax(t *testing.T) {
	house := channel.Channel{Tax: channel.Tax{Rate: rate("25%"), InPrice: true}, OnDemand: &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("40%"), Sizes: []channel.OnDemandProduct{{Product: "a4", Base: amount("10.00")}}}}.For("a4")
	for _, c := range []struct{ price, want string }{{"50.00", "50.00 14.00 14.00 14.00 0 14.00"}, {"10.50", "10.50 -1.80 0 0 0 0"}} {
		got := house.Terms(eur).Settle(0, amount(c.price)).Charges[0]
		text := ""
		for _, a := range []quoin.Amount{got.Base, got.Computed, got.Bounded, got.Rounded, got.Tax, got.Total} {
			text += " " + a.Figure().Long()
		}
		if !sameMoney(text[1:], c.want) {
			t.Errorf("at %s:%s, want %s", c.price, text, c.want)
		}
	}
}

// Every figure of an explanation has a name, and every step a code.
func TestStepsAreNamed(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		c := draws{t}.channel()
		for i := range c.Fees {
			c.Fees[i].Name = "fee"
		}
		for i := range c.Kinds() {
			trail := quoin.NewTrail(64).On("something else")
			c.Explain(trail, quoin.InList("channels", 0), eur, i, quoin.Given("list price", quoin.InField("list"), amount("20.00").Figure()))
			c.ExplainPrints(trail, quoin.InList("channels", 0))
			c.ExplainLost(trail, quoin.InList("channels", 0))
			for _, s := range trail.Steps() {
				seen++
				if s.Code == "" || s.Subject == "something else" {
					t.Fatalf("a step %v", s)
				}
				for _, o := range s.Operands {
					if o.Name == "" {
						t.Fatalf("a figure without a name in %v", s)
					}
				}
			}
		}
	})
	if seen < 1000 {
		t.Errorf("only %d steps", seen)
	}
}
