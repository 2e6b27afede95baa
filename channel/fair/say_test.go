package fair_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`fair "autumn": channel "fairs", stand 180.00, mix (2), prints 30`: fair.Fair{ID: "autumn", Channel: "fairs", Stand: quoin.MustAmount("180.00"), Mix: make([]fair.Share, 2), Prints: quoin.FactorOf(30)},
		`print: product "heron", price 38.00, kept 14.20`:                  fair.Print{Product: "heron", Price: quoin.MustAmount("38.00"), Kept: quoin.MustAmount("14.20")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
