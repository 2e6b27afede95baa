package market_test

import (
	"fmt"
	"testing"

	"example.com/quoin/margin/market"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`left out: record 0, code asked_only`: market.LeftOut{Code: market.AskedOnly},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
