package promo_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// A free item is worth its part of what all items still come to. Three at 10.00 are
// 27.00 after a promotion of 10%, and 24.00 after a code of 3.00: one of three free
// takes off 8.00, not 10.00. Of four only one is free, worth 6.00 of 24.00; of seven
// two.
func TestWorthOfAFreeItem(t *testing.T) {
	three := promo.Offer{ID: "three for two", Buy: 3, Free: 1}
	for _, c := range []struct {
		count int64
		left  string
		off   string
	}{{3, "24.00", "8.00"}, {4, "24.00", "6.00"}, {7, "70.00", "20.00"}, {2, "18.00", "0"}} {
		got := three.OnOne(quoin.MustAmount(c.left), quoin.MustAmount("99.00"), quoin.MustAmount("10.00"), c.count, 2)
		if !got.Equal(quoin.MustAmount(c.off)) {
			t.Errorf("%d items that still come to %s: %s off, want %s", c.count, c.left, got, c.off)
		}
	}
}
