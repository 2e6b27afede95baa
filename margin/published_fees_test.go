package margin_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

const practice = "common practice"

func TestPublishedTaxInPrices(t *testing.T) {
	for _, c := range []struct{ price, rate, tax, net, source string }{
		{"36.56", "5.75%", unprinted, "34.57", contemporary62},
		{"97.17", "4.25%", unprinted, "93.21", contemporary62},
		{"467.64", "8.25%", "35.64", "432", contemporary62},
		{"3000", "10.1%", "275.20", unprinted, practice},
		{"100", "21%", unprinted, "82.64", practice},
	} {
		terms := channel.Channel{Tax: channel.Tax{Rate: quoin.MustRate(c.rate), InPrice: true}}.Terms(publishedIn)
		s := terms.Settle(0, quoin.MustAmount(c.price))
		if c.tax != unprinted && !s.Tax.Equal(quoin.MustAmount(c.tax)) {
			t.Errorf("%s: %s at %s holds %s, want %s", c.source, c.price, c.rate, s.Tax, c.tax)
		}
		if c.net != unprinted && !s.Revenue.Equal(quoin.MustAmount(c.net)) {
			t.Errorf("%s: %s at %s is %s without tax, want %s", c.source, c.price, c.rate, s.Revenue, c.net)
		}
	}
}

func TestPublishedTaxOnTop(t *testing.T) {
	const billing = "a billing example for GST Act 1999 (Australia) s 9-90"
	for _, c := range []struct{ price, rate, tax, total, source string }{
		{"428.99", "8.25%", "35.39", "464.38", contemporary62 + " (its printed total is wrong; this is price + tax)"},
		{"2132.12", "10%", "213.21", unprinted, billing},
	} {
		terms := channel.Channel{Tax: channel.Tax{Rate: quoin.MustRate(c.rate)}}.Terms(publishedIn)
		s := terms.Settle(0, quoin.MustAmount(c.price))
		if !s.Tax.Equal(quoin.MustAmount(c.tax)) {
			t.Errorf("%s: tax of %s at %s is %s, want %s", c.source, c.price, c.rate, s.Tax, c.tax)
		}
		if got := s.Revenue.Add(s.Tax); c.total != unprinted && !got.Equal(quoin.MustAmount(c.total)) {
			t.Errorf("%s: %s at %s is %s in all, want %s", c.source, c.price, c.rate, got, c.total)
		}
	}
}

func TestPublishedTaxRates(t *testing.T) {
	for _, c := range []struct{ tax, price, rate string }{
		{"24.71", "329.50", "7.5%"},
		{"0.62", "13.77", "4.5%"},
	} {
		got := quoin.MustAmount(c.tax).Share(quoin.MustAmount(c.price)).Round(1)
		if got.String() != c.rate {
			t.Errorf("%s: %s on %s is %s, want %s", contemporary62, c.tax, c.price, got, c.rate)
		}
	}
}

// Tax at 20% on 36 pieces: on each, on the line, and inside the line at a
// price that holds it. Where tax is rounded changes what it comes to.
func TestPublishedTaxOnManyPieces(t *testing.T) {
	for _, c := range []struct {
		price   string
		inPrice bool
		items   int64 // in one order
		orders  int64
		tax     string
	}{
		{"1.66", false, 1, 36, "11.88"},
		{"1.66", false, 36, 1, "11.95"},
		{"1.99", true, 36, 1, "11.94"},
	} {
		terms := channel.Channel{
			Tax:    channel.Tax{Rate: quoin.MustRate("20%"), InPrice: c.inPrice},
			Orders: []channel.Order{{Items: c.items}},
		}.Terms(publishedIn)
		got := terms.Settle(0, quoin.MustAmount(c.price)).Tax.Times(quoin.FactorOf(c.orders))
		if !got.Equal(quoin.MustAmount(c.tax)) {
			t.Errorf("%s: %d orders of %d at %s hold %s of tax, want %s", practice, c.orders, c.items, c.price, got, c.tax)
		}
	}
}

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
// is itself rounded to a cent; a cent less does not leave it.
func TestPublishedFeeGrossUp(t *testing.T) {
	for _, c := range []struct{ rate, fixed, keep, least, below, source string }{
		{"40%", "0", "75", "125.00", "124.99", practice},
		{"40%", "0", "1600", "2666.66", "2666.65", practice},
		{"2.9%", "0.30", "100", "103.30", "103.29", practice},
		{"2.9%", "0.30", "2000", "2060.04", "2060.03", practice},
		{"1.75%", "0.30", "89", "90.89", "90.88", practice},
	} {
		fee := channel.Fee{Rate: quoin.MustRate(c.rate), Fixed: quoin.MustAmount(c.fixed)}
		allowed, holds := keeping(t, channel.Channel{Fees: []channel.Fee{fee}}, c.keep, "10000")
		if got, ok := allowed.Least(); !ok || !got.Equal(quoin.MustAmount(c.least)) {
			t.Errorf("%s: %s after %s + %s takes %s, want %s", c.source, c.keep, c.rate, c.fixed, got, c.least)
		}
		if !holds(c.least) || holds(c.below) {
			t.Errorf("%s: %s after %s + %s: kept at %s %t, at %s %t, want true and false",
				c.source, c.keep, c.rate, c.fixed, c.least, holds(c.least), c.below, holds(c.below))
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

// 8% up to 10.00 and 15% of the whole amount above: 10.00 keeps 9.20, and every
// price from 10.01 to 10.81 keeps less (common practice).
func TestPublishedStaircase(t *testing.T) {
	staircase := channel.Channel{Fees: []channel.Fee{{
		TierMode: channel.Whole,
		Tiers: []channel.Tier{
			{From: quoin.MustAmount("0"), Rate: quoin.MustRate("8%")},
			{From: quoin.MustAmount("10.01"), Rate: quoin.MustRate("15%")},
		},
	}}}
	allowed, _ := keeping(t, staircase, "9.20", "50.00")
	if got, want := runsOf(allowed), "[10.00 10.00][10.82 50.00]"; got != want {
		t.Errorf("at least 9.20 is kept at %s, want %s", got, want)
	}
	sale := margin.NewSale(staircase.Terms(publishedIn), margin.Goods{})
	if got := sale.At(quoin.MustAmount("10.00")).Contribution; !got.Equal(quoin.MustAmount("9.20")) {
		t.Errorf("10.00 keeps %s, want 9.20", got)
	}
	for cents := int64(1001); cents <= 1081; cents++ {
		price := quoin.AmountOf(cents, 2)
		if got := sale.At(price).Contribution; got.Cmp(quoin.MustAmount("9.20")) >= 0 {
			t.Errorf("%s keeps %s, want less than 9.20", price, got)
		}
	}
}

// Postage of 4.80 is charged below a goods value of 35.00 and not from there
// on; tax of 8% comes on top of both; fees are 6.5% of goods and postage, 3% +
// 0.25 of the total with tax, and 0.20 a listing (common practice).
func TestPublishedPostageCliff(t *testing.T) {
	shop := channel.Channel{
		Tax:    channel.Tax{Rate: quoin.MustRate("8%"), OnShipping: true},
		Orders: []channel.Order{{Shipping: quoin.MustAmount("4.80"), FreeFrom: quoin.Some(quoin.MustAmount("35.00")), Postage: quoin.MustAmount("4.80")}},
		Fees: []channel.Fee{
			{Rate: quoin.MustRate("6.5%"), Of: []channel.Part{channel.Items, channel.Shipping}},
			{Rate: quoin.MustRate("3%"), Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}, Fixed: quoin.MustAmount("0.25")},
			{Fixed: quoin.MustAmount("0.20")},
		},
	}
	sale := margin.NewSale(shop.Terms(publishedIn), margin.Goods{})
	for _, c := range []struct{ price, left string }{
		{"34.99", "30.66"},
		{"35.00", "26.34"},
		{"39.79", "30.66"},
	} {
		if got := sale.At(quoin.MustAmount(c.price)).Contribution; !got.Equal(quoin.MustAmount(c.left)) {
			t.Errorf("%s leaves %s, want %s", c.price, got, c.left)
		}
	}
	allowed, holds := keeping(t, shop, "30.66", "200.00")
	if got, ok := allowed.Next(quoin.MustAmount("35.00")); !ok || !got.Equal(quoin.MustAmount("39.79")) {
		t.Errorf("from 35.00 up, 30.66 is left again at %s, want 39.79", got)
	}
	if holds("39.78") || !holds("39.79") {
		t.Errorf("30.66 left at 39.78 %t, at 39.79 %t, want false and true", holds("39.78"), holds("39.79"))
	}
}

// A code that takes a discount off the price, while the shop's half stays as it
// was, costs the maker discount ÷ share of what would have come in.
func TestPublishedCodesOutOfAShare(t *testing.T) {
	for _, c := range []struct{ discount, drop string }{
		{"10%", "20%"},
		{"25%", "50%"},
	} {
		list := quoin.MustAmount("100")
		half := channel.Fee{Fixed: quoin.MustAmount("50")}
		kept := func(promotion quoin.Rate) quoin.Amount {
			shop := channel.Channel{Promotion: promotion, Fees: []channel.Fee{half}}
			return margin.NewSale(shop.Terms(publishedIn), margin.Goods{}).At(list).Contribution
		}
		full := kept(quoin.Rate{})
		if got := full.Sub(kept(quoin.MustRate(c.discount))).Share(full); got.String() != c.drop {
			t.Errorf("%s: a code of %s costs %s of a half share, want %s", practice, c.discount, got, c.drop)
		}
	}
}

// A fair with expenses of 800 and goods at 40% of sales (common practice).
func TestPublishedFair(t *testing.T) {
	sales, ok := margin.BreakEven(quoin.MustAmount("800"), quoin.Amount{}, quoin.AmountOf(1, 0).Sub(quoin.MustAmount("0.40")))
	if got := sales.Round(2, quoin.HalfUp).String(); !ok || got != "1333.33" {
		t.Errorf("it breaks even at sales of %s, want 1333.33", got)
	}
	// Eighty prints at 10.00 are sales of 800.
	stand, err := channel.Period{Cost: quoin.MustAmount("800"), Items: quoin.FactorOf(80)}.PerItem()
	if err != nil {
		t.Fatal(err)
	}
	sale := plainSale("4.00")
	sale.Selling = stand
	if got := sale.At(quoin.MustAmount("10.00")).Contribution.Times(quoin.FactorOf(80)); !got.Equal(quoin.MustAmount("-320")) {
		t.Errorf("sales of 800 leave %s, want -320", got)
	}
}
