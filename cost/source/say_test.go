package source_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/source"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`case: prints 0, share 25%`:                                 source.Case{Prints: quoin.Some(int64(0)), Share: quoin.MustRate("25%")},
		`stretch: from 1, to 56, source "home", first 15, last 180`: source.Stretch{From: 1, To: 56, Source: source.AtHome, First: quoin.MustAmount("15"), Last: quoin.MustAmount("180")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
