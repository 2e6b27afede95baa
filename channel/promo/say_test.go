package promo_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`offer "spring": rate 10%, products ["heron" "avocet"]`: promo.Offer{ID: "spring", Rate: quoin.MustRate("10%"), Products: []string{"heron", "avocet"}},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
