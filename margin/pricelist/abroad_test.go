package pricelist_test

import (
	"testing"

	"example.com/quoin"
)

// A print sold for 40.00 of another currency, of which one unit costs 0.50 here: of
// 20.00 at home. A return costs 4.00 of postage at home, which is 8.00 there, beside
// the 40.00 that go back. An order bears a tenth of the 4.00.
func TestPostageOfAReturnIsTheShops(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00", "products": [{"id": "card"}],
		"channels": [{"id": "abroad", "foreign_currency": {"currency": "USD", "rate": "0.50"}, "returns": {"returned": "10%", "part": "100%", "postage": "4.00"}}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`)
	c := a.Products[0].Channels[0]
	r := c.Orders[0].Refund
	if r == nil || !r.Postage.Equal(quoin.MustAmount("8")) || !r.Result.Equal(quoin.MustAmount("-48")) {
		t.Errorf("a refund comes to %+v, want 48.00 of the other currency, with postage of 8.00", r)
	}
	// 2.00 of refunds and 0.40 of postage.
	if !c.Statement.Fees.Equal(quoin.MustAmount("2.40")) || !c.Statement.Contribution.Equal(quoin.MustAmount("17.60")) {
		t.Errorf("fees of %s, %s is left, want 2.40 and 17.60", c.Statement.Fees, c.Statement.Contribution)
	}
}
