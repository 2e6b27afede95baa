package comparables_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/comparables"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`record: product "heron", venue "web", price 40.00, framed, frame worth 15.00`: comparables.Record{Product: "heron", Venue: "web", Price: amount("40.00"), Framed: true, FrameWorth: worth("15.00")},
		"prices with 20% tax, without postage and frame":                               comparables.Basis{Tax: quoin.MustRate("20%")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}

func TestZeroValues(t *testing.T) {
	all := []any{
		comparables.Record{},
		comparables.Basis{},
		comparables.Choice{},
		comparables.LeftOut{},
		comparables.QuantileType(""),
		comparables.Counts{},
		comparables.List{},
		comparables.Place{},
		comparables.Ranking{},
		comparables.Weights{},
		comparables.Seen{},
		comparables.NewList, comparables.Quantile, comparables.ValueAt[quoin.Amount],
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
