package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

func in(rateOf string, more ...func(*channel.Tax)) channel.Tax {
	t := channel.Tax{Rate: rate(rateOf), InPrice: true}
	for _, f := range more {
		f(&t)
	}
	return t
}

func onTop(t *channel.Tax)    { t.InPrice = false }
func onPost(t *channel.Tax)   { t.OnShipping = true }
func perLine(t *channel.Tax)  { t.Per = channel.PerTaxedLine }
func perUnit(t *channel.Tax)  { t.Per = channel.PerTaxedUnit }
func net(t *channel.Tax)      { t.Rounded = channel.RoundedNet }
func ofFull(t *channel.Tax)   { t.Of = channel.OfFullPrice }
func highest(t *channel.Tax)  { t.ShippingRate = channel.AtHighestRate }
func mainRate(t *channel.Tax) { t.ShippingRate = channel.AtMainRate }

func rounded(how quoin.Rounding) func(*channel.Tax) {
	return func(t *channel.Tax) { t.Rounding = how }
}

func items(n int64, shipping string) []channel.Order {
	return []channel.Order{{Items: n, Shipping: amount(shipping)}}
}

// One order under each way of rounding its tax, worked out by hand.
func TestTaxRounding(t *testing.T) {
	tenOff := []promo.Offer{{ID: "one off", Amount: amount("1.00")}}
	for _, l := range []ledger{
		// 29.97 × 19 ÷ 119 = 4.7851; 9.99 × 19 ÷ 119 = 1.5950.
		{what: "three, as one", c: channel.Channel{Tax: in("19%"), Orders: items(3, "0")}, list: "9.99", items: "29.97", tax: "4.79", revenue: "25.18"},
		{what: "three, as a line", c: channel.Channel{Tax: in("19%", perLine), Orders: items(3, "0")}, list: "9.99", items: "29.97", tax: "4.79", revenue: "25.18"},
		{what: "three, each", c: channel.Channel{Tax: in("19%", perUnit), Orders: items(3, "0")}, list: "9.99", items: "29.97", tax: "4.80", revenue: "25.17"},
		// 1.8981 each, 5.6943 together.
		{what: "three, each, on top", c: channel.Channel{Tax: in("19%", perUnit, onTop), Orders: items(3, "0")}, list: "9.99", items: "29.97", tax: "5.70", revenue: "29.97"},
		{what: "three, as one, on top", c: channel.Channel{Tax: in("19%", onTop), Orders: items(3, "0")}, list: "9.99", items: "29.97", tax: "5.69", revenue: "29.97"},
		// 14.98 holds 2.3918; 9.99 holds 1.5950 and 4.99 holds 0.7967.
		{what: "with shipping, as one", c: channel.Channel{Tax: in("19%", onPost), Orders: items(1, "4.99")}, list: "9.99", items: "9.99", shipping: "4.99", tax: "2.39", revenue: "12.59"},
		{what: "with shipping, by line", c: channel.Channel{Tax: in("19%", onPost, perLine), Orders: items(1, "4.99")}, list: "9.99", items: "9.99", shipping: "4.99", tax: "2.40", revenue: "12.58"},
		// 29.00 for three is 9.67, 9.67 and 9.66, which hold 1.5440, 1.5440 and 1.5424.
		{what: "a code spread per item", c: channel.Channel{Tax: in("19%", perUnit), Promotions: tenOff, Orders: []channel.Order{{Items: 3, Codes: []string{"one off"}}}}, list: "10.00", items: "29.00", tax: "4.62", revenue: "24.38"},
		{what: "a code, as one", c: channel.Channel{Tax: in("19%"), Promotions: tenOff, Orders: []channel.Order{{Items: 3, Codes: []string{"one off"}}}}, list: "10.00", items: "29.00", tax: "4.63", revenue: "24.37"},
		// 2.99 × 4 ÷ 104 = 0.115 and 2.99 ÷ 1.04 = 2.875, both just between two cents.
		{what: "the tax is rounded", c: channel.Channel{Tax: in("4%")}, list: "2.99", items: "2.99", tax: "0.12", revenue: "2.87"},
		{what: "the net is rounded", c: channel.Channel{Tax: in("4%", net)}, list: "2.99", items: "2.99", tax: "0.11", revenue: "2.88"},
		{what: "half down", c: channel.Channel{Tax: in("4%", rounded(quoin.HalfDown))}, list: "2.99", items: "2.99", tax: "0.11", revenue: "2.88"},
		{what: "half even", c: channel.Channel{Tax: in("4%", rounded(quoin.HalfEven))}, list: "2.99", items: "2.99", tax: "0.12", revenue: "2.87"},
		{what: "up", c: channel.Channel{Tax: in("19%", rounded(quoin.Up))}, list: "9.98", items: "9.98", tax: "1.60", revenue: "8.38"},
		{what: "down", c: channel.Channel{Tax: in("19%", rounded(quoin.Down))}, list: "9.99", items: "9.99", tax: "1.59", revenue: "8.40"},
		// The price stays what it is: 8.26 and 1.74 are 10.00, though 8.26 × 1.21 is 9.99.
		{what: "the price is the anchor", c: channel.Channel{Tax: in("21%")}, list: "10.00", items: "10.00", tax: "1.74", revenue: "8.26"},
		{what: "the price is the anchor, net rounded", c: channel.Channel{Tax: in("21%", net)}, list: "10.00", items: "10.00", tax: "1.74", revenue: "8.26"},
		// 18.00 holds 3.00, 20.00 holds 3.3333.
		{what: "a discount lowers the tax", c: channel.Channel{Tax: in("20%"), Promotion: rate("10%")}, list: "20.00", items: "18.00", tax: "3.00", revenue: "15.00"},
		{what: "a discount after the tax", c: channel.Channel{Tax: in("20%", ofFull), Promotion: rate("10%")}, list: "20.00", items: "18.00", tax: "3.33", revenue: "14.67"},
		{what: "a discount after the tax on top", c: channel.Channel{Tax: in("20%", ofFull, onTop), Promotion: rate("10%")}, list: "20.00", items: "18.00", tax: "4.00", revenue: "18.00"},
		// A fee without tax is of what is paid, 18.00 less 3.00; a refund gives back 18.00 less 3.33.
		{what: "fees and refunds after the tax", c: channel.Channel{
			Tax: in("20%", ofFull), Promotion: rate("10%"), Fees: []channel.Fee{{Name: "shop", Rate: rate("10%"), WithoutTax: true}}, Returns: &refund.Rates{Returned: rate("10%")},
		}, list: "20.00", items: "18.00", tax: "3.33", revenue: "14.67", fees: "shop 1.50; refunds 1.467"},
		// 3 × 1.60 of 29.97 leaves 25.17.
		{
			what: "a fee without tax, by item", c: channel.Channel{Tax: in("19%", perUnit), Orders: items(3, "0"), Fees: []channel.Fee{{Name: "shop", Rate: rate("100%"), WithoutTax: true, Expected: true, Share: quoin.Some(rate("50%"))}}},
			list: "9.99", items: "29.97", tax: "4.80", revenue: "25.17", fees: "shop 12.585",
		},
		// A house owes the tax, and keeps 80% less it: 23.976 less 3 × 1.60.
		{
			what: "a house owes it by item", c: channel.Channel{Tax: in("19%", perUnit), Orders: items(3, "0"), OnDemand: &channel.OnDemand{Pays: channel.Royalty, Rate: rate("20%")}},
			list: "9.99", items: "29.97", tax: "4.80", revenue: "25.17", fees: "the house keeps 19.18",
		},
	} {
		if l.shipping == "" {
			l.shipping = "0"
		}
		l.fulfilment = "0"
		l.check(t)
	}
}

// Figures of others. The court leaves the method to each state (Council Directive 2006/112/EC says
// none; C-484/06 and C-302/07: no right to round each item down, and none to be made to round by
// line), from memory; so the method is data.
func TestPublishedTaxMethods(t *testing.T) {
	const (
		trade  = "worked cases of the trade: 36 pieces at 1.66, or at 1.99 with the tax"
		nz     = "GST Act 1985 (New Zealand) s 19O: a half may be dropped"
		notice = "VAT Notice 700 (United Kingdom) 17.5: an invoice's tax may be rounded down to a whole penny, from memory"
		en     = "EN 16931-1 BR-CO-17: BT-117 is BT-116 × BT-119, rounded to two decimals, from memory"
	)
	for _, c := range []struct {
		source string
		tax    channel.Tax
		count  int64
		list   string
		want   string
	}{
		{trade, in("20%", onTop, perUnit), 36, "1.66", "11.88"},
		{trade, in("20%", onTop, perLine), 36, "1.66", "11.95"},
		{trade, in("20%", perLine), 36, "1.99", "11.94"},
		{nz, in("10%", onTop, rounded(quoin.HalfDown)), 1, "1.05", "0.10"},
		{nz, in("10%", onTop, rounded(quoin.HalfDown)), 1, "1.06", "0.11"},
		{notice, in("20%", onTop, rounded(quoin.Down)), 1, "10.09", "2.01"}, // 2.018
		{en, in("19%", onTop), 3, "9.99", "5.69"},
	} {
		s := channel.Channel{Tax: c.tax, Orders: items(c.count, "0")}.Terms(eur).Settle(0, amount(c.list))
		if !s.Tax.Equal(amount(c.want)) {
			t.Errorf("%s: %s, want %s", c.source, s.Tax, c.want)
		}
	}
}

// A print at 120.00 with 5.5% and its frame at 60.00 with 20%, both on top, and postage of 9.00.
// The goods bear 6.60 and 12.00; the postage is shared as 6.00 and 3.00, or is at one rate.
func TestTaxOfPostageWithMixedGoods(t *testing.T) {
	parts := []channel.TaxedPart{{Name: "print", Class: "print", Price: amount("120.00")}, {Name: "frame", Class: "frame", Price: amount("60.00")}}
	classes := []channel.TaxClass{{Class: "print", Rate: rate("5.5%")}, {Class: "frame", Rate: rate("20%")}}
	for _, c := range []struct {
		what string
		more []func(*channel.Tax)
		want string
	}{
		{"in proportion", nil, "19.53"},                            // 0.93
		{"at the highest", []func(*channel.Tax){highest}, "20.40"}, // 1.80
		{"at the main", []func(*channel.Tax){mainRate}, "19.10"},   // 129 × 5.5% = 7.095
		{"at the main, by line", []func(*channel.Tax){mainRate, perLine}, "19.10"},
		{"in proportion, by line", []func(*channel.Tax){perLine}, "19.53"}, // 6.60 + 0.33 + 12.00 + 0.60
	} {
		tax := in("20%", append(c.more, onTop, onPost)...)
		tax.Classes = classes
		s := channel.Channel{Tax: tax, Orders: items(1, "9.00")}.OfParts(parts...).Terms(eur).Settle(0, amount("180.00"))
		if !s.Tax.Equal(amount(c.want)) || !s.Paid().Equal(amount("189.00").Add(amount(c.want))) {
			t.Errorf("%s: %s of tax, want %s; %s paid", c.what, s.Tax, c.want, s.Paid())
		}
	}
}

// The price of an item is shared among its parts to the cent, and each part is taxed by its class.
func TestTaxOfParts(t *testing.T) {
	classes := []channel.TaxClass{{Class: "print", Rate: rate("5.5%")}, {Class: "frame", Rate: rate("20%")}}
	pair := []channel.TaxedPart{{"print", "print", amount("24.00")}, {"frame", "frame", amount("21.00")}}
	three := []channel.TaxedPart{{"print", "print", amount("5.00")}, {"frame", "frame", amount("5.00")}, {"glass", "frame", amount("5.00")}}
	for _, c := range []struct {
		what       string
		parts      []channel.TaxedPart
		per        channel.TaxPer
		price, tax string
	}{
		// 42.00 is 22.40 and 19.60, which hold 1.1678 and 3.2667.
		{"a print and a frame", pair, "", "42.00", "4.44"},
		// 10.00 is 3.34, 3.33 and 3.33: 0.1741 in the first, 1.11 in the others, 0.555 in each.
		{"an odd cent", three, "", "10.00", "1.28"},
		{"an odd cent, by line", three, channel.PerTaxedLine, "10.00", "1.29"},
		{"one rate is one sum", three[1:], channel.PerTaxedLine, "6.66", "1.11"},
	} {
		tax := in("20%")
		tax.Classes, tax.Per = classes, c.per
		s := channel.Channel{Tax: tax}.OfParts(c.parts...).Terms(eur).Settle(0, amount(c.price))
		if !s.Tax.Equal(amount(c.tax)) || !s.Paid().Equal(amount(c.price)) {
			t.Errorf("%s: %s of tax, want %s; %s paid", c.what, s.Tax, c.tax, s.Paid())
		}
	}
}

// Of two rates the one nearer to the order counts, and of its own two the one of the class.
func TestRateOfClass(t *testing.T) {
	c := channel.Channel{
		Tax: channel.Tax{Rate: rate("20%"), InPrice: true, Classes: []channel.TaxClass{{Class: "print", Rate: rate("5.5%")}, {Class: "original", Rate: rate("10%")}}},
		Orders: []channel.Order{
			{Share: someRate("40%")},
			{Share: someRate("30%"), TaxRate: someRate("19%")},
			{Share: someRate("30%"), TaxRate: someRate("19%"), TaxClasses: []channel.TaxClass{{Class: "print", Rate: rate("7%")}}},
		},
	}
	for _, w := range []struct {
		class string
		rates [3]string
	}{
		{"print", [3]string{"5.5%", "19%", "7%"}}, {"original", [3]string{"10%", "19%", "19%"}}, {"", [3]string{"20%", "19%", "19%"}}, {"mug", [3]string{"20%", "19%", "19%"}},
	} {
		for i, want := range w.rates {
			if got := c.TaxRate(c.Orders[i], w.class); !got.Equal(rate(want)) {
				t.Errorf("%q in order %d: %s, want %s", w.class, i, got, want)
			}
			if s := c.TaxedAs(w.class).Terms(eur).Settle(i, amount("20.00")); !s.Tax.Equal(amount("20.00").Times(rate(want).Factor()).Over(rate(want).OnePlus()).Round(2, quoin.HalfUp)) {
				t.Errorf("%q in order %d holds %s", w.class, i, s.Tax)
			}
		}
	}
	// What stays without the tax: 20.00 × 1.07 ÷ 1.055 = 20.284 and 20.00 × 1.19 ÷ 1.055 = 22.559.
	c.Tax.Constant = channel.Net
	for i, want := range []string{"20.00", "22.56", "20.28"} {
		if s := c.TaxedAs("print").Terms(eur).Settle(i, amount("20.00")); !s.Unit.Equal(amount(want)) {
			t.Errorf("net, order %d: %s, want %s", i, s.Unit, want)
		}
	}
	if !c.ByProduct() || !c.Taxes() {
		t.Error("a channel with classes is one for all products")
	}
}

// Law 6 holds however the tax is rounded: what is left of a price with tax in it, as a price with
// tax on top, brings the same, and the buyer of one pays the same within a cent, or two where
// it is rounded up or down.
func TestTaxInAndOnTopHoweverRounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tax := in("0%")
		draws{t}.taxed(&tax)
		tax.Rate, tax.Of, tax.Classes = draws{t}.rate("tax", 300), "", nil
		price := quoin.AmountOf(rapid.Int64Range(1, 100_000).Draw(t, "price"), 2)
		with := channel.Channel{Tax: tax}.Terms(eur).Settle(0, price)
		tax.InPrice = false
		top := channel.Channel{Tax: tax}.Terms(eur).Settle(0, with.Revenue)
		off, most := top.Paid().Sub(price), amount("0.01")
		if tax.Rounding == quoin.Up || tax.Rounding == quoin.Down {
			most = amount("0.02")
		}
		if !with.Paid().Equal(price) || !with.Revenue.Equal(top.Revenue) || off.Cmp(most) > 0 || off.Neg().Cmp(most) > 0 {
			t.Fatalf("%v holds %v and leaves %v; on top %v is paid", price, with.Tax, with.Revenue, top.Paid())
		}
	})
}

// 10% of 1725.05 is 172.505: for paying early 172.50 is off and 1552.55 due, or 172.51 off and
// 1552.54 due, by choice. A promotion of the channel rounds what is due, a code what it takes off,
// unless it says otherwise.
func TestOneFigureIsRounded(t *testing.T) {
	early := func(f channel.RoundedFigure) channel.Channel {
		return channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{Days: 30, Early: rate("10%"), EarlyDays: 10, EarlyRounded: f}}}
	}
	code := func(how quoin.Rounding) channel.Channel {
		return channel.Channel{Promotions: []promo.Offer{{ID: "TEN", Rate: rate("10%"), Rounding: how}}, Orders: []channel.Order{{Codes: []string{"TEN"}}}}
	}
	for _, l := range []ledger{
		{what: "early", c: early(""), items: "1725.05", fees: "early payment 172.50"},
		{what: "early, what is due", c: early(channel.RoundedDue), items: "1725.05", fees: "early payment 172.50"},
		{what: "early, the discount", c: early(channel.RoundedDiscount), items: "1725.05", fees: "early payment 172.51"},
		{what: "a promotion", c: channel.Channel{Promotion: rate("10%")}, items: "1552.55"},
		{what: "a code", c: code(quoin.HalfUp), items: "1552.54"},
		{what: "a code half down", c: code(quoin.HalfDown), items: "1552.55"},
	} {
		l.list, l.shipping, l.tax, l.revenue, l.fulfilment = "1725.05", "0", "0", l.items, "0"
		l.check(t)
	}
}
