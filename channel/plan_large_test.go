package channel_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// largeRows are terms whose figures come to the end of 64 bits one by one: what they have is long, so
// that each is the first not to fit at some price.
func largeRows() []plannedRow {
	type fees = []channel.Fee
	shares := func(f channel.Fee, share string) channel.Channel {
		f.Share = someRate(share)
		return channel.Channel{Fees: fees{f}}
	}
	parts := []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}
	return []plannedRow{
		{what: "a fee of all", c: channel.Channel{Fees: fees{{Rate: rate("100%")}}}},
		{what: "eight fees of all", c: channel.Channel{Fees: fees{{Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}, {Rate: rate("100%")}}}},
		{what: "many fees of all that is paid, with a fixed amount", c: channel.Channel{Tax: channel.Tax{Rate: rate("25%")}, Orders: []channel.Order{{Shipping: amount("4.50")}}, Fees: fees{
			{Rate: rate("100%"), Of: parts, Fixed: amount("0.30")}, {Rate: rate("100%"), Of: parts, Fixed: amount("0.30")}, {Rate: rate("100%"), Of: parts, Fixed: amount("0.30")}, {Rate: rate("100%"), Of: parts, Fixed: amount("0.30")},
		}}},
		{what: "a long share", c: shares(channel.Fee{Rate: rate("3%")}, "12.3456789%")},
		{what: "a long share of a fee with its tax", c: shares(channel.Fee{Rate: rate("3%"), Tax: rate("20%")}, "12.3456789%")},
		{what: "a long share of a fee within bounds", c: shares(channel.Fee{Rate: rate("3%"), AtLeast: amount("900000000.00"), AtMost: some("900000000000.00")}, "12.3456789%")},
		{what: "a long share of slices", c: shares(channel.Fee{Tiers: []channel.Tier{{Rate: rate("6%")}, {From: amount("12.01"), Rate: rate("14%")}}}, "12.3456789%")},
		{what: "a long share of what is expected", c: shares(channel.Fee{Rate: rate("1.25%"), Tax: rate("7%"), Expected: true}, "12.345%")},
		{what: "two kinds of order with long shares", c: channel.Channel{
			Orders: []channel.Order{{Share: someRate("33.333333%")}, {Share: someRate("66.666667%"), Items: 7, Shipping: amount("4.50")}}, Fees: fees{{Rate: rate("3%")}, {Rate: rate("2%"), Share: someRate("12.345%")}},
		}},
		{what: "a net fee of a discount", c: channel.Channel{
			Tax: channel.Tax{Rate: rate("20%"), InPrice: true, OnShipping: true}, Promotion: rate("25%"), Orders: []channel.Order{{Items: 1000, Shipping: amount("4.50")}},
			Fees: fees{{Rate: rate("10%"), Of: []channel.Part{channel.Items, channel.Discount, channel.Shipping}, WithoutTax: true}},
		}},
		{what: "a code", c: channel.Channel{Promotions: []promo.Offer{{ID: "code", Rate: rate("15.75%"), From: amount("30"), Test: promo.Before}}, Orders: []channel.Order{{Items: 900, Codes: []string{"code"}}}, Fees: fees{{Rate: rate("10%"), Rounding: quoin.Up}}}},
		{what: "quotients of many items", c: channel.Channel{Orders: []channel.Order{{Items: 900}}, Fees: fees{{Rate: rate("5%"), AtLeast: amount("60"), OrdersTogether: quoin.MustFactor("30")}}}},
	}
}

// Whatever the price: what whole numbers serve comes to what decimals do, up to the largest price that
// they serve, and what does not fit is left.
func TestPlansUpToTheLargestPrice(t *testing.T) {
	served, left, edges := 0, 0, 0
	for _, c := range append(plannedRows(), largeRows()...) {
		tm := c.c.For("rail").Terms(eur)
		plan, planned := tm.Plan()
		if !planned {
			continue
		}
		holds := func(list uint64) bool {
			price := quoin.AmountOf(int64(list), 2)
			all := true
			for i := range tm.Orders() {
				u, ok := plan.Settle(i, list)
				all = all && ok
				if !ok {
					continue
				}
				s := tm.Settle(i, price)
				money := func(n uint64) quoin.Amount { return quoin.AmountOf(int64(n), 2) }
				if !money(u.Unit).Equal(s.Unit) || !money(u.Items).Equal(s.Items) || !money(u.Tax).Equal(s.Tax) || !money(u.Revenue).Equal(s.Revenue) || !quoin.AmountOf(int64(u.Fees), 2+plan.FeePlaces(i)).Equal(s.Fees) {
					t.Errorf("%s: at %s, order %d: %+v, want %+v", c.what, price, i, u, s)
				}
			}
			if got, ok := tm.ByPlan(price); ok {
				if g, w := fmt.Sprint(got), fmt.Sprint(tm.Exactly(price)); g != w {
					t.Errorf("%s: at %s %s, exactly %s", c.what, price, g, w)
				}
			}
			if all {
				served++
			} else {
				left++
			}
			return all
		}
		largest, beyond := uint64(0), uint64(0)
		for list := uint64(77_777); list < 1<<62; list *= 10 {
			for _, at := range []uint64{list, 3*list + 1} {
				if holds(at) {
					largest = at
				} else if beyond == 0 {
					beyond = at
				}
			}
		}
		if beyond < largest {
			continue
		}
		for largest+1 < beyond { // by halves
			if middle := largest + (beyond-largest)/2; holds(middle) {
				largest = middle
			} else {
				beyond = middle
			}
		}
		edges++
		holds(largest - 1)
	}
	if served < 1000 || left < 500 || edges < 30 {
		t.Errorf("only %d served, %d left, %d to the last price", served, left, edges)
	}
}
