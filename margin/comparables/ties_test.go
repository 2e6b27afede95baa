package comparables_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Prices that are the same on a basis, by many ways of tax and size, have logarithms that differ in
// their last places: the order of the records and their weights are still those of the prices.
func TestTiesByDefinition(t *testing.T) {
	apart := 0
	rapid.Check(t, func(t *rapid.T) {
		size := quoin.MustSize("20 x 20 cm")
		exponent := rapid.SampledFrom([]string{"0.5", "1", "-0.5"}).Draw(t, "exponent")
		twice, _ := quoin.MustFactor(exponent).Times(quoin.FactorOf(2)).Units(0)
		records := make([]comparables.Record, rapid.IntRange(6, 80).Draw(t, "records"))
		for i := range records {
			tax := rapid.SampledFrom([]int64{0, 7, 19, 20, 25}).Draw(t, "tax")
			cm := rapid.SampledFrom([]int64{5, 10, 20, 40}).Draw(t, "side")
			worth := quoin.AmountOf(rapid.SampledFrom([]int64{1000, 1200, 1700}).Draw(t, "worth"), 2)
			r := comparables.Record{
				Venue: rapid.SampledFrom([]string{"web", "web", "web", "stall"}).Draw(t, "venue"), Seller: rapid.SampledFrom([]string{"ann", "ann", "ann", "bo", "cy"}).Draw(t, "seller"),
				Tax: quoin.FactorOf(tax).Over(quoin.FactorOf(100)).Rate(), Size: quoin.MustSize(fmt.Sprintf("%d x %d cm", cm, cm)),
			}
			// The price that comes to the worth on the basis: × (1 + tax) ÷ (20 ÷ side)^twice.
			r.Price = worth.Times(r.Tax.OnePlus())
			for range max(twice, -twice) {
				if twice > 0 {
					r.Price = r.Price.Times(quoin.FactorOf(cm)).Over(quoin.FactorOf(20))
				} else {
					r.Price = r.Price.Times(quoin.FactorOf(20)).Over(quoin.FactorOf(cm))
				}
			}
			records[i] = r
		}
		c := comparables.Choice{
			BySeller: rapid.Bool().Draw(t, "by seller"), Basis: &comparables.Basis{Exponent: quoin.Some(quoin.MustFactor(exponent))},
			Quantiles: rapid.SampledFrom([]comparables.QuantileType{comparables.Type5, comparables.Type6}).Draw(t, "type"),
		}
		want, _ := counting(records, size, c)
		list, venues := comparables.NewList(records, size), map[string]bool{}
		for _, r := range records {
			venues[r.Venue] = true
		}
		for range 6 {
			r := list.Rank(c)
			q := quoin.AmountOf(rapid.Int64Range(0, 200).Draw(t, "share"), 0).Share(quoin.AmountOf(200, 0))
			got, ok := r.PriceAt(q)
			if p := quantile(want, q.Factor().Rat(), c.Quantiles); !ok || !equal(got, p) {
				t.Fatalf("%s of %d is %s, want %s", q, len(want), got, places(p))
			}
			if r.ByLogarithms() && got.Cmp(quoin.MustAmount("10.00")) > 0 && got.Cmp(quoin.MustAmount("17.00")) < 0 {
				apart++
			}
			price := quoin.AmountOf(rapid.SampledFrom([]int64{999, 1000, 1200, 1500, 1700, 1701}).Draw(t, "price"), 2)
			below := new(big.Rat)
			for _, s := range want {
				switch {
				case places(s.price) == places(price.Rat()):
					below.Add(below, new(big.Rat).Quo(s.weight, big.NewRat(2, 1)))
				case s.price.Cmp(price.Rat()) < 0:
					below.Add(below, s.weight)
				}
			}
			below.Quo(below, big.NewRat(int64(len(venues)), 1))
			if rapid.Bool().Draw(t, "anew") {
				r = list.Rank(c)
			}
			if got := r.Below(price); !equal(quoin.AmountOf(1, 0).Times(got.Factor()), below) {
				t.Fatalf("%s lies below %s, want %s", got, price, places(below))
			}
		}
	})
	if apart < 50 {
		t.Errorf("only %d quantiles lay between the ends", apart)
	}
}

// Sorting by logarithms is for many records, and for powers that are no whole numbers; it computes
// the price of no more records than lie near a quantile.
func TestRankingsByLogarithms(t *testing.T) {
	third := quoin.FactorOf(1).Over(quoin.FactorOf(3))
	on := func(exponent string) *comparables.Basis {
		b := comparables.Basis{}
		if exponent != "" {
			b.Exponent = quoin.Some(quoin.MustFactor(exponent))
		}
		return &b
	}
	for _, c := range []struct {
		what  string
		n     int
		basis *comparables.Basis
		first string // price
		want  bool
	}{
		{"few as they are", 64, nil, "1.00", false},
		{"many as they are", 65, nil, "1.00", true},
		{"few on a basis", 64, on(""), "1.00", false},
		{"many on a basis", 65, on(""), "1.00", true},
		{"few in proportion to areas", 64, on("1"), "1.00", false},
		{"many in proportion", 65, on("1"), "1.00", true},
		{"few by sides", 5, on("0.5"), "1.00", true},
		{"many, one of nothing", 65, on(""), "0.00", false},
		{"few by sides, one of less than nothing", 5, on("0.5"), "-1.00", false},
		{"a power of 34 digits", 65, &comparables.Basis{Exponent: quoin.Some(third)}, "1.00", false},
	} {
		var records []comparables.Record
		for i := range c.n {
			records = append(records, comparables.Record{Venue: "web", Price: quoin.AmountOf(int64(c.n-i+1), 0), Size: quoin.MustSize("10 x 10 cm")})
		}
		records[0].Price = quoin.MustAmount(c.first)
		r := comparables.NewList(records, quoin.MustSize("20 x 20 cm")).Rank(comparables.Choice{Basis: c.basis})
		if got := r.ByLogarithms(); got != c.want {
			t.Errorf("%s: by logarithms %t, want %t", c.what, got, c.want)
		}
		if _, ok := r.PriceAt(quoin.MustRate("50%")); !ok || c.want && r.Settled() > 3 || !c.want && r.Settled() != r.Counting {
			t.Errorf("%s: %d of %d sorted by price", c.what, r.Settled(), r.Counting)
		}
	}
}
