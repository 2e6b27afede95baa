package buy_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// 10 sheets were bought at 10.00. Buying again costs 12.00, so prices go by 12.00, and 100.00 was paid
// for the stock. What comes in, goes out or costs more after that month does not change it.
func TestStockIsWorthWhatWasPaid(t *testing.T) {
	june := quoin.MustDate("2026-06-30")
	stock := buy.Stock{Basis: buy.Replacement, Replacement: quoin.MustAmount("12.00"), Unit: "sheets", Received: []buy.Receipt{
		{Date: quoin.MustDate("2026-06-01"), Quantity: quoin.MustQuantity("10 sheet"), Cost: quoin.MustAmount("100.00")},
	}}
	later := stock
	later.Replacement = quoin.MustAmount("15.00")
	later.Received = append(later.Received, buy.Receipt{Date: quoin.MustDate("2026-07-02"), Quantity: quoin.MustQuantity("10 sheet"), Cost: quoin.MustAmount("140.00")})
	later.Used = []buy.Use{{Date: quoin.MustDate("2026-07-03"), Quantity: quoin.MustQuantity("15 sheet")}}
	for _, c := range []struct {
		what       string
		s          buy.Stock
		worth      buy.Basis
		day        quoin.Date
		unit, paid string
	}{
		{"at the end of June", stock, "", june, "12.00", "100.00"},
		{"in June, seen later", later, "", june, "15.00", "100.00"},
		{"in July", later, "", quoin.MustDate("2026-07-31"), "15.00", "70.00"},                      // five of those at 14.00
		{"in July, on average", later, buy.Average, quoin.MustDate("2026-07-31"), "15.00", "60.00"}, // 240.00 ÷ 20 × 5
	} {
		c.s.Worth = c.worth
		now, err := c.s.At(c.day)
		if err != nil || !now.Unit.Equal(quoin.MustAmount(c.unit)) || !now.Paid.Equal(quoin.MustAmount(c.paid)) {
			t.Errorf("%s: %s a unit, %s paid, %v, want %s and %s", c.what, now.Unit, now.Paid, err, c.unit, c.paid)
		}
	}
	stock.Worth = buy.Last
	if _, err := stock.At(june); err == nil {
		t.Error("a stock is worth what the last cost")
	}
}
