//go:build !race

package pricelist_test

import (
	"testing"

	"example.com/quoin/margin/pricelist"
)

// What deciding one product of the scenario may allocate: four channels, all rules but the ladder, a
// bill that is cut and inked, and today's price to be near. What is here now is a ceiling; raise it only knowing why: where
// reasons are computed later, nine are for a copy of the lot, six for units that are read again,
// twenty-two for what its comparables say, and a hundred and fourteen for what
// buyers pay, for where prices may lie, and for the places of warnings in words.
func TestDecidingStaysWithinBudget(t *testing.T) {
	shop, lot := scenarioShop(t)
	for _, c := range []struct {
		detail pricelist.Detail
		most   float64
	}{{pricelist.Figures, 380}, {pricelist.Full, 610}} {
		got := testing.AllocsPerRun(50, func() {
			if _, err := shop.Decide(lot, c.detail); err != nil {
				t.Fatal(err)
			}
		})
		if got > c.most {
			t.Errorf("detail %d: %v allocations, at most %v", c.detail, got, c.most)
		}
	}
}
