package history_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`price: product "heron", price 12.00, from 2026-03-01`:   history.Price{Product: "heron", Price: quoin.MustAmount("12.00"), From: quoin.MustDate("2026-03-01")},
		`trial "spring": product "heron", channel "web", sold 0`: history.Trial{ID: "spring", Product: "heron", Channel: "web", Sold: quoin.Some(int64(0))},
		`history of 0 products and 0 editions`:                   history.History{},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
