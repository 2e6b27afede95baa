package channel_test

import (
	"testing"

	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// Where the maker bears a shop's discount the shop's 40% is of the price before that
// discount. What the maker takes off itself is no discount of the shop's: of 100.00 a
// promotion of 10% leaves 90.00, a code of 5.00 leaves 85.00, and a tenth off by the
// shop 76.50. The shop keeps 34.00, 40% of 85.00.
func TestMakerBearsTheShopsDiscountAlone(t *testing.T) {
	w := channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Borne: channel.ByMaker}}
	promoted := gallery(w)
	promoted.Promotion = rate("10%")
	coded := promoted
	coded.Promotions = []promo.Offer{{ID: "spring", Amount: amount("5.00")}}
	coded.Orders = []channel.Order{{Codes: []string{"spring"}}}
	some := w
	some.Discount.Share = someRate("25%")
	rare := coded
	rare.Consignment = &some
	framed := w
	framed.CostsFirst = amount("12.00")
	first := coded
	first.Consignment = &framed
	net := w
	net.WithoutTax, net.Registered = true, []channel.Party{channel.Maker}
	taxed := coded
	taxed.Consignment = &net
	none := w
	none.Discount.Rate = rate("0%")
	alone := coded
	alone.Consignment = &none
	for _, l := range []ledger{
		{what: "a promotion", c: promoted, items: "81", revenue: "81", fees: "commission 36"},
		{what: "a promotion and a code", c: coded, items: "76.50", revenue: "76.50", fees: "commission 34"},
		{what: "a quarter of sales, the others", c: rare, items: "85", revenue: "85", fees: "commission 34"},
		{what: "a quarter of sales", c: rare, kind: 1, items: "76.50", revenue: "76.50", fees: "commission 34"},
		// (85.00 − 12.00) × 40%.
		{what: "the frame first", c: first, items: "76.50", revenue: "76.50", fees: "commission 29.20"},
		// 85.00 ÷ 1.2 is 70.83, and 76.50 ÷ 1.2 is 63.75.
		{what: "of the net price", c: taxed, items: "76.50", tax: "12.75", revenue: "63.75", fees: "commission 28.33"},
		{what: "no discount of the shop's at all", c: alone, items: "85", revenue: "85", fees: "commission 34"},
	} {
		l.list = "100.00"
		l.check(t)
	}
}
