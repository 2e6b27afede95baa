package pricelist_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// A shop buys ten at half of 20.00, which come to 100.00, and to 80.00 after a promotion
// of 20%. A minimum bounds no price: the price stays 20.00, and the answer warns where an
// order falls short, a reorder of what reorders have to come to.
func TestMinimumsWarnAndBoundNoPrice(t *testing.T) {
	for _, c := range []struct {
		what, channel, order, trade string
		worth, minimum              string // none where no warning is wanted
	}{
		{"just enough", "", "", `"opening": "100.00"`, "", ""},
		{"a cent more is asked", "", "", `"opening": "100.01"`, "100.00", "100.01"},
		{"a promotion comes off first", `"promotion": "20%",`, "", `"opening": "100.00"`, "80.00", "100.00"},
		{"a first order is no reorder", "", "", `"reorder": "500.00"`, "", ""},
		{"a reorder", "", `, "reorder": true`, `"opening": "500.00", "reorder": "120.00"`, "100.00", "120.00"},
		{"a code comes off too", `"promotions": [{"id": "spring", "amount": "5.00"}],`, `, "codes": ["spring"]`, `"opening": "100.00"`, "95.00", "100.00"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shops", "trade_discount": ["50%%"], %s "orders": [{"items": 10%s}], "trade": {%s}}],
			"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`, c.channel, c.order, c.trade))
		var worth, minimum string
		for _, w := range a.Warnings {
			if w.Code != pricelist.BelowMinimum {
				continue
			}
			for _, arg := range w.Args {
				switch arg.Name {
				case "worth":
					worth = arg.Value
				case "minimum":
					minimum = arg.Value
				}
			}
		}
		if worth != c.worth || minimum != c.minimum || !a.Products[0].Price.Equal(quoin.MustAmount("20.00")) {
			t.Errorf("%s: warned of %q below %q at a price of %s, want %q below %q at 20.00", c.what, worth, minimum, a.Products[0].Price, c.worth, c.minimum)
		}
	}
}
