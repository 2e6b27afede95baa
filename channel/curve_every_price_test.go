package channel_test

import (
	"testing"

	"example.com/quoin/channel"
)

// At every cent of a stretch what a price brings lies on the pieces' lines within their room. A set of
// parts of 99% and 1% has the most of it: half a cent of each tax is rounded, and half a cent that
// falls to the other part moves the tax by 0.98 of that.
func TestCurveOfASetAtEveryCent(t *testing.T) {
	set := channel.Channel{
		Tax:  channel.Tax{Rate: rate("99%"), Classes: []channel.TaxClass{{Class: "print", Rate: rate("1%")}}},
		Fees: []channel.Fee{{Rate: rate("100%"), Of: []channel.Part{channel.SalesTax}, Expected: true}},
	}.OfParts(channel.TaxedPart{Name: "rail", Class: "print", Price: amount("30")}, channel.TaxedPart{Name: "frame", Price: amount("17")})
	curveHolds(t, set.Terms(eur), grid(t, "0.01", "9.00"))
}
