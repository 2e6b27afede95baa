package channel_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
)

// fixedTiers are 1.50 from 0 and 3.00 from 10.00.
func fixedTiers() []channel.Tier {
	return []channel.Tier{{From: amount("0"), Fixed: amount("1.50")}, {From: amount("10.00"), Fixed: amount("3.00")}}
}

// Tiers with fixed amounts around 10.00, worked by hand: what the tiers and the fixed amount
// of the fee come to, then what counts of it.
func TestFixedTiers(t *testing.T) {
	const whole, marginal, item = channel.Whole, channel.Marginal, quoin.PerItem
	tiers := fixedTiers()
	rates := []channel.Tier{{From: amount("0"), Rate: rate("10%")}, {From: amount("10.00"), Rate: rate("5%"), Fixed: amount("0.40")}}
	falling := []channel.Tier{{From: amount("0"), Fixed: amount("3.00")}, {From: amount("10.00"), Fixed: amount("1.50")}}
	four := []channel.Tier{{From: amount("0"), Fixed: amount("6.00")}, {From: amount("40.00"), Fixed: amount("12.00")}}
	for _, c := range []struct {
		what             string
		fee              channel.Fee
		count            int64
		items            string
		computed, counts string
	}{
		{"whole", channel.Fee{Tiers: tiers, TierMode: whole}, 1, "9.99", "1.50", "1.50"},
		{"whole", channel.Fee{Tiers: tiers, TierMode: whole}, 1, "10.00", "3.00", "3.00"},
		{"whole", channel.Fee{Tiers: tiers, TierMode: whole}, 1, "10.01", "3.00", "3.00"},
		{"whole, two at 9.99", channel.Fee{Tiers: tiers, TierMode: whole}, 2, "19.98", "3.00", "3.00"},
		{"whole, two at 4.99", channel.Fee{Tiers: tiers, TierMode: whole}, 2, "9.98", "1.50", "1.50"},
		{"whole, each of one", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 1, "9.99", "1.50", "1.50"},
		{"whole, each of one", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 1, "10.00", "3.00", "3.00"},
		{"whole, each of two at 9.99", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 2, "19.98", "3.00", "3.00"},
		{"whole, each of two at 9.995", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 2, "19.99", "3.00", "3.00"},
		{"whole, each of two at 10.00", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 2, "20.00", "6.00", "6.00"},
		{"whole, each of two at 10.01", channel.Fee{Tiers: tiers, TierMode: whole, Per: item}, 2, "20.02", "6.00", "6.00"},
		{"marginal", channel.Fee{Tiers: tiers, TierMode: marginal}, 1, "9.99", "1.50", "1.50"},
		{"marginal", channel.Fee{Tiers: tiers, TierMode: marginal}, 1, "10.00", "4.50", "4.50"},
		{"marginal where nothing is said", channel.Fee{Tiers: tiers}, 1, "10.01", "4.50", "4.50"},
		{"marginal, two at 9.99", channel.Fee{Tiers: tiers}, 2, "19.98", "4.50", "4.50"},
		{"marginal, each of two at 9.99", channel.Fee{Tiers: tiers, Per: item}, 2, "19.98", "3.00", "3.00"},
		{"marginal, each of two at 10.00", channel.Fee{Tiers: tiers, Per: item}, 2, "20.00", "9.00", "9.00"},
		{"of nothing", channel.Fee{Tiers: tiers}, 1, "0.00", "1.50", "1.50"},
		{"below every tier", channel.Fee{Tiers: tiers[1:], TierMode: whole}, 1, "9.99", "0", "0"},
		{"the only tier", channel.Fee{Tiers: tiers[1:], TierMode: whole}, 1, "10.00", "3.00", "3.00"},
		{"falling", channel.Fee{Tiers: falling, TierMode: whole}, 1, "9.99", "3.00", "3.00"},
		{"falling", channel.Fee{Tiers: falling, TierMode: whole}, 1, "10.00", "1.50", "1.50"},

		{"rates, whole", channel.Fee{Tiers: rates, TierMode: whole}, 1, "9.99", "0.999", "1.00"},
		{"rates, whole", channel.Fee{Tiers: rates, TierMode: whole}, 1, "10.00", "0.90", "0.90"},
		{"rates, whole", channel.Fee{Tiers: rates, TierMode: whole}, 1, "12.00", "1.00", "1.00"},
		{"rates, marginal: the slice is empty", channel.Fee{Tiers: rates}, 1, "10.00", "1.40", "1.40"},
		{"rates, marginal", channel.Fee{Tiers: rates}, 1, "12.00", "1.50", "1.50"},
		{"rates, whole, two at 12.00", channel.Fee{Tiers: rates, TierMode: whole}, 2, "24.00", "1.60", "1.60"},
		{"rates, marginal, two at 12.00", channel.Fee{Tiers: rates}, 2, "24.00", "2.10", "2.10"},
		{"rates, whole, each of two at 12.00", channel.Fee{Tiers: rates, TierMode: whole, Per: item}, 2, "24.00", "2.00", "2.00"},
		{"rates, marginal, each of two at 12.00", channel.Fee{Tiers: rates, Per: item}, 2, "24.00", "3.00", "3.00"},

		{"0.20 beside them", channel.Fee{Tiers: tiers, TierMode: whole, Fixed: amount("0.20")}, 2, "19.98", "3.20", "3.20"},
		{"0.20 an item beside them", channel.Fee{Tiers: tiers, TierMode: whole, Fixed: amount("0.20"), Per: item}, 2, "19.98", "3.40", "3.40"},
		{"at least 2.00", channel.Fee{Tiers: tiers, TierMode: whole, AtLeast: amount("2.00")}, 1, "9.99", "1.50", "2.00"},
		{"at least 2.00", channel.Fee{Tiers: tiers, TierMode: whole, AtLeast: amount("2.00")}, 1, "10.00", "3.00", "3.00"},
		{"at most 2.50", channel.Fee{Tiers: tiers, TierMode: whole, AtMost: some("2.50")}, 1, "10.00", "3.00", "2.50"},
		{"at most 5.00 an order, each of two at 10.00", channel.Fee{Tiers: tiers, TierMode: whole, Per: item, AtMost: some("5.00")}, 2, "20.00", "6.00", "5.00"},
		{"with a tax of 20% on it", channel.Fee{Tiers: tiers, TierMode: whole, Tax: rate("20%")}, 1, "9.99", "1.50", "1.80"},
		{"with a tax of 20% on it", channel.Fee{Tiers: tiers, TierMode: whole, Tax: rate("20%")}, 1, "10.00", "3.00", "3.60"},
		{"on a quarter of the sales", channel.Fee{Tiers: tiers, TierMode: whole, Share: someRate("25%")}, 1, "10.00", "3.00", "0.75"},
		{"a tier finer than cents", channel.Fee{Tiers: []channel.Tier{{Fixed: amount("1.505")}}}, 1, "10.00", "1.505", "1.51"},
		{"the same, expected", channel.Fee{Tiers: []channel.Tier{{Fixed: amount("1.505")}}, Expected: true}, 1, "10.00", "1.505", "1.505"},

		// Four orders of 9.99 come to 39.96.
		{"four orders together", channel.Fee{Tiers: four, TierMode: whole, OrdersTogether: over("4")}, 1, "9.99", "6.00", "1.50"},
		{"four orders together", channel.Fee{Tiers: four, TierMode: whole, OrdersTogether: over("4")}, 1, "10.00", "12.00", "3.00"},
		// Eight items at 9.99, and eight at 10.00.
		{"each item of four orders of two", channel.Fee{Tiers: tiers, TierMode: whole, Per: item, OrdersTogether: over("4")}, 2, "19.98", "12.00", "3.00"},
		{"each item of four orders of two", channel.Fee{Tiers: tiers, TierMode: whole, Per: item, OrdersTogether: over("4")}, 2, "20.00", "24.00", "6.00"},
	} {
		got := c.fee.Charge(channel.Payment{Count: c.count, Items: amount(c.items)}, 2)
		if !comesTo(got.Computed, c.computed) || !comesTo(got.Total, c.counts) {
			t.Errorf("%s of %s: %s, of which %s count, want %s and %s", c.what, c.items, got.Computed, got.Total, c.computed, c.counts)
		}
	}
}

// Tiers go by the base that the fee has, and their amounts are in the currency of the buyers.
func TestFixedTiersInChannels(t *testing.T) {
	fee := channel.Fee{Name: "sale", Tiers: fixedTiers(), TierMode: channel.Whole}
	with := func(change func(f *channel.Fee)) []channel.Fee {
		f := fee
		change(&f)
		return []channel.Fee{f}
	}
	plain := []channel.Fee{fee}
	each := with(func(f *channel.Fee) { f.Per = quoin.PerItem })
	taxed := channel.Tax{Rate: rate("20%"), InPrice: true}
	dollars := &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.5")}
	two := []channel.Order{{Items: 2}}
	for _, c := range []struct {
		what string
		c    channel.Channel
		list string
		fees string // per item, in the shop's currency
	}{
		{"two in an order", channel.Channel{Fees: plain, Orders: two}, "4.99", "0.75"},
		{"two in an order", channel.Channel{Fees: plain, Orders: two}, "5.00", "1.50"},
		{"each of two", channel.Channel{Fees: each, Orders: two}, "9.99", "1.50"},
		{"each of two", channel.Channel{Fees: each, Orders: two}, "10.00", "3.00"},
		// 10% off 11.10 are 9.99, and off 11.11 10.00 to the cent.
		{"after a promotion", channel.Channel{Fees: plain, Promotion: rate("10%")}, "11.10", "1.50"},
		{"after a promotion", channel.Channel{Fees: plain, Promotion: rate("10%")}, "11.11", "3.00"},
		// Of 11.99 2.00 are tax, of 12.00 too.
		{"of the net price", channel.Channel{Fees: with(func(f *channel.Fee) { f.WithoutTax = true }), Tax: taxed}, "11.99", "1.50"},
		{"of the net price", channel.Channel{Fees: with(func(f *channel.Fee) { f.WithoutTax = true }), Tax: taxed}, "12.00", "3.00"},
		{"of shipping too", channel.Channel{Fees: with(func(f *channel.Fee) { f.Of = []channel.Part{channel.Items, channel.Shipping} }), Orders: []channel.Order{{Shipping: amount("4.00")}}}, "5.99", "1.50"},
		{"of shipping too", channel.Channel{Fees: with(func(f *channel.Fee) { f.Of = []channel.Part{channel.Items, channel.Shipping} }), Orders: []channel.Order{{Shipping: amount("4.00")}}}, "6.00", "3.00"},
		// One dollar is 0.50: 4.99 are 9.98 dollars, and the fee is 1.50 dollars.
		{"abroad", channel.Channel{Fees: plain, ForeignCurrency: dollars}, "4.99", "0.75"},
		{"abroad", channel.Channel{Fees: plain, ForeignCurrency: dollars}, "5.00", "1.50"},
		// A tenth of the sales is given back, with all of the fee; the buyers' money is "refunds".
		{"with refunds", channel.Channel{Fees: plain, Returns: &refund.Rates{Returned: rate("10%"), Fees: rate("100%")}}, "10.00", "3.70"}, // 2.70 + 1.00
		{"on consignment at 40%", channel.Channel{Fees: plain, Consignment: &channel.Consignment{Commission: someRate("40%")}}, "10.00", "7.00"},
	} {
		tm := c.c.Terms(eur)
		got, exactly := tm.Proceeds(amount(c.list)), tm.Exactly(amount(c.list))
		if !comesTo(got.Fees, c.fees) || fmt.Sprint(got) != fmt.Sprint(exactly) {
			t.Errorf("%s at %s: %s, by decimals %s, want %s", c.what, c.list, got.Fees, exactly.Fees, c.fees)
		}
	}
}

// In the worst order a fee on a quarter of the sales is charged in full.
func TestFixedTiersInTheWorstOrder(t *testing.T) {
	tm := channel.Channel{Fees: []channel.Fee{{Tiers: fixedTiers(), TierMode: channel.Whole, Share: someRate("25%")}}}.Terms(eur)
	if got := tm.Worst()[0].Proceeds(amount("10.00")).Fees; !got.Equal(amount("3.00")) {
		t.Errorf("%s, want 3.00", got)
	}
}

// The curve jumps where a tier begins, and is level on both sides. Its breaks are counted.
func TestCurveOfFixedTiers(t *testing.T) {
	g, err := quoin.NewGrid(amount("0.01"), amount("20.00"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what  string
		fee   channel.Fee
		items int64
		want  string
	}{
		{"whole", channel.Fee{Tiers: fixedTiers(), TierMode: channel.Whole}, 1, "[0.01–9.99 1.50] [10.00–20.00 3.00]"},
		{"whole, two in an order", channel.Fee{Tiers: fixedTiers(), TierMode: channel.Whole}, 2, "[0.01–4.99 0.75] [5.00–20.00 1.50]"},
		{"whole, each of two", channel.Fee{Tiers: fixedTiers(), TierMode: channel.Whole, Per: quoin.PerItem}, 2, "[0.01–9.99 1.50] [10.00–20.00 3.00]"},
		{"marginal", channel.Fee{Tiers: fixedTiers()}, 1, "[0.01–9.99 1.50] [10.00–20.00 4.50]"},
		{"at least 2.00", channel.Fee{Tiers: fixedTiers(), TierMode: channel.Whole, AtLeast: amount("2.00")}, 1, "[0.01–9.99 2.00] [10.00–20.00 3.00]"},
		{"at most 1.00", channel.Fee{Tiers: fixedTiers(), TierMode: channel.Whole, AtMost: some("1.00")}, 1, "[0.01–9.99 1.00] [10.00–20.00 1.00]"},
	} {
		shop := channel.Channel{Orders: []channel.Order{{Items: c.items}}, Fees: []channel.Fee{c.fee}}
		got := ""
		pieces := shop.Terms(eur).Curve(g)
		for _, p := range pieces {
			if !p.Fees.Slope.IsZero() || !p.Fees.Within.IsZero() {
				t.Errorf("%s: from %s on the fee is not level: %+v", c.what, g.Price(p.First), p.Fees)
			}
			got += fmt.Sprintf(" [%s–%s %.2f]", g.Price(p.First), g.Price(p.Last), p.Fees.Start)
		}
		if got[1:] != c.want {
			t.Errorf("%s: %s, want %s", c.what, got[1:], c.want)
		}
		if shop.Breaks() < len(pieces) {
			t.Errorf("%s: %d breaks counted of %d pieces", c.what, shop.Breaks(), len(pieces))
		}
	}
}
