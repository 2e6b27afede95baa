package channel_test

import (
	"math/big"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// Which channels are settled without dividing.
func TestWhatIsPlain(t *testing.T) {
	type fees = []channel.Fee
	posted := []channel.Order{{Shipping: amount("4.50"), FreeFrom: quoin.Some(amount("60")), Postage: amount("6.20")}}
	tax := channel.Tax{Rate: rate("20%"), InPrice: true, OnShipping: true}
	for _, c := range []struct {
		what  string
		c     channel.Channel
		plain bool
	}{
		{"nothing at all", channel.Channel{}, true},
		{"tax, postage and fees of all that is paid", channel.Channel{Tax: tax, Orders: posted, Fees: fees{
			{Rate: rate("7.4%")}, {Rate: rate("2.3%"), Fixed: amount("0.27"), Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}},
		}}, true},
		{"a fee within bounds, of some orders", channel.Channel{Fees: fees{{Rate: rate("5%"), AtLeast: amount("0.5"), AtMost: quoin.Some(amount("9")), Share: someRate("12.5%")}}}, true},
		{"a discount, several items and kinds of order", channel.Channel{
			TradeDiscount: []quoin.Rate{rate("45%")}, Orders: []channel.Order{{Share: someRate("70%")}, {Share: someRate("30%"), Items: 3}}, Fees: fees{{Rate: rate("3%")}},
		}, true},

		{"tax of each line", channel.Channel{Tax: channel.Tax{Rate: rate("20%"), Per: channel.PerTaxedLine}}, false},
		{"tax rounded down", channel.Channel{Tax: channel.Tax{Rate: rate("20%"), Rounding: quoin.Down}}, false},
		{"a fee rounded up", channel.Channel{Fees: fees{{Rate: rate("5%"), Rounding: quoin.Up}}}, false},
		{"a fee with a tax", channel.Channel{Fees: fees{{Rate: rate("5%"), Tax: rate("20%")}}}, false},
		{"a fee by tiers", channel.Channel{Fees: fees{{Tiers: []channel.Tier{{Rate: rate("6%")}}}}}, false},
		{"a fee only expected", channel.Channel{Fees: fees{{Rate: rate("1%"), Expected: true}}}, false},
		{"price points", channel.Channel{PricePoints: &channel.PricePoints{Step: amount("0.50")}}, false},
		{"a promotion", channel.Channel{Promotions: []promo.Offer{{ID: "code", Rate: rate("15%")}}, Orders: []channel.Order{{Codes: []string{"code"}}}}, false},
		{"one kind of order that is not plain", channel.Channel{
			Promotions: []promo.Offer{{ID: "code", Rate: rate("15%")}}, Orders: []channel.Order{{Share: someRate("70%")}, {Share: someRate("30%"), Codes: []string{"code"}}},
		}, false},
	} {
		plan, ok := c.c.Terms(eur).Plan()
		if !ok {
			t.Errorf("%s: no plan", c.what)
			continue
		}
		if got := plan.PlainBelow() > 0; got != c.plain {
			t.Errorf("%s: plain is %t", c.what, got)
		}
	}
}

// A kind of order is settled alike on both sides of the price below which it is plain, and below
// it where a fee is as near as can be to half a unit without reaching it.
func TestPlainOrdersAtTheirEnd(t *testing.T) {
	tm := channel.Channel{
		Tax: channel.Tax{Rate: rate("19%"), InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50")}},
		Fees: []channel.Fee{{Rate: rate("6.5432199%"), Fixed: amount("0.275")}, {Rate: rate("2.3%"), Of: []channel.Part{channel.Shipping, channel.Items}}},
	}.Terms(eur)
	plan, _ := tm.Plan()
	end := plan.PlainBelow()
	if end == 0 {
		t.Fatal("it is not plain")
	}
	// The first fee is (list × 65,432,199 + a fixed amount and a half) ÷ 10^9; this list price
	// leaves the rest 10^9 − 1.
	d := big.NewInt(1_000_000_000)
	rest := new(big.Int).Mul(new(big.Int).ModInverse(big.NewInt(65_432_199), d), big.NewInt(-1-27_500_000_000-500_000_000))
	nearHalf := end - 1 - (end-1-rest.Mod(rest, d).Uint64())%d.Uint64()
	for _, list := range []uint64{nearHalf, end - 2, end - 1, end, end + 1} {
		settledByPlan(t, plan, tm, list)
	}
}

// Shipping is free from the price on that says so.
func TestPlainOrdersAreSentFree(t *testing.T) {
	tm := channel.Channel{Orders: []channel.Order{{Shipping: amount("4.50"), FreeFrom: quoin.Some(amount("60"))}}}.Terms(eur)
	plan, _ := tm.Plan()
	for _, c := range []struct{ list, shipping uint64 }{{5999, 450}, {6000, 0}, {6001, 0}} {
		if u, ok := plan.Settle(0, c.list); !ok || u.Shipping != c.shipping {
			t.Errorf("at %d: %+v, %t, want %d", c.list, u, ok, c.shipping)
		}
		settledByPlan(t, plan, tm, c.list)
	}
}

// settledByPlan holds an order of the first kind to its terms.
func settledByPlan(t *testing.T, plan *channel.Plan, tm channel.Terms, list uint64) {
	t.Helper()
	u, ok := plan.Settle(0, list)
	s := tm.Settle(0, quoin.AmountOf(int64(list), 2))
	money := func(n uint64, places int) quoin.Amount { return quoin.AmountOf(int64(n), places) }
	if !ok || !money(u.Revenue, 2).Equal(s.Revenue) || !money(u.Tax, 2).Equal(s.Tax) || !money(u.Fees, 2+plan.FeePlaces(0)).Equal(s.Fees) {
		t.Fatalf("at %d: %+v, %t, want %+v", list, u, ok, s)
	}
}
