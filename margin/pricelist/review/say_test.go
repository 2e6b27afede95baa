package review_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`no proposal`: review.Proposal{},
		`proposal: product "heron", advice raise, last 12.00, now 13.50, decided 13.50, by 12.5%`: review.Proposal{Product: "heron", Advice: "raise", Last: quoin.Some(quoin.MustAmount("12.00")), Now: quoin.MustAmount("13.50"), Decided: quoin.MustAmount("13.50"), By: quoin.Some(quoin.MustRate("12.5%"))},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
