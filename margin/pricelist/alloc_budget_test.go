//go:build !race

package pricelist_test

import (
	"bytes"
	"io"
	"runtime"
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
	}{{pricelist.Figures, 150}, {pricelist.Full, 560}} {
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

// What a product of a stream may allocate, of which only figures are asked: its id and its name, the answer's list of
// products and that of its channels, a line break that is remembered, and its part of what blocks of lots take.
func TestStreamingStaysWithinBudget(t *testing.T) {
	const products = 500
	text, err := io.ReadAll(newEndless(products))
	if err != nil {
		t.Fatal(err)
	}
	stream := func() { decideAll(t, bytes.NewReader(text), pricelist.Batch{Detail: pricelist.Figures}, products) }
	stream() // what is made once for all streams
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	stream()
	runtime.ReadMemStats(&after)
	if n := (after.Mallocs - before.Mallocs) / products; n > 12 {
		t.Errorf("%d allocations a product, at most 12, with those of the shop", n)
	}
	if n := (after.TotalAlloc - before.TotalAlloc) / products; n > 6000 {
		t.Errorf("%d bytes a product, at most 6000, with those of the shop", n)
	}
}

// What writing an answer may allocate, with all reasons and without: 155 are for explaining it, the rest is for how
// its price does in each channel, which is worked out when it is written. Of an answer that was just decided it is no more:
// the shop knows its discounts.
func TestWritingStaysWithinBudget(t *testing.T) {
	shop, lot := scenarioShop(t)
	decided := func() pricelist.Answer {
		a, err := shop.Decide(lot, pricelist.Full)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	room, a := make([]byte, 0, 1<<17), decided()
	for name, c := range map[string]struct {
		answer func() pricelist.Answer
		most   float64
	}{
		"whole": {func() pricelist.Answer { return a }, 460}, "without steps": {a.WithoutSteps, 260},
		"just decided": {decided, 1070},
	} {
		got := testing.AllocsPerRun(50, func() {
			if _, err := c.answer().AppendJSON(room); err != nil {
				t.Fatal(err)
			}
		})
		if got > c.most {
			t.Errorf("%s: %v allocations, at most %v", name, got, c.most)
		}
	}
}
