package rule_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// The quantiles of a market rule are those of all its comparables brought to the basis one
// by one and sorted, however near their prices are to each other, and whichever of them
// count.
func TestMarketRanksAsPricesDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rule.Market{
			MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1),
			FromQuantile: quoin.AmountOf(rapid.Int64Range(0, 60).Draw(t, "from"), 2).Share(quoin.AmountOf(1, 0)),
			ToQuantile:   quoin.AmountOf(rapid.Int64Range(60, 100).Draw(t, "to"), 2).Share(quoin.AmountOf(1, 0)),
		}
		if rapid.IntRange(0, 3).Draw(t, "basis") > 0 {
			k.Basis = &comparables.Basis{Tax: quoin.MustRate(rapid.SampledFrom([]string{"0", "20%"}).Draw(t, "tax"))}
			if e := rapid.SampledFrom([]string{"", "0", "0.5", "1", "2", "0.731", "-1.25", "-10", "10"}).Draw(t, "exponent"); e != "" {
				k.Basis.Exponent = quoin.Some(quoin.MustFactor(e))
			}
		}
		it := rule.NewItem("bittern", exampleGrid())
		it.Size = quoin.MustSize("20 x 30 cm")
		places := rapid.SampledFrom([]int{2, 2, 8}).Draw(t, "places")
		for range rapid.IntRange(1, 90).Draw(t, "comparables") {
			it.Comparables = append(it.Comparables, drawnComparable(t, places))
		}
		var counting []comparables.Record
		for _, c := range it.Comparables {
			price, ok := c.Price, true
			if k.Basis != nil {
				price, ok = k.Basis.Bring(c, it.Size)
			}
			if c.Price = price; ok && c.Sold > 0 {
				counting = append(counting, c)
			}
		}
		from, to, ok := k.RangeOf(it)
		if ok != (len(counting) > 0) {
			t.Fatalf("of %d that count: %t", len(counting), ok)
		}
		if !ok {
			return
		}
		low, _ := comparables.Quantile(counting, k.FromQuantile)
		high, _ := comparables.Quantile(counting, k.ToQuantile)
		if from.String() != low.String() || to.String() != high.String() {
			t.Fatalf("from %v to %v, want %v to %v", from, to, low, high)
		}
	})
}

// drawnComparable has one of few prices that lie near to each other.
func drawnComparable(t *rapid.T, places int) comparables.Record {
	c := comparables.Record{
		Venue: rapid.SampledFrom([]string{"harbour", "reed shelf", "mill"}).Draw(t, "venue"),
		Price: quoin.AmountOf(100+rapid.Int64Range(0, 6).Draw(t, "price"), places),
		Sold:  rapid.Int64Range(0, 3).Draw(t, "sold"),
		Tax:   quoin.MustRate(rapid.SampledFrom([]string{"0", "20%", "5.5%"}).Draw(t, "tax held")),
	}
	if rapid.Bool().Draw(t, "the same without tax") {
		c.Price = quoin.AmountOf(rapid.Int64Range(2, 4).Draw(t, "bare"), places-2).Times(c.Tax.OnePlus())
	}
	if side := rapid.IntRange(0, 5).Draw(t, "size"); side > 0 {
		c.Size = quoin.MustSize(fmt.Sprintf("%d x %d mm", 200*(1+side/5)+side%3, 300+side))
	}
	if rapid.IntRange(0, 5).Draw(t, "postage") == 0 {
		c.Postage = quoin.AmountOf(rapid.Int64Range(0, 120).Draw(t, "of it"), places)
	}
	c.Framed = rapid.IntRange(0, 9).Draw(t, "framed") == 0
	return c
}
