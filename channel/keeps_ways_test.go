package channel_test

import (
	"testing"

	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
)

// A fee that speaks of some kinds of order takes nothing of the others, and one
// of net prices nothing of the tax.
func TestTakesEverythingByKind(t *testing.T) {
	for what, c := range map[string]struct {
		c    channel.Channel
		want bool
	}{
		"each kind has its own": {channel.Channel{
			Orders: []channel.Order{{ID: "a", Share: someRate("50%")}, {ID: "b", Share: someRate("50%")}},
			Fees:   []channel.Fee{{Rate: rate("60%"), Orders: []string{"a"}}, {Rate: rate("50%"), Orders: []string{"b"}}},
		}, false},
		"a tenth of net is left":  {channel.Channel{Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Fees: []channel.Fee{{Rate: rate("90%"), WithoutTax: true}}}, false},
		"nothing of net is left":  {channel.Channel{Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Fees: []channel.Fee{{Rate: rate("100%"), WithoutTax: true}}}, true},
		"a commission of it all":  {channel.Channel{Consignment: &channel.Consignment{Commission: someRate("100%")}}, true},
		"a house keeps the price": {channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.Royalty}}, true},
		"a house pays flat":       {channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.FlatFee}}, false},
		"a house pays a royalty":  {channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.Royalty, Rate: rate("5%")}}, false},
		// 0.8333 − 0.85 < 0, but the maker is not registered for the tax.
		"no tax on consignment": {channel.Channel{Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Consignment: &channel.Consignment{Commission: someRate("85%")}}, false},
		"tax on consignment":    {channel.Channel{Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Consignment: &channel.Consignment{Commission: someRate("85%"), Registered: []channel.Party{channel.Maker}}}, true},
		// Whatever stays of the goods, nothing of the money does.
		"all is given back": {channel.Channel{Returns: &refund.Rates{Returned: rate("100%")}}, true},
		// 100% × (1 − 0.20) of the fee, and 20% of refunds; then a tenth less.
		"a fifth is given back, and of the fee": {channel.Channel{Returns: &refund.Rates{Returned: rate("20%"), Fees: rate("100%")}, Fees: []channel.Fee{{Rate: rate("100%")}}}, true},
		"a tenth less":                          {channel.Channel{Returns: &refund.Rates{Returned: rate("20%"), Fees: rate("100%")}, Fees: []channel.Fee{{Rate: rate("90%")}}}, false},
	} {
		if got := c.c.TakesEverything(); got != c.want {
			t.Errorf("%s: %t", what, got)
		}
	}
}
