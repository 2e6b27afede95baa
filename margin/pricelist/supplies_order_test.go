package pricelist_test

import (
	"strings"
	"testing"

	"example.com/quoin"
)

// On the first of May the stock lists 10 ml at 4.00, and two purchases bring 10 ml
// each at 5.00 and 7.00. What the stock lists comes first, then the purchases in the
// order of their list: the last unit cost 0.70, the oldest 0.40, and once 15 ml are
// used on that day, the oldest left 0.50.
func TestPurchasesOfADayComeAfterItsReceipts(t *testing.T) {
	const doc = `{"version": 1, "currency": "EUR", "price_limit": "20.00", "date": "2026-05-01",
		"supplies": [{"id": "ink", "stock": {"basis": "BASIS", "unit": "ml",
			"received": [{"date": "2026-05-01", "quantity": "10 ml", "cost": "4.00"}], "used": [USED]}}],
		"purchases": [
			{"id": "b", "date": "2026-05-01", "lines": [{"supply": "ink", "quantity": "10 ml", "price": "5.00"}]},
			{"id": "a", "date": "2026-05-01", "lines": [{"supply": "ink", "quantity": "10 ml", "price": "7.00"}]}],
		"products": [{"id": "card", "bill": [{"supply": "ink", "quantity": "1 ml"}]}], "channels": [{"id": "stall"}],
		"rules": [{"id": "from", "rule": "price", "at_least": "2.00"}]}`
	for _, c := range []struct{ basis, used, want string }{
		{"last", "", "0.70"}, {"first_in", "", "0.40"}, {"first_in", `{"date": "2026-05-01", "quantity": "15 ml"}`, "0.50"},
	} {
		a := decidedShop(t, strings.NewReplacer("BASIS", c.basis, "USED", c.used).Replace(doc))
		if got := a.Products[0].Channels[0].Statement.Goods; !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s, %q used: a ml costs %s, want %s", c.basis, c.used, got, c.want)
		}
	}
}

// Ink used up in two periods: 10 and 18 ml for a square metre, 14 on average. The image
// is a tenth of a square metre, and a millilitre costs 1.00: goods of 1.40, between 1.00
// and 1.80.
func TestPeriodsOfInkGiveARange(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "20.00",
		"supplies": [{"id": "ink", "quantity": "100 ml", "price": "100.00"}],
		"products": [{"id": "card", "image": "50 x 20 cm", "bill": [{"supply": "ink", "ink": {"spent": [
			{"opening": "20 ml", "bought": "90 ml", "closing": "10 ml", "area": "10 m2"}, {"opening": "10 ml", "bought": "200 ml", "closing": "30 ml", "area": "10 m2"}]}}]}],
		"channels": [{"id": "stall"}], "rules": [{"id": "from", "rule": "price", "at_least": "5.00"}]}`)
	c := a.Products[0].Channels[0]
	if !c.Statement.Goods.Equal(quoin.MustAmount("1.40")) || c.Range == nil {
		t.Fatalf("goods of %s, range %v, want 1.40 and a range", c.Statement.Goods, c.Range)
	}
	if g := c.Range.Goods; !g.Low.Equal(quoin.MustAmount("1.00")) || !g.High.Equal(quoin.MustAmount("1.80")) {
		t.Errorf("goods between %s and %s, want 1.00 and 1.80", g.Low, g.High)
	}
}
