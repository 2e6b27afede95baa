package margin_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// keeping returns the prices up to a limit at which a sale through a channel
// contributes at least so much, with the forward check of each price.
func keeping(t *testing.T, c channel.Channel, least, limit string) (rule.Set, func(price string) bool) {
	t.Helper()
	grid, err := quoin.NewGrid(publishedIn.Minor(), quoin.MustAmount(limit))
	if err != nil {
		t.Fatal(err)
	}
	item := rule.NewItem("print", grid, margin.NewSale(c.Terms(publishedIn), margin.Goods{}))
	floor := rule.Rule{Kind: rule.Contribution{AtLeast: quoin.MustAmount(least)}}
	allowed, err := floor.Allowed(item)
	if err != nil {
		t.Fatal(err)
	}
	return allowed, func(price string) bool { return floor.Holds(item, quoin.MustAmount(price)) }
}

// The least price that leaves an amount after a fee on the whole price, which
// is itself rounded to a cent; a cent less does not leave it. The fees are invented.
func TestFeeGrossUp(t *testing.T) {
	for _, c := range []struct{ rate, fixed, keep, least, below string }{
		{"40%", "0", "75", "125.00", "124.99"},
		{"40%", "0", "1600", "2666.66", "2666.65"},     // 1066.664
		{"2.3%", "0.27", "100", "102.63", "102.62"},    // 2.36049 + 0.27, and 2.36026
		{"2.3%", "0.27", "2000", "2047.36", "2047.35"}, // 47.08928 + 0.27, and 47.08905
		{"1.6%", "0.27", "89", "90.72", "90.71"},       // 1.45152 + 0.27, and 1.45136
	} {
		fee := channel.Fee{Rate: quoin.MustRate(c.rate), Fixed: quoin.MustAmount(c.fixed)}
		allowed, holds := keeping(t, channel.Channel{Fees: []channel.Fee{fee}}, c.keep, "10000")
		if got, ok := allowed.Least(); !ok || !got.Equal(quoin.MustAmount(c.least)) {
			t.Errorf("%s after %s + %s takes %s, want %s", c.keep, c.rate, c.fixed, got, c.least)
		}
		if !holds(c.least) || holds(c.below) {
			t.Errorf("%s after %s + %s: kept at %s %t, at %s %t, want true and false",
				c.keep, c.rate, c.fixed, c.least, holds(c.least), c.below, holds(c.below))
		}
	}
}

// runsOf writes a set as its runs.
func runsOf(s rule.Set) string {
	var out string
	for first, last := range s.Runs() {
		out += fmt.Sprintf("[%s %s]", first, last)
	}
	return out
}

// 6% up to 12.00 and 14% of the whole amount above, invented: 12.00 keeps 11.28, and
// every price from 12.01 to 13.11 keeps less: 13.11 − 1.84 (1.8354) = 11.27.
func TestStaircase(t *testing.T) {
	staircase := channel.Channel{Fees: []channel.Fee{{
		TierMode: channel.Whole,
		Tiers: []channel.Tier{
			{From: quoin.MustAmount("0"), Rate: quoin.MustRate("6%")},
			{From: quoin.MustAmount("12.01"), Rate: quoin.MustRate("14%")},
		},
	}}}
	allowed, _ := keeping(t, staircase, "11.28", "50.00")
	if got, want := runsOf(allowed), "[12.00 12.00][13.12 50.00]"; got != want {
		t.Errorf("at least 11.28 is kept at %s, want %s", got, want)
	}
	sale := margin.NewSale(staircase.Terms(publishedIn), margin.Goods{})
	if got := sale.At(quoin.MustAmount("12.00")).Contribution; !got.Equal(quoin.MustAmount("11.28")) {
		t.Errorf("12.00 keeps %s, want 11.28", got)
	}
	for cents := int64(1201); cents <= 1311; cents++ {
		price := quoin.AmountOf(cents, 2)
		if got := sale.At(price).Contribution; got.Cmp(quoin.MustAmount("11.28")) >= 0 {
			t.Errorf("%s keeps %s, want less than 11.28", price, got)
		}
	}
}

// 1.50 below 10.00 and 3.00 from there on, invented: 9.99 keeps 8.49, 10.00 keeps 7.00, 11.48
// keeps 8.48 and 11.49 keeps 8.49. In orders of two the fee goes by what both come to: 4.99 keeps
// (9.98 − 1.50) ÷ 2 = 4.24, 5.00 keeps 3.50, and 5.74 keeps (11.48 − 3.00) ÷ 2 = 4.24 again. Where
// tiers add up, 4.50 are taken from 10.00 on, and 12.99 keeps 8.49.
func TestFixedStaircase(t *testing.T) {
	tiers := []channel.Tier{{From: quoin.MustAmount("0"), Fixed: quoin.MustAmount("1.50")}, {From: quoin.MustAmount("10.00"), Fixed: quoin.MustAmount("3.00")}}
	for _, c := range []struct {
		what              string
		fee               channel.Fee
		items             int64
		keep, want, first string
	}{
		{"whole", channel.Fee{Tiers: tiers, TierMode: channel.Whole}, 1, "8.49", "[9.99 9.99][11.49 50.00]", "10.00"},
		{"two in an order", channel.Fee{Tiers: tiers, TierMode: channel.Whole}, 2, "4.24", "[4.99 4.99][5.74 50.00]", "5.00"},
		{"each of two", channel.Fee{Tiers: tiers, TierMode: channel.Whole, Per: quoin.PerItem}, 2, "8.49", "[9.99 9.99][11.49 50.00]", "10.00"},
		{"marginal", channel.Fee{Tiers: tiers}, 1, "8.49", "[9.99 9.99][12.99 50.00]", "10.00"},
	} {
		shop := channel.Channel{Orders: []channel.Order{{Items: c.items}}, Fees: []channel.Fee{c.fee}}
		allowed, holds := keeping(t, shop, c.keep, "50.00")
		if got := runsOf(allowed); got != c.want || holds(c.first) {
			t.Errorf("%s: at least %s is kept at %s, want %s, and at %s %t", c.what, c.keep, got, c.want, c.first, holds(c.first))
		}
	}
}

// Postage of 4.80 is charged below a goods value of 35.00 and not from there
// on; tax of 9% comes on top of both; fees are 7.4% of goods and postage, 3.3% +
// 0.27 of the total with tax, and 0.15 a listing; all invented.
//
//	34.99 + 4.80, tax 3.58: 39.79 − 2.94 − 1.70 (43.37 × 3.3% + 0.27 = 1.70121) − 0.15 − 4.80 = 30.20
//	35.00,        tax 3.15: 35.00 − 2.59 − 1.53 (38.15 × 3.3% + 0.27 = 1.52895) − 0.15 − 4.80 = 25.93
//	39.78,        tax 3.58: 39.78 − 2.94 − 1.70 (43.36 × 3.3% + 0.27 = 1.70088) − 0.15 − 4.80 = 30.19
func TestPostageCliff(t *testing.T) {
	shop := channel.Channel{
		Tax:    channel.Tax{Rate: quoin.MustRate("9%"), OnShipping: true},
		Orders: []channel.Order{{Shipping: quoin.MustAmount("4.80"), FreeFrom: quoin.Some(quoin.MustAmount("35.00")), Postage: quoin.MustAmount("4.80")}},
		Fees: []channel.Fee{
			{Rate: quoin.MustRate("7.4%"), Of: []channel.Part{channel.Items, channel.Shipping}},
			{Rate: quoin.MustRate("3.3%"), Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}, Fixed: quoin.MustAmount("0.27")},
			{Fixed: quoin.MustAmount("0.15")},
		},
	}
	sale := margin.NewSale(shop.Terms(publishedIn), margin.Goods{})
	for _, c := range []struct{ price, left string }{
		{"34.99", "30.20"},
		{"35.00", "25.93"},
		{"39.79", "30.20"},
	} {
		if got := sale.At(quoin.MustAmount(c.price)).Contribution; !got.Equal(quoin.MustAmount(c.left)) {
			t.Errorf("%s leaves %s, want %s", c.price, got, c.left)
		}
	}
	allowed, holds := keeping(t, shop, "30.20", "200.00")
	if got, ok := allowed.Next(quoin.MustAmount("35.00")); !ok || !got.Equal(quoin.MustAmount("39.79")) {
		t.Errorf("from 35.00 up, 30.20 is left again at %s, want 39.79", got)
	}
	if holds("39.78") || !holds("39.79") {
		t.Errorf("30.20 left at 39.78 %t, at 39.79 %t, want false and true", holds("39.78"), holds("39.79"))
	}
}
