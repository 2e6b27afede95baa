package buy_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`scale: steps (2), mode incremental, freight 4.50`:       buy.Scale{Steps: make([]buy.PriceBreak, 2), Mode: buy.Incremental, Freight: quoin.MustAmount("4.50")},
		`receipt: date 2026-03-01, quantity 50 sheet, cost 0.00`: buy.Receipt{Date: quoin.MustDate("2026-03-01"), Quantity: quoin.MustQuantity("50 sheet"), Cost: quoin.MustAmount("0.00")},
		`order: quantity 15, cost 36.60, left 1, bound 2.44`:     buy.Order{Quantity: 15, Cost: quoin.MustAmount("36.60"), Left: 1, Bound: quoin.MustAmount("2.44")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
