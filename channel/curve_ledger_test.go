package channel_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// pieceText writes a piece of a curve: its prices, revenue, fees and what is kept as slope × price,
// a start and the room on both sides, what sending costs, and the cents of the room.
func pieceText(g quoin.Grid, p channel.Piece) string {
	line := func(l channel.StraightLine) string {
		return l.Slope.String() + " " + l.Start.Figure().Long() + " ±" + l.Within.Figure().Long()
	}
	return fmt.Sprintf("%s %s: revenue %s, fees %s, kept %s, sent %s, cents %s", g.Price(p.First), g.Price(p.Last), line(p.Revenue), line(p.Fees), line(p.Kept), p.Fulfilment.Figure().Long(), p.Cents.Figure().Long())
}

// By hand: whatever is rounded to money is off by at most half a cent, 0.005. With tax of 25% in
// prices 0.8 of them is revenue; a fee of a tenth without the tax is off by 0.005 and a tenth of
// that, and what is kept by 0.9 × 0.005 + 0.005. Two kinds of order hold 75% × 1 + 25% × 5 = 2 items,
// and their fees are off by 0.005 for 2. A step of 0.50 abroad is 0.40 at 0.80. Of a fee of a fifth
// 95% stays, beside a tenth refunded. A house that pays half out of what it has left keeps half less
// the tax. A surcharge of 2% and 0.10 is off by 0.005, its tax by a fifth of that and 0.005. Beside
// another print 3.00 of shipping is charged and half of 0.30; from 7.00 on, with 30.00 beside, the
// whole fee is 4.00, of which 0.05 × price + 0.50 is borne. Half the price for three, 1% off, is off by
// 0.99 × 0.005 + 0.005 ÷ 3, and a fee on forty orders of two by 0.005 ÷ 80.
func TestCurvesByHand(t *testing.T) {
	g := grid(t, "0.01", "60.00")
	taxed := channel.Tax{Rate: rate("25%"), InPrice: true}
	for _, c := range []struct {
		what string
		c    channel.Channel
		want string
	}{
		{"a fee of 7%, and no cents to round where it is expected", channel.Channel{Fees: []channel.Fee{{Rate: rate("7%"), Fixed: amount("0.30")}, {Rate: rate("1%"), Expected: true}}}, `0.01 60.00: revenue 1 0 ±0.000, fees 0.08 0.30 ±0.005, kept 0.92 -0.30 ±0.005, sent 0.00, cents 0.005`},
		{"tiers of the whole", channel.Channel{Fees: []channel.Fee{{TierMode: channel.Whole, Tiers: []channel.Tier{{From: amount("10.00"), Rate: rate("10%"), Fixed: amount("0.50")}, {From: amount("20.00"), Rate: rate("5%")}}}}}, `0.01 9.99: revenue 1 0 ±0.000, fees 0 0.00 ±0.000, kept 1 0.00 ±0.000, sent 0.00, cents 0.00
10.00 19.99: revenue 1 0 ±0.000, fees 0.1 0.50 ±0.005, kept 0.9 -0.50 ±0.005, sent 0.00, cents 0.005
20.00 60.00: revenue 1 0 ±0.000, fees 0.05 0.00 ±0.005, kept 0.95 0.00 ±0.005, sent 0.00, cents 0.005`},
		{"marginal tiers, on top of each other", channel.Channel{Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("0"), Rate: rate("10%")}, {From: amount("20.00"), Rate: rate("5%"), Fixed: amount("1.00")}}}}}, `0.01 19.99: revenue 1 0 ±0.000, fees 0.1 0.00 ±0.005, kept 0.9 0.00 ±0.005, sent 0.00, cents 0.005
20.00 60.00: revenue 1 0 ±0.000, fees 0.05 2.00 ±0.005, kept 0.95 -2.00 ±0.005, sent 0.00, cents 0.005`},
		{"bounds", channel.Channel{Fees: []channel.Fee{{Rate: rate("10%"), AtLeast: amount("1.00"), AtMost: some("3.00")}}}, `0.01 9.99: revenue 1 0 ±0.000, fees 0 1.00 ±0.000, kept 1 -1.00 ±0.000, sent 0.00, cents 0.00
10.00 29.99: revenue 1 0 ±0.000, fees 0.1 0.00 ±0.005, kept 0.9 0.00 ±0.005, sent 0.00, cents 0.005
30.00 60.00: revenue 1 0 ±0.000, fees 0 3.00 ±0.000, kept 1 -3.00 ±0.000, sent 0.00, cents 0.00`},
		{"tax, with a fee without it, and postage that is free", channel.Channel{Tax: taxed, LostParcels: rate("20%"), Orders: []channel.Order{{Shipping: amount("4.00"), FreeFrom: some("30.00"), Postage: amount("4.00")}}, Fees: []channel.Fee{{Rate: rate("10%"), WithoutTax: true}}}, `0.01 29.99: revenue 0.8 4.00 ±0.005, fees 0.08 0.00 ±0.0055, kept 0.72 4.00 ±0.0095, sent 5.00, cents 0.0095
30.00 60.00: revenue 0.8 0.00 ±0.005, fees 0.08 0.00 ±0.0055, kept 0.72 0.00 ±0.0095, sent 5.00, cents 0.0095`},
		{"two kinds of order", channel.Channel{Orders: []channel.Order{{Share: someRate("75%")}, {Share: someRate("25%"), Items: 5, Shipping: amount("4.00"), Postage: amount("8.00")}}, Fees: []channel.Fee{{Rate: rate("10%")}}}, `0.01 60.00: revenue 1 0.50 ±0.000, fees 0.1 0.00 ±0.0025, kept 0.9 0.50 ±0.0025, sent 1.00, cents 0.0025`},
		{"a code from 20.00 on", channel.Channel{Orders: []channel.Order{{Codes: []string{"x"}}}, Promotions: []promo.Offer{{ID: "x", Rate: rate("12.5%"), From: amount("20.00")}}}, `0.01 19.99: revenue 1 0 ±0.000, fees 0 0 ±0.000, kept 1 0 ±0.000, sent 0.00, cents 0.00
20.00 60.00: revenue 0.875 0 ±0.005, fees 0 0 ±0.000, kept 0.875 0 ±0.005, sent 0.00, cents 0.005`},
		{"abroad, in steps of a half", channel.Channel{ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80")}, PricePoints: &channel.PricePoints{Step: amount("0.50")}, Fees: []channel.Fee{{Rate: rate("10%")}}}, `0.01 60.00: revenue 1 0 ±0.400, fees 0.1 0.00 ±0.044, kept 0.9 0.00 ±0.364, sent 0.00, cents 0.004`},
		{"a tenth refunded, with half of the fee", channel.Channel{Returns: &refund.Rates{Returned: rate("10%"), Fees: rate("50%")}, Fees: []channel.Fee{{Rate: rate("20%")}}}, `0.01 60.00: revenue 1 0 ±0.000, fees 0.29 0.00 ±0.00475, kept 0.71 0.00 ±0.00475, sent 0.00, cents 0.00475`},
		{"a gallery whose maker bears a discount", channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Borne: channel.ByMaker}}}, `0.01 60.00: revenue 0.9 0 ±0.005, fees 0.4 0.00 ±0.005, kept 0.5 0.00 ±0.010, sent 0.00, cents 0.01`},
		{"a house that pays all but its tax", channel.Channel{Tax: taxed, OnDemand: &channel.OnDemand{Pays: channel.Royalty, Rate: rate("50%")}}, `0.01 60.00: revenue 0.8 0 ±0.005, fees 0.3 0.00 ±0.010, kept 0.5 0.00 ±0.005, sent 0.00, cents 0.005`},
		{"a surcharge", channel.Channel{Tax: taxed, Orders: []channel.Order{{Surcharge: &channel.Surcharge{Rate: rate("2%"), Fixed: amount("0.10")}}}, Fees: []channel.Fee{{Rate: rate("3%"), Of: []channel.Part{channel.Items, channel.Surcharged}}}}, `0.01 60.00: revenue 0.816 0.08 ±0.016, fees 0.0306 0.003 ±0.00515, kept 0.7854 0.077 ±0.02115, sent 0.00, cents 0.02115`},
		{"beside another", channel.Channel{Orders: []channel.Order{{Shipping: amount("6.00"), FreeFrom: some("50.00"), Postage: amount("8.00"), Others: &channel.Others{Items: quoin.FactorOf(1), Worth: amount("30.00")}}}, Fees: []channel.Fee{{Rate: rate("10%"), Fixed: amount("0.30"), AtMost: some("4.00")}}}, `0.01 6.99: revenue 1 3.00 ±0.000, fees 0.1 0.15 ±0.005, kept 0.9 2.85 ±0.005, sent 4.00, cents 0.005
7.00 19.99: revenue 1 3.00 ±0.000, fees 0.05 0.50 ±0.005, kept 0.95 2.50 ±0.005, sent 4.00, cents 0.005
20.00 60.00: revenue 1 0.00 ±0.000, fees 0.05 0.50 ±0.005, kept 0.95 -0.50 ±0.005, sent 4.00, cents 0.005`},
		{"discounts that fees are taken of", channel.Channel{Promotion: rate("50%"), Fees: []channel.Fee{{Rate: rate("10%"), Of: []channel.Part{channel.Items, channel.Discount}}}}, `0.01 60.00: revenue 0.5 0 ±0.005, fees 0.1 0.00 ±0.005, kept 0.4 0.00 ±0.010, sent 0.00, cents 0.01`},
		{"half the price, rounded", channel.Channel{TradeDiscount: []quoin.Rate{rate("50%")}, Orders: []channel.Order{{Items: 3}}, Promotion: rate("1%")}, `0.01 60.00: revenue 0.495 0 ±≈0.00661667, fees 0 0 ±0.000, kept 0.495 0 ±≈0.00661667, sent 0.00, cents ≈0.00661667`},
		{"per item, of forty orders", channel.Channel{Orders: []channel.Order{{Items: 2}}, Fees: []channel.Fee{{Fixed: amount("0.25"), Per: quoin.PerItem, OrdersTogether: quoin.FactorOf(40), Rate: rate("1%")}}}, `0.01 60.00: revenue 1 0 ±0.000, fees 0.01 0.25 ±0.0000625, kept 0.99 -0.25 ±0.0000625, sent 0.00, cents 0.0000625`},
	} {
		var got []string
		for _, p := range c.c.Terms(eur).Curve(g) {
			got = append(got, pieceText(g, p))
		}
		if text := strings.Join(got, "\n"); text != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, text, c.want)
		}
	}
}
