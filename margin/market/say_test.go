package market_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/market"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`record: product "heron", venue "web", price 40.00, framed, frame worth 15.00`: market.Record{Product: "heron", Venue: "web", Price: quoin.MustAmount("40.00"), Framed: true, FrameWorth: quoin.Some(quoin.MustAmount("15.00"))},
		`left out: record 0, code asked_only`:                                          market.LeftOut{Code: market.AskedOnly},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
