package ink_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/problemtest"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{
			ink.Use{PerM2: quoin.MustQuantity("12 ml")},
			"",
		},
		{
			ink.Use{PerM2: quoin.MustQuantity("10 ml").Times(quoin.FactorOf(1).Over(quoin.FactorOf(3)))},
			"",
		},
		{
			ink.Use{},
			"missing_field per_m2",
		},
		{
			ink.Use{PerM2: quoin.MustQuantity("12 ml"), Log: []ink.Job{{Area: quoin.MustQuantity("1 m2"), Volume: quoin.MustQuantity("9 ml")}}},
			"rival_fields log",
		},
		{
			ink.Use{RatedPages: 4500, Upkeep: ink.Upkeep{PerMonth: quoin.MustQuantity("30 ml"), Share: quoin.MustRate("100%")}},
			"out_of_range upkeep.share, rated_page_yield rated_pages, missing_prints upkeep.prints_per_month",
		},
		{
			ink.Use{PerM2: quoin.MustQuantity("12 ml"), PerM2Range: quoin.Between(quoin.MustQuantity("13 ml"), quoin.MustQuantity("14 ml"))},
			"range_order per_m2_range",
		},
	} {
		if got := problemtest.Listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}
