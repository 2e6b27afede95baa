package margin_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// What is kept of a print up to 14.00, where 6% are taken up to 12.00 and 14% of
// the whole amount from 12.01 on: 12.00 − 0.72 − 2.00 = 9.28, 12.01 − 1.68 − 2.00 =
// 8.33, and 13.12 − 1.84 − 2.00 = 9.28 again. The fees are invented.
func ExampleSale_Curve() {
	shop := channel.Channel{Fees: []channel.Fee{{
		Tiers: []channel.Tier{{Rate: quoin.MustRate("6%")}, {From: quoin.MustAmount("12.01"), Rate: quoin.MustRate("14%")}}, TierMode: channel.Whole,
	}}}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("2.00")})
	grid, _ := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("14.00"))
	for _, s := range sale.Curve(grid) {
		fmt.Printf("%s to %s: %s of the price, %.2f\n", s.First, s.Last, s.Contribution.Slope, s.Contribution.Start)
	}
	for price, st := range sale.StatementsAt(slices.Values([]quoin.Amount{quoin.MustAmount("12.00"), quoin.MustAmount("12.01"), quoin.MustAmount("13.12")})) {
		fmt.Printf("at %s: %.2f\n", price, st.Contribution)
	}
	// Output:
	// 0.01 to 12.00: 0.94 of the price, -2.00
	// 12.01 to 14.00: 0.86 of the price, -2.00
	// at 12.00: 9.28
	// at 12.01: 8.33
	// at 13.12: 9.28
}

// Every statement lies on the stretch that its price is in, within the room that
// each line claims; stretches cover all prices.
func TestStatementsLieOnStretches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sale, grid := drawnSale(t)
		next := grid.Price(1)
		for _, s := range sale.Curve(grid) {
			if !s.First.Equal(next) || s.Last.Cmp(s.First) < 0 {
				t.Fatalf("a stretch from %s to %s, where one from %s is due", s.First, s.Last, next)
			}
			next = s.Last.Add(grid.Step())
			for p := s.First; p.Cmp(s.Last) <= 0; p = p.Add(grid.Step()) {
				st := sale.At(p)
				for _, line := range []struct {
					what string
					line channel.StraightLine
					got  quoin.Amount
				}{{"revenue", s.Revenue, st.Revenue}, {"gross", s.Gross, st.Gross}, {"contribution", s.Contribution, st.Contribution}, {"operating", s.Operating, st.Operating}} {
					off := line.got.Sub(p.Times(line.line.Slope)).Sub(line.line.Start)
					if off.Cmp(line.line.Within) > 0 || off.Neg().Cmp(line.line.Within) > 0 {
						t.Fatalf("%s at %s is %s, off by %s of %s", line.what, p, line.got, off, line.line.Within)
					}
				}
			}
		}
		if !next.Equal(grid.Price(grid.Len()).Add(grid.Step())) {
			t.Fatalf("the stretches end before %s", next)
		}
	})
}

func drawnSale(t *rapid.T) (margin.Sale, quoin.Grid) {
	cents := func(what string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, what), 2)
	}
	share := func(what string, most int64) quoin.Rate {
		return cents(what, most).Share(quoin.AmountOf(1, 0))
	}
	shop := channel.Channel{
		Tax:    channel.Tax{Rate: share("tax", 25), InPrice: rapid.Bool().Draw(t, "in price")},
		Orders: []channel.Order{{Shipping: cents("shipping", 500), Postage: cents("postage", 600), FreeFrom: quoin.Some(cents("free from", 1500))}},
		Fees:   []channel.Fee{{Rate: share("fee", 20), Fixed: cents("fixed", 50), AtLeast: cents("at least", 80), AtMost: quoin.Some(cents("at most", 300))}},
	}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: cents("goods", 700)})
	sale.FixedCost, sale.Overhead = cents("selling", 200), cents("overhead", 200)
	grid, err := quoin.NewGrid(quoin.MustAmount("0.10"), quoin.MustAmount("20.00"))
	if err != nil {
		t.Fatal(err)
	}
	return sale, grid
}

// BenchmarkCurve is what a curve costs that is drawn while somebody drags: as
// stretches over a million prices, and as two hundred statements.
func BenchmarkCurve(b *testing.B) {
	shop := channel.Channel{
		Tax: channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true}, Orders: []channel.Order{{Shipping: quoin.MustAmount("4.50"), Postage: quoin.MustAmount("6.20")}},
		Fees: []channel.Fee{{Rate: quoin.MustRate("7.4%")}, {Rate: quoin.MustRate("2.3%"), Fixed: quoin.MustAmount("0.27")}},
	}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("2.00")})
	grid, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("10000.00"))
	if err != nil {
		b.Fatal(err)
	}
	prices := make([]quoin.Amount, 200)
	for i := range prices {
		prices[i] = quoin.AmountOf(int64(1000+25*i), 2)
	}
	b.Run("stretches", func(b *testing.B) {
		for b.Loop() {
			sale.Curve(grid)
		}
	})
	b.Run("statements", func(b *testing.B) {
		for b.Loop() {
			for range sale.StatementsAt(slices.Values(prices)) {
			}
		}
	})
}
