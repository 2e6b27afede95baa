package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
)

func over(s string) quoin.Factor { return quoin.MustFactor(s) }

// Fees charged on many orders together, and those that are only expected, on an
// order of three at 40.00 in all.
func TestFeesTogether(t *testing.T) {
	paid := channel.Payment{Count: 3, Items: amount("40.00"), Shipping: amount("4.50"), Tax: amount("8.90"), Discount: amount("5.00")}
	yearly := []channel.Tier{{Rate: rate("10%")}, {From: amount("1000"), Rate: rate("5%")}}
	for _, c := range []struct {
		what                            string
		fee                             channel.Fee
		base, computed, rounded, counts string
	}{
		{"a subscription of 24.00 over 60 orders", channel.Fee{Fixed: amount("24.00"), OrdersTogether: over("60")}, "40", "24", "24", "0.40"},
		{"with a tax of 20% on it", channel.Fee{Fixed: amount("24.00"), OrdersTogether: over("60"), Tax: rate("20%")}, "40", "24", "24", "0.48"},
		// 8 × 40.00 × 0.25% + 1.00.
		{"a payout of 8 orders", channel.Fee{Rate: rate("0.25%"), Fixed: amount("1.00"), OrdersTogether: over("8")}, "40", "1.80", "1.80", "0.225"},
		{"a click of 0.30, one in fifty buys", channel.Fee{Fixed: amount("0.30"), OrdersTogether: over("0.02")}, "40", "0.30", "0.30", "15"},
		{"a listing of 0.15 for two and a half sales", channel.Fee{Fixed: amount("0.15"), OrdersTogether: over("2.5")}, "40", "0.15", "0.15", "0.06"},
		{"0.10 an item, four orders", channel.Fee{Fixed: amount("0.10"), Per: quoin.PerItem, OrdersTogether: over("4")}, "40", "1.20", "1.20", "0.30"},
		// 20 × 40.00 × 10% = 80.00.
		{"at most 50.00 a month", channel.Fee{Rate: rate("10%"), AtMost: some("50.00"), OrdersTogether: over("20")}, "40", "80", "50", "2.50"},
		{"the cap not reached", channel.Fee{Rate: rate("10%"), AtMost: some("50.00"), OrdersTogether: over("10")}, "40", "40", "40", "4"},
		{"at least 30.00 a month", channel.Fee{Rate: rate("1%"), AtLeast: amount("30.00"), OrdersTogether: over("10")}, "40", "4", "30", "3"},
		// 50 × 40.00: 1,000 at 10% and 1,000 at 5%.
		{"a threshold of a year", channel.Fee{Tiers: yearly, OrdersTogether: over("50")}, "40", "150", "150", "3"},
		{"all at the rate reached", channel.Fee{Tiers: yearly, TierMode: channel.Whole, OrdersTogether: over("50")}, "40", "100", "100", "2"},
		{"in a year that does not reach it", channel.Fee{Tiers: yearly, OrdersTogether: over("20")}, "40", "80", "80", "4"},
		// 3 × 40.00 × 0.0125% = 0.015: rounded once for three.
		{"rounded together", channel.Fee{Rate: rate("0.0125%"), OrdersTogether: over("3")}, "40", "0.015", "0.02", "0.02/3"},
		{"and in part", channel.Fee{Fixed: amount("24.00"), OrdersTogether: over("60"), Share: someRate("25%")}, "40", "24", "24", "0.10"},
		{"expected", channel.Fee{Rate: rate("0.4125%"), Expected: true}, "40", "0.165", "0.165", "0.165"},
		{"expected, and its tax", channel.Fee{Rate: rate("0.4125%"), Expected: true, Tax: rate("10%")}, "40", "0.165", "0.165", "0.1815"},
		{"expected, whatever the rounding", channel.Fee{Rate: rate("0.4125%"), Expected: true, Rounding: quoin.Up}, "40", "0.165", "0.165", "0.165"},
		{"of the full price", channel.Fee{Rate: rate("10%"), Of: []channel.Part{channel.Items, channel.Discount}}, "45", "4.50", "4.50", "4.50"},
		{"of the discount alone", channel.Fee{Rate: rate("50%"), Of: []channel.Part{channel.Discount}}, "5", "2.50", "2.50", "2.50"},
		{"net, of a price that holds no tax", channel.Fee{Rate: rate("10%"), WithoutTax: true}, "40", "4", "4", "4"},
	} {
		got := c.fee.Charge(paid, 2)
		for _, line := range []struct {
			name string
			got  quoin.Amount
			want string
		}{{"base", got.Base, c.base}, {"computed", got.Computed, c.computed}, {"rounded", got.Rounded, c.rounded}, {"counts", got.Total, c.counts}} {
			if !comesTo(line.got, line.want) {
				t.Errorf("%s: %s is %v, want %s", c.what, line.name, line.got, line.want)
			}
		}
	}
}

// Bases without the tax that prices hold, here 20%.
func TestNetBases(t *testing.T) {
	paid := channel.Payment{Count: 1, Items: amount("40.00"), Shipping: amount("4.50"), Discount: amount("5.00"), Within: rate("20%")}
	taxed := paid
	taxed.ShippingTaxed = true
	for _, c := range []struct {
		what string
		of   []channel.Part
		paid channel.Payment
		base string
	}{
		{"items", nil, paid, "33.33"}, // less 6.666…
		{"items and untaxed shipping", []channel.Part{channel.Items, channel.Shipping}, paid, "37.83"},                                // 44.50 less 6.666…
		{"items and taxed shipping", []channel.Part{channel.Items, channel.Shipping}, taxed, "37.08"},                                 // 44.50 less 7.416…
		{"items and discount", []channel.Part{channel.Items, channel.Discount}, paid, "37.50"},                                        // 45.00 less 7.50
		{"shipping alone, untaxed", []channel.Part{channel.Shipping}, paid, "4.50"},                                                   //
		{"shipping alone, taxed", []channel.Part{channel.Shipping}, taxed, "3.75"},                                                    //
		{"all", []channel.Part{channel.Items, channel.Shipping, channel.SalesTax, channel.Discount}, taxed, "41.25"},                  // 49.50 less 8.25
		{"all, shipping untaxed", []channel.Part{channel.Items, channel.Shipping, channel.SalesTax, channel.Discount}, paid, "42.00"}, // 49.50 less 7.50
	} {
		if got := (channel.Fee{Rate: rate("10%"), Of: c.of, WithoutTax: true}).Charge(c.paid, 2).Base; !got.Equal(amount(c.base)) {
			t.Errorf("%s: %s, want %s", c.what, got, c.base)
		}
	}
}

// A fee on some kinds of order is none on the others.
func TestFeesOfKinds(t *testing.T) {
	c := channel.Channel{
		Orders: []channel.Order{{ID: "card", Share: someRate("80%")}, {ID: "cash", Share: someRate("20%")}},
		Fees:   []channel.Fee{{Name: "card", Rate: rate("2%"), Orders: []string{"card"}}, {Name: "stall", Rate: rate("10%")}},
	}
	ledger{what: "by card", c: c, list: "40.00", items: "40", revenue: "40", fees: "card 0.80; stall 4"}.check(t)
	ledger{what: "in cash", c: c, kind: 1, list: "40.00", items: "40", revenue: "40", fees: "stall 4"}.check(t)
	if got := c.Terms(eur).Proceeds(amount("40.00")).Fees; !got.Equal(amount("4.64")) {
		t.Errorf("on average %s, want 4.64", got)
	}
}
