package refund_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`item: line 0, count 1, worth 9.40`:          refund.Item{Count: 1, Worth: quoin.MustAmount("9.40")},
		`rates: returned 4%, shipping, postage 6.50`: refund.Rates{Returned: quoin.MustRate("4%"), Shipping: true, Postage: quoin.MustAmount("6.50")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
