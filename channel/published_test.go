package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
)

const (
	contemporary62 = "OpenStax, Contemporary Mathematics, 6.2"
	financial61    = "OpenStax, Principles of Accounting, vol. 1 Financial, 6.1"
	financial63    = "OpenStax, Principles of Accounting, vol. 1 Financial, 6.3"
	finance192     = "OpenStax, Principles of Finance, 19.2"
	practice       = "common practice"
)

// A trade discount is taken off the unit price, a promotion off the items.
func TestPublishedTradeDiscounts(t *testing.T) {
	for _, c := range []struct{ list, off, discount, net, source string }{
		{"75.80", "25%", "18.95", "56.85", contemporary62},
		{"80", "30%", "24", "56", contemporary62},
		// The sale price is known, and the list price was looked for.
		{"1200", "25%", "300", "900", contemporary62},
		{"240", "30%", "72", "168", contemporary62},
		{"500", "10%", "50", "450", contemporary62},
		{"360", "75%", "270", "90", contemporary62},
		{"210", "10%", "21", "189", contemporary62},
	} {
		trade := channel.Channel{TradeDiscount: []quoin.Rate{rate(c.off)}}.Terms(eur).Settle(0, amount(c.list))
		if !trade.Unit.Equal(amount(c.net)) || !trade.Discount.IsZero() {
			t.Errorf("%s: %s less %s is %s, want %s", c.source, c.list, c.off, trade.Unit, c.net)
		}
		sale := channel.Channel{Promotion: rate(c.off)}.Terms(eur).Settle(0, amount(c.list))
		if !sale.Items.Equal(amount(c.net)) || !sale.Discount.Equal(amount(c.discount)) {
			t.Errorf("%s: %s off %s leaves %s, %s less, want %s, %s less", c.source, c.off, c.list, sale.Items, sale.Discount, c.net, c.discount)
		}
	}
}

func TestPublishedSeries(t *testing.T) {
	for _, c := range []struct {
		chain  []string
		net    string // of a list price of 100,000
		source string
	}{
		{[]string{"35%", "15%", "7.5%"}, "51106.25", "Brechner, Contemporary Mathematics for Business and Consumers, ch. 7, from memory: .51106"},
		{[]string{"35%", "20%", "15%"}, "44200", "the same book, inputs read, the answer computed: .44200"},
	} {
		var ch channel.Channel
		for _, d := range c.chain {
			ch.TradeDiscount = append(ch.TradeDiscount, rate(d))
		}
		if got := ch.Terms(eur).Settle(0, amount("100000")).Unit; !got.Equal(amount(c.net)) {
			t.Errorf("%s: %v leave %s, want %s", c.source, c.chain, got, c.net)
		}
	}
}

// Invoices of so many pieces, paid in time for the discount.
func TestPublishedCashDiscounts(t *testing.T) {
	for _, c := range []struct {
		pieces               int64
		each                 string
		early                string
		items, discount, net string
		source               string
	}{
		{1, "1600", "2%", "1600", "32", "1568", financial61},
		{67, "60", "5%", "4020", "201", "3819", financial63},
		{1, "10500", "2%", "10500", "210", "10290", finance192},
	} {
		s := channel.Channel{
			Orders: []channel.Order{{Items: c.pieces}},
			Trade:  &channel.Trade{Credit: channel.Credit{Days: 30, Early: rate(c.early), EarlyDays: 10}},
		}.Terms(eur).Settle(0, amount(c.each))
		if !s.Items.Equal(amount(c.items)) || !s.Fees.Equal(amount(c.discount)) || !s.Revenue.Sub(s.Fees).Equal(amount(c.net)) {
			t.Errorf("%s: %s less %s, want %s less %s", c.source, s.Items, s.Fees, c.items, c.discount)
		}
	}
}

// Rules of rounding a tax of three or four decimals to cents.
func TestPublishedTaxRounding(t *testing.T) {
	for _, c := range []struct{ price, rate, tax, source string }{
		{"1.04", "10%", "0.10", "GST Act 1999 (Australia) s 9-90: .104"},
		{"1.05", "10%", "0.11", "GST Act 1999 (Australia) s 9-90: .105"},
		{"1.00", "10.4%", "0.10", "Streamlined Sales and Use Tax Agreement §324: .104"},
		{"1.00", "10.5%", "0.11", "Streamlined Sales and Use Tax Agreement §324: .105"},
		{"1.00", "10.49%", "0.10", "Streamlined Sales and Use Tax Agreement §324: .1049"},
		{"1.06", "10%", "0.11", "GST Act 1985 (New Zealand) s 19O: .106"},
		{"428.99", "8.25%", "35.39", contemporary62},
		{"329.50", "7.5%", "24.71", contemporary62},
		{"13.77", "4.5%", "0.62", contemporary62},
		// A print of 432 for which 467.64 is paid.
		{"432", "8.25%", "35.64", contemporary62},
	} {
		got := channel.Channel{Tax: channel.Tax{Rate: rate(c.rate)}}.Terms(eur).Settle(0, amount(c.price)).Tax
		if !got.Equal(amount(c.tax)) {
			t.Errorf("%s: %s at %s bears %s, want %s", c.source, c.price, c.rate, got, c.tax)
		}
	}
}

// Tax is inside of takings, not on them.
func TestPublishedTaxInTakings(t *testing.T) {
	for _, c := range []struct{ takings, rate, tax, net string }{
		{"3000", "11.3%", "304.58", "2695.42"},
		{"100", "18%", "15.25", "84.75"},
	} {
		got := channel.Channel{Tax: channel.Tax{Rate: rate(c.rate), InPrice: true}}.Terms(eur).Proceeds(amount(c.takings))
		if !got.Tax.Equal(amount(c.tax)) || !got.Revenue.Equal(amount(c.net)) {
			t.Errorf("%s: %s at %s hold %s, %s left, want %s, %s left", practice, c.takings, c.rate, got.Tax, got.Revenue, c.tax, c.net)
		}
	}
}
