package channel_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// dozen is a first order and a reorder of twelve prints at half the list price:
// at 24.00 a dozen is 144.00, and it is sent for 9.60.
func dozen(w channel.Trade) channel.Channel {
	return channel.Channel{
		ID: "shops", TradeDiscount: []quoin.Rate{rate("50%")}, Trade: &w,
		Orders: []channel.Order{
			{ID: "first", Share: someRate("25%"), Items: 12, Postage: amount("9.60")},
			{ID: "again", Share: someRate("75%"), Items: 12, Postage: amount("9.60"), Reorder: true},
		},
	}
}

func TestTradeFreight(t *testing.T) {
	lossy := dozen(channel.Trade{Freight: channel.Prepaid})
	lossy.LostParcels = rate("4%")
	coded := func(test promo.Test) channel.Channel {
		c := dozen(channel.Trade{Freight: channel.Added, FreeFrom: some("144.00")})
		c.Promotions = []promo.Offer{{ID: "spring", Rate: rate("10%")}}
		c.Orders[0].Codes, c.Orders[0].FreeTest = []string{"spring"}, test
		return c
	}
	taxed := dozen(channel.Trade{Freight: channel.Added})
	taxed.Tax = channel.Tax{Rate: rate("20%"), OnShipping: true}
	said := dozen(channel.Trade{})
	said.Orders[0].Shipping, said.Orders[0].FreeFrom = amount("7.00"), some("150.00")
	abroad := func(w channel.Trade) channel.Channel {
		c := dozen(w)
		c.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80")}
		return c
	}
	for _, l := range []ledger{
		{what: "collect", c: dozen(channel.Trade{Freight: channel.Collect}), items: "144", revenue: "144"},
		{what: "added", c: dozen(channel.Trade{Freight: channel.Added}), items: "144", shipping: "9.60", revenue: "153.60", fulfilment: "9.60"},
		{what: "added, free to the cent", c: dozen(channel.Trade{Freight: channel.Added, FreeFrom: some("144.00")}), items: "144", revenue: "144", fulfilment: "9.60"},
		{what: "added, a cent short", c: dozen(channel.Trade{Freight: channel.Added, FreeFrom: some("144.01")}), items: "144", shipping: "9.60", revenue: "153.60", fulfilment: "9.60"},
		{what: "added, free before codes", c: coded(promo.Before), items: "129.60", revenue: "129.60", fulfilment: "9.60"},
		{what: "added, not free after them", c: coded(promo.After), items: "129.60", shipping: "9.60", revenue: "139.20", fulfilment: "9.60"},
		// (144.00 + 9.60) × 20%.
		{what: "added and taxed", c: taxed, items: "144", shipping: "9.60", tax: "30.72", revenue: "153.60", fulfilment: "9.60"},
		{what: "prepaid", c: dozen(channel.Trade{Freight: channel.Prepaid}), items: "144", revenue: "144", fulfilment: "9.60"},
		{what: "prepaid, one in 25 lost", c: lossy, items: "144", revenue: "144", fulfilment: "10"},
		{what: "an allowance of 5%", c: dozen(channel.Trade{Freight: channel.Allowance, Allowance: rate("5%")}), items: "144", revenue: "144", fees: "freight allowance 7.20"},
		{what: "an allowance of 10%, at most the freight", c: dozen(channel.Trade{Freight: channel.Allowance, Allowance: rate("10%")}), items: "144", revenue: "144", fees: "freight allowance 9.60"},
		{what: "an allowance without its term", c: dozen(channel.Trade{Freight: channel.Collect, Allowance: rate("10%")}), items: "144", revenue: "144"},
		{what: "as orders say", c: said, items: "144", shipping: "7", revenue: "151", fulfilment: "9.60"},
		// 24.00 × 50% ÷ 0.80 = 15.00 each; 9.60 ÷ 0.80 = 12.00.
		{what: "added abroad", c: abroad(channel.Trade{Freight: channel.Added}), items: "180", shipping: "12", revenue: "192", fulfilment: "9.60"},
		{what: "an allowance abroad", c: abroad(channel.Trade{Freight: channel.Allowance, Allowance: rate("10%")}), items: "180", revenue: "180", fees: "freight allowance 12"},
	} {
		l.list = "24.00"
		l.check(t)
	}
}

func TestTradeCredit(t *testing.T) {
	// An invoice of 144.00, 9.60 of freight and 28.80 of tax: 182.40.
	invoice := func(credit channel.Credit) channel.Channel {
		c := dozen(channel.Trade{Freight: channel.Added, Credit: credit})
		c.Tax.Rate = rate("20%")
		return c
	}
	for _, l := range []ledger{
		// 182.40 × 2% = 3.648.
		{what: "all pay early", c: invoice(channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10}), fees: "early payment 3.65"},
		{what: "two in five do", c: invoice(channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10, Taken: someRate("40%")}), fees: "early payment 1.46"},
		{what: "nobody does", c: invoice(channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10, Taken: someRate("0%")})},
		// 182.40 × 8% × 30 = 437.76.
		{what: "waiting for thirty days", c: invoice(channel.Credit{Days: 30, Interest: rate("8%")}), fees: "waiting for the money 437.76/365"},
		// 0.4 × 10 + 0.6 × 30 = 22 days; 182.40 × 8% × 22 = 321.024.
		{
			what: "waiting for 22 on average", c: invoice(channel.Credit{Days: 30, Interest: rate("8%"), Early: rate("2%"), EarlyDays: 10, Taken: someRate("40%")}),
			fees: "early payment 1.46; waiting for the money 321.024/365",
		},
		{what: "one in a hundred never pays", c: invoice(channel.Credit{Bad: rate("1%")}), fees: "bad debts 1.824"},
	} {
		l.list, l.items, l.shipping, l.tax, l.revenue, l.fulfilment = "24.00", "144", "9.60", "28.80", "153.60", "9.60"
		l.check(t)
	}
}

func TestTradeAgentAndDefects(t *testing.T) {
	both := channel.Trade{
		Freight: channel.Allowance, Allowance: rate("5%"), Agent: rate("15%"), AgentReorder: someRate("10%"), Defects: rate("0.5%"),
		Credit: channel.Credit{Days: 73, Interest: rate("5%"), Bad: rate("1%")},
	}
	net := dozen(channel.Trade{Agent: rate("15%")})
	net.Tax.Rate = rate("20%")
	for _, l := range []ledger{
		// Waiting is 144.00 × 5% × 73 ÷ 365 = 1.44.
		{what: "a first order", c: dozen(both), fees: "freight allowance 7.20; waiting for the money 1.44; bad debts 1.44; agent 21.60; defects 0.72"},
		{what: "a reorder", c: dozen(both), kind: 1, fees: "freight allowance 7.20; waiting for the money 1.44; bad debts 1.44; agent 14.40; defects 0.72"},
		{what: "an agent on every order", c: dozen(channel.Trade{Agent: rate("15%"), Freight: channel.Collect}), kind: 1, fees: "agent 21.60"},
		{what: "an agent on first orders alone", c: dozen(channel.Trade{Agent: rate("15%"), AgentReorder: someRate("0%"), Freight: channel.Collect}), kind: 1},
		{what: "an agent on reorders alone", c: dozen(channel.Trade{AgentReorder: someRate("10%"), Freight: channel.Collect}), kind: 1, fees: "agent 14.40"},
		{what: "and not on the first", c: dozen(channel.Trade{AgentReorder: someRate("10%"), Freight: channel.Collect})},
	} {
		l.list, l.items, l.revenue = "24.00", "144", "144"
		l.check(t)
	}
	ledger{what: "no commission on tax", c: net, list: "24.00", items: "144", tax: "28.80", revenue: "144", fulfilment: "9.60", fees: "agent 21.60"}.check(t)
	// A quarter of the orders pay 21.60, the others 14.40: 16.20 on twelve items.
	agents := dozen(channel.Trade{Agent: rate("15%"), AgentReorder: someRate("10%")}).Terms(eur).Proceeds(amount("24.00"))
	if !agents.Fees.Equal(amount("1.35")) {
		t.Errorf("agents take %s of an item, want 1.35", agents.Fees)
	}
}

// OpenStax, Principles of Finance, 19.2: 2/10, net 30, simple, on 360 days; the
// same on 365 days (common practice).
func TestPublishedEarlyCost(t *testing.T) {
	terms := channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10}
	for _, c := range []struct {
		year int64
		want string
	}{{360, "36.73%"}, {365, "37.24%"}} {
		if got, ok := terms.EarlyCost(c.year); !ok || got.Round(2).String() != c.want {
			t.Errorf("on %d days: %s, %t, want %s", c.year, got.Round(2), ok, c.want)
		}
	}
	for what, c := range map[string]channel.Credit{
		"no discount":  {Days: 30, EarlyDays: 10},
		"no days":      {Days: 30, Early: rate("2%"), EarlyDays: 30},
		"days lost":    {Days: 10, Early: rate("2%"), EarlyDays: 30},
		"all of it":    {Days: 30, Early: rate("100%"), EarlyDays: 10},
		"never to pay": {Early: rate("2%"), EarlyDays: 10},
	} {
		if got, ok := c.EarlyCost(365); ok || !got.IsZero() {
			t.Errorf("%s: %s, %t, want nothing", what, got, ok)
		}
	}
}

// Compound on 365 days, 2/10, net 30 is 44.59% (common practice).
func TestPublishedEarlyYield(t *testing.T) {
	got, ok := channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10}.EarlyYield(365)
	if !ok || got.Round(2).String() != "44.59%" {
		t.Errorf("%s, %t, want 44.59%%", got.Round(2), ok)
	}
	for what, c := range map[string]struct {
		credit channel.Credit
		year   int64
	}{
		"no discount": {channel.Credit{Days: 30, EarlyDays: 10}, 365},
		"days lost":   {channel.Credit{Days: 10, Early: rate("2%"), EarlyDays: 30}, 365},
		"no year":     {channel.Credit{Days: 30, Early: rate("2%"), EarlyDays: 10}, 0},
	} {
		if got, ok := c.credit.EarlyYield(c.year); ok || !got.IsZero() {
			t.Errorf("%s: %s, %t, want nothing", what, got, ok)
		}
	}
}

// (1 + yield) to the power of the days is (1 ÷ (1 − discount)) to that of the year:
// in fractions, to 18 digits. Compound is never less than simple in a year that
// holds the days at least once.
func TestEarlyYieldCompounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := rapid.Int64Range(1, 60).Draw(t, "days")
		c := channel.Credit{Days: days + 5, EarlyDays: 5, Early: draws{t}.rate("discount", 200).Add(rate("0.1%"))}
		got, ok := c.EarlyYield(365)
		if !ok {
			t.Fatal("no yield")
		}
		up := raised(new(big.Rat).Add(big.NewRat(1, 1), got.Rat()), days)
		want := raised(new(big.Rat).Inv(c.Early.Complement().Rat()), 365)
		off := new(big.Rat).Quo(up, want)
		off.Sub(off, big.NewRat(1, 1))
		if off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000_000_000_000)) > 0 {
			t.Fatalf("%s for %d days of %s is off by %s", got, days, c.Early, off.FloatString(24))
		}
		if simple, _ := c.EarlyCost(365); got.Cmp(simple) < 0 {
			t.Fatalf("compound %s, simple %s", got, simple)
		}
	})
}

func raised(x *big.Rat, n int64) *big.Rat {
	by := big.NewInt(n)
	return new(big.Rat).SetFrac(new(big.Int).Exp(x.Num(), by, nil), new(big.Int).Exp(x.Denom(), by, nil))
}

// So many pieces, in whole cases, come to a minimum.
func TestMakes(t *testing.T) {
	for _, c := range []struct {
		pieces        int64 // in a case
		minimum, unit string
		want          int64
	}{
		{6, "150.00", "12.00", 18}, // two cases are 144.00
		{6, "144.00", "12.00", 12},
		{6, "144.01", "12.00", 18},
		{0, "144.01", "12.00", 13},
		{1, "0.01", "12.00", 1},
		{6, "0", "12.00", 0},
		{6, "150.00", "0", 0},
		{1, "1000000.00", "0.01", 0}, // a hundred million
	} {
		got, ok := channel.Trade{Case: c.pieces}.Makes(amount(c.minimum), amount(c.unit))
		if got != c.want || ok != (c.want > 0) {
			t.Errorf("%s at %s in cases of %d: %d, %t, want %d", c.minimum, c.unit, c.pieces, got, ok, c.want)
		}
	}
}

func TestCreditWaits(t *testing.T) {
	for _, c := range []struct {
		what    string
		credit  channel.Credit
		days    string
		carries string // of the invoice, over 365
	}{
		{"net", channel.Credit{Days: 60, Interest: rate("10%")}, "60", "6"},
		{"early days without a discount", channel.Credit{Days: 60, EarlyDays: 10, Interest: rate("10%")}, "60", "6"},
		{"all early", channel.Credit{Days: 60, EarlyDays: 10, Early: rate("2%"), Interest: rate("10%")}, "10", "1"},
		{"a quarter early", channel.Credit{Days: 60, EarlyDays: 10, Early: rate("2%"), Interest: rate("10%"), Taken: someRate("25%")}, "47.5", "4.75"},
		{"money for nothing", channel.Credit{Days: 60}, "60", "0"},
	} {
		if got := c.credit.Waits(); !got.Equal(quoin.MustFactor(c.days)) {
			t.Errorf("%s: %s days, want %s", c.what, got, c.days)
		}
		if got := amount("1").Part(c.credit.Carries()); !comesTo(got, c.carries+"/365") {
			t.Errorf("%s: %s, want %s ÷ 365", c.what, got, c.carries)
		}
	}
}
