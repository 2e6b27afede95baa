package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

var (
	amount = quoin.MustAmount
	rate   = quoin.MustRate
	eur    = quoin.MustCurrency("EUR")
)

// Fees worked by hand, line by line.
func TestFees(t *testing.T) {
	paid := channel.Payment{Count: 3, Items: amount("40.00"), Shipping: amount("4.50"), Tax: amount("8.90")}
	whole := []channel.Tier{{From: amount("0"), Rate: rate("6%")}, {From: amount("40.00"), Rate: rate("14%")}}
	for _, c := range []struct {
		what                        string
		fee                         channel.Fee
		base, computed, tax, counts string
	}{
		{"rate of items", channel.Fee{Rate: rate("7.4%")}, "40.00", "2.960", "0.00", "2.96"},
		{
			"rate of all that is paid",
			channel.Fee{Rate: rate("3.3%"), Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}, Fixed: amount("0.27")},
			"53.40", "2.0322", "0.00", "2.03",
		}, // 1.7622 + 0.27
		{"fixed for each item", channel.Fee{Fixed: amount("0.15"), Per: quoin.PerItem}, "40.00", "0.45", "0.00", "0.45"},
		{"with tax on the fee", channel.Fee{Rate: rate("7.4%"), Tax: rate("18%")}, "40.00", "2.960", "0.53", "3.49"}, // 0.5328
		{"on one sale in ten", channel.Fee{Rate: rate("13%"), Share: quoin.Some(rate("10%"))}, "40.00", "5.20", "0.00", "0.520"},
		{"at least", channel.Fee{Rate: rate("1%"), AtLeast: amount("0.90")}, "40.00", "0.40", "0.00", "0.90"},
		{"at most", channel.Fee{Rate: rate("20%"), AtMost: quoin.Some(amount("5.00"))}, "40.00", "8.00", "0.00", "5.00"},
		{"at most wins", channel.Fee{AtLeast: amount("7"), AtMost: quoin.Some(amount("5"))}, "40.00", "0", "0.00", "5.00"},
		{"a tier reached takes all", channel.Fee{Tiers: whole, TierMode: channel.Whole}, "40.00", "5.60", "0.00", "5.60"},
		{"slices, the next not begun", channel.Fee{Tiers: whole}, "40.00", "2.40", "0.00", "2.40"},
		{"below every tier", channel.Fee{Tiers: []channel.Tier{{From: amount("50"), Rate: rate("9%")}}}, "40.00", "0", "0.00", "0.00"},
		{
			"slices",
			channel.Fee{Tiers: []channel.Tier{{From: amount("10"), Rate: rate("5%")}, {From: amount("30"), Rate: rate("2%")}}},
			"40.00", "1.20", "0.00", "1.20",
		}, // 20 at 5%, 10 at 2%
		{"rounded up", channel.Fee{Rate: rate("0.63%"), Rounding: quoin.Up}, "40.00", "0.252", "0.00", "0.26"},
		{"rounded down", channel.Fee{Rate: rate("0.64%"), Rounding: quoin.Down}, "40.00", "0.256", "0.00", "0.25"},
		{"tie down", channel.Fee{Rate: rate("0.5375%"), Rounding: quoin.HalfDown}, "40.00", "0.215", "0.00", "0.21"},
		{"tie to even", channel.Fee{Rate: rate("0.5125%"), Rounding: quoin.HalfEven}, "40.00", "0.205", "0.00", "0.20"},
		{"tie up", channel.Fee{Rate: rate("0.5125%")}, "40.00", "0.205", "0.00", "0.21"},
	} {
		got := c.fee.Charge(paid, 2)
		for _, line := range []struct {
			name string
			got  quoin.Amount
			want string
		}{{"base", got.Base, c.base}, {"computed", got.Computed, c.computed}, {"tax", got.Tax, c.tax}, {"counts", got.Total, c.counts}} {
			if !line.got.Equal(amount(line.want)) {
				t.Errorf("%s: %s is %v, want %s", c.what, line.name, line.got, line.want)
			}
		}
	}
}

func terms(t *rapid.T) (channel.Channel, quoin.Grid) {
	percent := func(name string, most int64) quoin.Rate {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 3).Share(amount("1"))
	}
	money := func(name string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 2)
	}
	c := channel.Channel{
		Uplift: percent("uplift", 300), Promotion: percent("promotion", 400), LostParcels: percent("loss", 100),
		Tax: channel.Tax{Rate: percent("tax", 250), InPrice: rapid.Bool().Draw(t, "in price"), OnShipping: rapid.Bool().Draw(t, "on shipping")},
	}
	if rapid.Bool().Draw(t, "discounted") {
		c.TradeDiscount = []quoin.Rate{percent("discount", 600), percent("more", 100)}
	}
	for range rapid.IntRange(1, 3).Draw(t, "kinds") {
		o := channel.Order{Items: rapid.Int64Range(1, 4).Draw(t, "items"), Shipping: money("shipping", 500), Postage: money("postage", 700)}
		o.Share = quoin.Some(percent("share", 900).Add(rate("1%")))
		if rapid.Bool().Draw(t, "free") {
			o.FreeFrom = quoin.Some(money("free from", 2000))
		}
		c.Orders = append(c.Orders, o)
	}
	for range rapid.IntRange(0, 3).Draw(t, "fees") {
		c.Fees = append(c.Fees, fee(t, percent, money))
	}
	step := rapid.SampledFrom([]string{"0.01", "0.05", "0.37"}).Draw(t, "step")
	g, err := quoin.NewGrid(amount(step), amount(step).Times(quoin.FactorOf(300)))
	if err != nil {
		t.Fatal(err)
	}
	return c, g
}

func fee(t *rapid.T, percent func(string, int64) quoin.Rate, money func(string, int64) quoin.Amount) channel.Fee {
	f := channel.Fee{Fixed: money("fixed", 40), Tax: percent("fee tax", 220), Rounding: quoin.Rounding(rapid.IntRange(0, 4).Draw(t, "rounding"))}
	f.Of = rapid.SampledFrom([][]channel.Part{nil, {channel.Shipping}, {channel.Items, channel.SalesTax}, {channel.Items, channel.Shipping, channel.SalesTax}}).Draw(t, "of")
	switch rapid.IntRange(0, 3).Draw(t, "form") {
	case 0:
		f.Tiers = []channel.Tier{{Rate: percent("first", 200)}, {From: money("second from", 900).Add(amount("0.01")), Rate: percent("second", 300)}}
		f.TierMode = rapid.SampledFrom([]channel.TierMode{channel.Marginal, channel.Whole}).Draw(t, "mode")
		for i := range f.Tiers {
			if tier := &f.Tiers[i]; rapid.Bool().Draw(t, "a fixed tier") {
				tier.Fixed = money("fixed of a tier", 300)
				if rapid.Bool().Draw(t, "without a rate") {
					tier.Rate = quoin.Rate{}
				}
			}
		}
	case 1:
		f.Rate, f.AtLeast, f.AtMost = percent("rate", 200), money("at least", 60), quoin.Some(money("at most", 200))
	default:
		f.Rate = percent("rate", 200)
	}
	if rapid.Bool().Draw(t, "sometimes") {
		f.Share = quoin.Some(percent("share of sales", 999))
	}
	return f
}

func TestCurveHoldsEveryPrice(t *testing.T) { rapid.Check(t, curveHoldsEveryPrice) }
func FuzzCurveHoldsEveryPrice(f *testing.F) { f.Fuzz(rapid.MakeFuzz(curveHoldsEveryPrice)) }

// curveHoldsEveryPrice: the pieces cover the grid without a gap, and what each
// price brings lies on their lines, within the room they claim.
func curveHoldsEveryPrice(t *rapid.T) {
	c, g := terms(t)
	curveHolds(t, c.Terms(eur), g)
}

func on(t rapid.TB, what string, price quoin.Amount, l channel.StraightLine, got quoin.Amount) {
	off := got.Sub(price.Times(l.Slope)).Sub(l.Start)
	if off.Sign() < 0 {
		off = off.Neg()
	}
	if off.Cmp(l.Within) > 0 {
		t.Fatalf("%s at %v is %v, off its line by %v, which claims %v", what, price, got, off, l.Within)
	}
}

func TestTaxInAndOnTop(t *testing.T) { rapid.Check(t, taxInAndOnTop) }
func FuzzTaxInAndOnTop(f *testing.F) { f.Fuzz(rapid.MakeFuzz(taxInAndOnTop)) }

// taxInAndOnTop is law 6: a price with tax in it, and what is left of it with
// the same tax added on top, keep the same revenue to the cent, and the buyer
// pays the same to the cent.
func taxInAndOnTop(t *rapid.T) {
	tax := quoin.AmountOf(rapid.Int64Range(0, 300).Draw(t, "tax"), 3).Share(amount("1"))
	price := quoin.AmountOf(rapid.Int64Range(1, 100_000).Draw(t, "price"), 2)
	in := channel.Channel{Tax: channel.Tax{Rate: tax, InPrice: true}}.Terms(eur).Settle(0, price)
	top := channel.Channel{Tax: channel.Tax{Rate: tax}}.Terms(eur).Settle(0, in.Revenue)
	if !in.Revenue.Equal(top.Revenue) {
		t.Fatalf("%v with %v in it keeps %v, and %v with it on top %v", price, tax, in.Revenue, in.Revenue, top.Revenue)
	}
	off := top.Items.Add(top.Tax).Sub(price)
	if off.Sign() < 0 {
		off = off.Neg()
	}
	if off.Cmp(amount("0.01")) > 0 {
		t.Fatalf("the buyer pays %v in one way and %v in the other", price, top.Items.Add(top.Tax))
	}
}

// The sum of an average order is what its kinds bring, weighed.
func TestTakingsAreTheSettlementsWeighed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, g := terms(t)
		tm := c.Terms(eur)
		price := g.Price(rapid.Int64Range(1, g.Len()).Draw(t, "price"))
		got := tm.Proceeds(price)
		fees := tm.Average(func(kind int) quoin.Amount { return tm.Settle(kind, price).Fees })
		revenue := tm.Average(func(kind int) quoin.Amount { return tm.Settle(kind, price).Revenue })
		if !got.Fees.Equal(fees) || !got.Revenue.Equal(revenue) {
			t.Fatalf("takings %v and %v, settlements %v and %v", got.Revenue, got.Fees, revenue, fees)
		}
	})
}
