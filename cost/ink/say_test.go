package ink_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`use: per m2 12 ml, per m2 range 8 ml to 16 ml, upkeep (share 30%)`: ink.Use{PerM2: quoin.MustQuantity("12 ml"), PerM2Range: quoin.Between(quoin.MustQuantity("8 ml"), quoin.MustQuantity("16 ml")), Upkeep: ink.Upkeep{Share: quoin.MustRate("30%")}},
		`job: area 1 m2, volume 0 ml`:                                       ink.Job{Area: quoin.MustQuantity("1 m2"), Volume: quoin.MustQuantity("0 ml")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
