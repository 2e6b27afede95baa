package margin_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

const practice = "common practice"

func TestPublishedTaxInPrices(t *testing.T) {
	for _, c := range []struct{ price, rate, tax, net, source string }{
		{"36.56", "5.75%", unprinted, "34.57", contemporary62},
		{"97.17", "4.25%", unprinted, "93.21", contemporary62},
		{"467.64", "8.25%", "35.64", "432", contemporary62},
		{"3000", "11.3%", "304.58", unprinted, practice},
		{"100", "18%", unprinted, "84.75", practice},
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
	stand, err := channel.FixedCost{Cost: quoin.MustAmount("800"), Items: quoin.FactorOf(80)}.PerItem()
	if err != nil {
		t.Fatal(err)
	}
	sale := plainSale("4.00")
	sale.FixedCost = stand
	if got := sale.At(quoin.MustAmount("10.00")).Contribution.Times(quoin.FactorOf(80)); !got.Equal(quoin.MustAmount("-320")) {
		t.Errorf("sales of 800 leave %s, want -320", got)
	}
}
