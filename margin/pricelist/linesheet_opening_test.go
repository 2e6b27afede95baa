package pricelist_test

import (
	"fmt"
	"testing"
)

// A first order has to come to 150.00, and a print costs a shop 12.00. Thirteen come to
// 156.00; with a promotion of 20% off they come to 124.80, and sixteen to 153.60. What
// an order comes to is rounded to money: at 0.50 less 33.335% thirty are 9.99975, which
// is 10.00.
func TestOpeningOrderSeesThePromotion(t *testing.T) {
	for _, c := range []struct {
		price, promotion, opening string
		inCase                    int
		want                      int64
	}{
		{"24.00", "0%", "150.00", 1, 13},
		{"24.00", "20%", "150.00", 1, 16},
		{"24.00", "20%", "150.00", 6, 18},
		{"24.00", "20%", "144.00", 1, 15},
		{"24.00", "20%", "144.004", 1, 16}, // no order comes to 144.00 and a half cent
		{"24.00", "100%", "150.00", 1, 0},
		{"1.00", "33.335%", "10.00", 1, 30},
		{"1.00", "33.4%", "10.00", 1, 31}, // thirty are 9.99
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shops", "trade_discount": ["50%%"], "promotion": %q, "orders": [{"items": 40}], "trade": {"opening": %q, "case": %d}}],
			"rules": [{"id": "at", "rule": "price", "at_least": %q}]}`, c.promotion, c.opening, c.inCase, c.price))
		if got := a.LineSheets[0].Lines[0].Opening.Or(0); got != c.want {
			t.Errorf("%s less %s, %s in cases of %d: %d, want %d", c.price, c.promotion, c.opening, c.inCase, got, c.want)
		}
	}
}
