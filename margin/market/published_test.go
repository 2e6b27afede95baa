package market_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// alike is a summary of prices, each of a seller of its own at one venue, so
// that all weigh the same.
func alike(t *testing.T, prices []string, o market.Options) market.Summary {
	var records []comparables.Record
	for i, p := range prices {
		records = append(records, sold("web", fmt.Sprint("seller ", i), p))
	}
	o.MinVenues, o.MinSales = quoin.Some[int64](1), quoin.Some[int64](1)
	return summarize(t, records, market.Basis{}, o)
}

// R, tests/reg-tests-2.Rout.save (PR#1852), type 5 of nine: 0 to so many
// between infinities. Here 10 is added, and 1 and 1000 stand for the infinities,
// which type 5 never reaches into in these rows.
func TestPublishedType5(t *testing.T) {
	for _, c := range []struct {
		id                 string
		below, last, above int
		share, want        string
	}{
		{"11.02", 2, 1, 1, "60%", "0.5"},
		{"11.03", 3, 2, 2, "50%", "0.5"},
		{"11.04", 3, 2, 2, "60%", "1.3"},
		{"11.05", 4, 3, 3, "50%", "1.0"},
		{"11.06", 4, 3, 3, "60%", "2.1"},
		{"11.07", 5, 4, 4, "40%", "0.1"},
		{"11.08", 5, 4, 4, "50%", "1.5"},
		{"11.09", 5, 4, 4, "60%", "2.9"},
		{"11.10", 6, 5, 5, "40%", "0.3"},
		{"11.11", 6, 5, 5, "50%", "2.0"},
		{"11.12", 6, 5, 5, "60%", "3.7"},
	} {
		var prices []string
		for range c.below {
			prices = append(prices, "1")
		}
		for i := range c.last + 1 {
			prices = append(prices, fmt.Sprint(10+i))
		}
		for range c.above {
			prices = append(prices, "1000")
		}
		q, _ := alike(t, prices, market.Options{}).PriceAt(rate(c.share)).Get()
		if want := amount(c.want).Add(amount("10")); !q.Price.Equal(want) {
			t.Errorf("%s: %s, wanted %s", c.id, q.Price, want)
		}
	}
}

// OpenStax, Introductory Business Statistics, 2.2 and 2.3: halves and averages
// (type 2), where a position np + ½ comes to the same. 11.18 is a table of
// frequencies, each a seller of its own.
func TestPublishedQuantiles(t *testing.T) {
	var hours []string
	for i, n := range []int{2, 5, 7, 12, 14, 7, 3} {
		for range n {
			hours = append(hours, fmt.Sprint(4+i))
		}
	}
	fourteen := []string{"1", "1", "2", "2", "4", "6", "6.8", "7.2", "8", "8.3", "9", "10", "10", "11.5"}
	marks := []string{"99", "56", "78", "55.5", "32", "90", "80", "81", "56", "59", "45", "77", "84.5", "84", "70", "72", "68", "32", "79", "90"}
	for _, c := range []struct {
		id          string
		prices      []string
		share, want string
	}{
		{"11.14", fourteen, "25%", "2"},
		{"11.14", fourteen, "50%", "7"},
		{"11.14", fourteen, "75%", "9"},
		{"11.17", marks, "0%", "32"},
		{"11.17", marks, "25%", "56"},
		{"11.17", marks, "50%", "74.5"},
		{"11.17", marks, "75%", "82.5"},
		{"11.17", marks, "100%", "99"},
		{"11.18", hours, "28%", "6.5"},
		{"11.18", hours, "50%", "7"},
		{"11.18", hours, "25%", "6"},
		{"11.18", hours, "75%", "8"},
		{"11.18", hours, "80%", "8.5"},
		{"11.18", hours, "90%", "9"},
	} {
		if q, _ := alike(t, c.prices, market.Options{}).PriceAt(rate(c.share)).Get(); !q.Price.Equal(amount(c.want)) {
			t.Errorf("%s at %s: %s, wanted %s", c.id, c.share, q.Price, c.want)
		}
	}
}

// 11.16: the same, 2.2: percentile (x + ½y) ÷ n of 29 ages, which are from
// memory.
func TestPublishedPercentile(t *testing.T) {
	ages := []string{
		"18", "21", "22", "25", "26", "27", "29", "30", "31", "33", "36", "37", "41", "42", "47",
		"52", "55", "57", "58", "62", "64", "67", "69", "71", "72", "73", "74", "76", "77",
	}
	for price, want := range map[string]string{"58": "63.8", "25": "12.07"} {
		p, _ := alike(t, ages, market.Options{}).Position(amount(price)).Get()
		if got := fmt.Sprintf("%.*f", len(want)-3, p.Percentile); got != want {
			t.Errorf("%s: %s, wanted %s", price, got, want)
		}
	}
}

// 11.22, 11.25 and 11.26 through a position: Wilson of 3, 0 and 10 of 10, to six
// digits.
func TestPublishedPosition(t *testing.T) {
	ten := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10"}
	for price, want := range map[string]string{"3.5": "10.7791% to 60.3222%", "0.5": "0% to 27.7533%", "11": "72.2467% to 100%"} {
		p, _ := alike(t, ten, market.Options{}).Position(amount(price)).Get()
		if got := fmt.Sprint(p.Interval.Low, " to ", p.Interval.High); got != want {
			t.Errorf("%s: %s, wanted %s", price, got, want)
		}
	}
}
