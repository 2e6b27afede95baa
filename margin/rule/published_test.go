package rule_test

import (
	"strconv"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// Every wanted value in this file was published by the source beside it.

const (
	rTests     = "R, tests/reg-tests-2.Rout.save (PR#1852), type 5"
	statistics = "OpenStax Introductory Business Statistics 2e, 2.2"
	hazen      = "Hazen, Trans. ASCE 77 (1914): the i-th of n stands at (i − ½)/n (from memory)"
)

// oneVenue returns comparables at prices, all offered in the same place.
// "6×3" is a price of 6 three times.
func oneVenue(t *testing.T, prices string) []comparables.Record {
	t.Helper()
	var out []comparables.Record
	for entry := range strings.FieldsSeq(prices) {
		price, times, repeated := strings.Cut(entry, "×")
		n := 1
		if repeated {
			var err error
			if n, err = strconv.Atoi(times); err != nil {
				t.Fatal(err)
			}
		}
		for range n {
			out = append(out, comparables.Record{Venue: "fair", Price: quoin.MustAmount(price), Sold: 1})
		}
	}
	return out
}

// R's cases pad a short row with infinities at both ends. None of these
// quantiles rests on one, so any number outside the row stands for them.
func TestPublishedQuantilesOfType5(t *testing.T) {
	for _, c := range []struct {
		below int // how many stand below the row
		row   string
		above int
		q     string
		want  string
	}{
		{2, "0 1", 1, "0.6", "0.5"},
		{3, "0 1 2", 2, "0.5", "0.5"},
		{3, "0 1 2", 2, "0.6", "1.3"},
		{4, "0 1 2 3", 3, "0.5", "1"},
		{4, "0 1 2 3", 3, "0.6", "2.1"},
		{5, "0 1 2 3 4", 4, "0.4", "0.1"},
		{5, "0 1 2 3 4", 4, "0.5", "1.5"},
		{5, "0 1 2 3 4", 4, "0.6", "2.9"},
		{6, "0 1 2 3 4 5", 5, "0.4", "0.3"},
		{6, "0 1 2 3 4 5", 5, "0.5", "2"},
		{6, "0 1 2 3 4 5", 5, "0.6", "3.7"},
	} {
		for _, far := range []string{"7", "900000000000"} {
			prices := strings.Repeat("-"+far+" ", c.below) + c.row + strings.Repeat(" "+far, c.above)
			got, ok := comparables.Quantile(oneVenue(t, prices), quoin.MustRate(c.q))
			if !ok || !got.Equal(quoin.MustAmount(c.want)) {
				t.Errorf("%s: quantile %s of %s: %s, want %s", rTests, c.q, prices, got, c.want)
			}
		}
	}
}

// The textbook averages two neighbours or takes one, as type 2 does; for these
// lists and shares type 5 comes to the same.
func TestPublishedQuartiles(t *testing.T) {
	const (
		fourteen = "1 1 2 2 4 6 6.8 7.2 8 8.3 9 10 10 11.5"
		marks    = "99 56 78 55.5 32 90 80 81 56 59 45 77 84.5 84 70 72 68 32 79 90"
		hours    = "4×2 5×5 6×7 7×12 8×14 9×7 10×3"
	)
	for _, c := range []struct{ prices, q, want string }{
		{fourteen, "25%", "2"},
		{fourteen, "50%", "7"},
		{fourteen, "75%", "9"},
		{marks, "0%", "32"},
		{marks, "25%", "56"},
		{marks, "50%", "74.5"},
		{marks, "75%", "82.5"},
		{marks, "100%", "99"},
		{hours, "25%", "6"},
		{hours, "28%", "6.5"},
		{hours, "50%", "7"},
		{hours, "75%", "8"},
		{hours, "80%", "8.5"},
		{hours, "90%", "9"},
	} {
		got, ok := comparables.Quantile(oneVenue(t, c.prices), quoin.MustRate(c.q))
		if !ok || !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %s of %s: %s, want %s", statistics, c.q, c.prices, got, c.want)
		}
	}
}

func TestPublishedPlottingPositions(t *testing.T) {
	for _, prices := range []string{"5", "2 3", "1 4 9", "1 2 4 8", "3 5 7 11 13 17 19"} {
		sorted := oneVenue(t, prices)
		n := int64(len(sorted))
		for i, c := range sorted {
			position := quoin.AmountOf(2*int64(i)+1, 0).Share(quoin.AmountOf(2*n, 0))
			got, ok := comparables.Quantile(sorted, position)
			if !ok || !got.Equal(c.Price) {
				t.Errorf("%s: number %d of %s: %s, want %s", hazen, i+1, prices, got, c.Price)
			}
		}
	}
}

// A market rule asks for both ends at once. What never sold does not count.
func TestPublishedMarketRange(t *testing.T) {
	of := oneVenue(t, "99 56 78 55.5 32 90 80 81 56 59 45 77 84.5 84 70 72 68 32 79 90")
	of = append(of, comparables.Record{Venue: "elsewhere", Price: quoin.MustAmount("1")})
	market := rule.Market{MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1), FromQuantile: quoin.MustRate("25%"), ToQuantile: quoin.MustRate("75%")}
	from, to, ok := market.RangeOf(rule.Item{Comparables: of})
	if !ok || !from.Equal(quoin.MustAmount("56")) || !to.Equal(quoin.MustAmount("82.5")) {
		t.Errorf("%s: quartiles %s to %s, want 56 to 82.5", statistics, from, to)
	}
}

// The quartiles by type 6 of thirteen house prices, as an open textbook gives them: OpenStax,
// Introductory Statistics, 2.3 (from memory): 308,750 and 649,000. They stand at (13 + 1) ÷ 4 = 3.5 and
// at 10.5, half way between two prices. By type 5 the lower one stands at 13 ÷ 4 + ½ = 3.75, and is
// 230,500 + ¾ × 156,500.
func TestPublishedQuartilesOfType6(t *testing.T) {
	of := oneVenue(t, "389950 230500 158000 479000 639000 114950 5500000 387000 659000 529000 575000 488800 1095000")
	for _, c := range []struct {
		by      comparables.QuantileType
		q, want string
	}{
		{comparables.Type6, "25%", "308750"},
		{comparables.Type6, "50%", "488800"},
		{comparables.Type6, "75%", "649000"},
		{comparables.Type6, "0%", "114950"},
		{comparables.Type6, "100%", "5500000"},
		{comparables.Type5, "25%", "347875"},
		{"", "25%", "347875"},
	} {
		got, ok := c.by.Of(of, quoin.MustRate(c.q))
		if !ok || !got.Round(8, quoin.HalfUp).Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s at %s: %v, want %s", c.by, c.q, got, c.want)
		}
	}
}

// Two venues weigh a half each, at one 10 and 20, at the other 40: weights of 1/4, 1/4 and 1/2, of which
// the mean is 1/3. By type 6 they stand at (1/8 + 1/6) ÷ 4/3 = 7/32, (3/8 + 1/6) ÷ 4/3 = 13/32 and
// (3/4 + 1/6) ÷ 4/3 = 11/16. Half way from 10 to 20 lies 5/16 = 31.25%.
func TestQuantilesOfType6OverVenues(t *testing.T) {
	of := []comparables.Record{sold("harbour", "", "10"), sold("harbour", "", "20"), sold("reed shelf", "", "40")}
	for q, want := range map[string]string{"21.875%": "10", "31.25%": "15", "40.625%": "20", "68.75%": "40", "99%": "40"} {
		got, ok := comparables.Type6.Of(of, quoin.MustRate(q))
		if !ok || !got.Round(8, quoin.HalfUp).Equal(quoin.MustAmount(want)) {
			t.Errorf("%s: %v, want %s", q, got, want)
		}
	}
}
