package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// besideAFrame is a print, with its tax in prices, beside a frame of 60.00 that holds 20%, and
// shipping of 9.00.
func besideAFrame(print string, more ...func(*channel.Tax)) channel.Channel {
	tax := in(print, append(more, onPost)...)
	tax.Classes = []channel.TaxClass{{Class: "frame", Rate: rate("20%")}}
	return channel.Channel{Tax: tax, Orders: []channel.Order{{
		Shipping: amount("9.00"), Others: &channel.Others{Items: over("1"), Worth: amount("60.00"), TaxClass: "frame"},
	}}}
}

// A print at 120.00 with 5.5% beside a frame at 60.00 with 20%, and postage of 9.00. Goods bear 6.60
// and 12.00 on top. The tax of all postage is as of a set of both; the print bears half of it.
func TestTaxOfPostageBesideOthers(t *testing.T) {
	twoThirds := func(c *channel.Channel) { c.Orders[0].Items, c.Orders[0].Others.Worth = 2, amount("120.00") }
	of := func(parts ...channel.Part) func(*channel.Channel) {
		return func(c *channel.Channel) { c.Fees[0].Of = parts }
	}
	for _, c := range []struct {
		what string
		more []func(*channel.Tax)
		with func(*channel.Channel)
		want string // the print's tax, and the base of a fee without tax, or of tax on top, on the whole order
	}{
		{"in proportion", []func(*channel.Tax){onTop}, of(channel.SalesTax), "7.07 19.53"},                     // 0.33 + 0.60 = 0.93, half of it 0.465
		{"at the highest", []func(*channel.Tax){onTop, highest}, of(channel.SalesTax), "7.50 20.40"},           // 1.80
		{"at the main", []func(*channel.Tax){onTop, mainRate}, of(channel.SalesTax), "6.85 19.10"},             // 0.495
		{"by line", []func(*channel.Tax){onTop, perLine}, of(channel.SalesTax), "7.07 19.53"},                  // as one
		{"by item", []func(*channel.Tax){onTop, perUnit}, of(channel.SalesTax), "7.07 19.53"},                  // as one
		{"rounded down", []func(*channel.Tax){onTop, rounded(quoin.Down)}, of(channel.SalesTax), "7.06 19.53"}, // 0.46
		// 240.00 and 120.00 are in the same proportion; two thirds of 0.93 are 0.62, beside 13.20 and 24.00.
		{"two of three", []func(*channel.Tax){onTop}, func(c *channel.Channel) { twoThirds(c); of(channel.SalesTax)(c) }, "13.82 38.13"},
		// In prices 120.00 hold 6.2559 and 60.00 hold 10.00; 6.00 and 3.00 hold 0.3128 and 0.50, together 0.81.
		{"in prices", nil, of(channel.Items, channel.Shipping), "6.67 171.93"}, // 0.405, and 189.00 − 17.07
		{"in prices, a fee of items", nil, of(channel.Items), "6.67 163.74"},   // 180.00 − 16.26
		{"in prices, a fee of shipping", nil, of(channel.Shipping), "6.67 8.19"},
		{"at the highest, in prices", []func(*channel.Tax){highest}, of(channel.Shipping), "7.01 7.50"}, // 1.50
		// 129.00 of the print's rate: 9.00 hold 0.4692, of which it bears 0.24.
		{"at the main, in prices", []func(*channel.Tax){mainRate}, of(channel.Shipping), "6.50 8.53"},
		// A frame worth 130.00 is the main part: 1.50.
		{"the frame is the main", []func(*channel.Tax){mainRate}, func(c *channel.Channel) { c.Orders[0].Others.Worth = amount("130.00"); of(channel.Shipping)(c) }, "7.01 7.50"},
		{"as much is the print's", []func(*channel.Tax){mainRate}, func(c *channel.Channel) { c.Orders[0].Others.Worth = amount("120.00"); of(channel.Shipping)(c) }, "6.50 8.53"},
		// Free from 100.00, so there is none of it.
		{"free", nil, func(c *channel.Channel) {
			c.Orders[0].FreeFrom = some("100.00")
			of(channel.Items, channel.Shipping)(c)
		}, "6.26 163.74"},
		// 19% of all in this order, but of frames 10%: 120.00 hold 19.16, and 60.00 5.45; 6.00 hold 0.958, and 3.00 0.2727.
		{"rates of the order", nil, func(c *channel.Channel) {
			c.Orders[0].TaxRate, c.Orders[0].TaxClasses = someRate("19%"), []channel.TaxClass{{Class: "frame", Rate: rate("10%")}}
			of(channel.Items, channel.Shipping)(c)
		}, "19.78 163.16"}, // 1.23, of which it bears 0.615; 189.00 − 19.16 − 5.45 − 1.23
		// 19% of all: one rate, and so one sum. 124.50 hold 19.88, and 64.50 10.30.
		{"one rate", nil, func(c *channel.Channel) {
			c.Orders[0].TaxRate = someRate("19%")
			of(channel.Items, channel.Shipping)(c)
		}, "19.88 158.82"},
		// Postage that is not taxed: the frame's own tax is all that differs.
		{"postage without tax", nil, func(c *channel.Channel) {
			c.Tax.OnShipping = false
			of(channel.Items, channel.Shipping)(c)
		}, "6.26 172.74"},
		// Half off: 60.00 to 60.00, so 4.50 to 4.50, which bear 0.25 and 0.90, beside 3.30 and 12.00.
		{"after a promotion", []func(*channel.Tax){onTop}, func(c *channel.Channel) {
			c.Promotion = rate("50%")
			of(channel.SalesTax)(c)
		}, "3.88 16.45"},
		// A set of a print and a frame, 80.00 and 40.00: 4.00 of the postage bear 0.22, and 5.00 bear 1.00, beside 4.40, 8.00 and 12.00.
		{"a set", []func(*channel.Tax){onTop}, func(c *channel.Channel) {
			*c = c.OfParts(channel.TaxedPart{Name: "print", Price: amount("60.00")}, channel.TaxedPart{Name: "small frame", Class: "frame", Price: amount("30.00")})
			of(channel.SalesTax)(c)
		}, "13.01 25.62"},
		{"worth nothing", nil, func(c *channel.Channel) { c.Orders[0].Others.Worth = amount("0"); of(channel.Shipping)(c) }, "6.50 8.53"},
	} {
		one := besideAFrame("5.5%", c.more...)
		one.Fees = []channel.Fee{{Name: "all", Rate: rate("1%"), WithoutTax: true}}
		c.with(&one)
		s := one.Terms(eur).Settle(0, amount("120.00"))
		if got := s.Tax.String() + " " + s.Charges[0].Base.Round(2, quoin.Down).String(); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// As everywhere, the order is the same seen from the print and from the frame: so is what fees on all
// of it are taken of, within a cent where a cent of shipping may fall to either.
func TestAMixedOrderIsTheSameFromBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		print, frame := quoin.AmountOf(rapid.Int64Range(1, 20_000).Draw(t, "print"), 2), quoin.AmountOf(rapid.Int64Range(1, 20_000).Draw(t, "frame"), 2)
		tax := channel.Tax{OnShipping: true, InPrice: draws{t}.yes("in price"), Classes: []channel.TaxClass{
			{Class: "print", Rate: draws{t}.rate("tax of prints", 400)}, {Class: "frame", Rate: draws{t}.rate("tax of frames", 400)},
		}}
		if !print.Equal(frame) { // of which either is the main part
			tax.ShippingRate = rapid.SampledFrom([]channel.ShippingRate{"", channel.AtHighestRate, channel.AtMainRate}).Draw(t, "rate of shipping")
		}
		shipping := draws{t}.money("shipping", 3000)
		fee := channel.Fee{Rate: rate("1%"), WithoutTax: true, Of: []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}}
		base := func(class, other string, price, worth quoin.Amount) quoin.Amount {
			c := channel.Channel{Tax: tax, Fees: []channel.Fee{fee}, Orders: []channel.Order{{Shipping: shipping, Others: &channel.Others{Items: over("1"), Worth: worth, TaxClass: other}}}}
			return c.TaxedAs(class).Terms(eur).Settle(0, price).Charges[0].Base
		}
		off := base("print", "frame", print, frame).Sub(base("frame", "print", frame, print))
		if off.Cmp(amount("0.01")) > 0 || off.Neg().Cmp(amount("0.01")) > 0 {
			t.Fatalf("of the two bases one is larger by %s", off)
		}
	})
}

func TestCurveHoldsBesideOthersOfAnotherRate(t *testing.T) { rapid.Check(t, curveHoldsMixed) }
func FuzzCurveHoldsBesideOthersOfAnotherRate(f *testing.F) { f.Fuzz(rapid.MakeFuzz(curveHoldsMixed)) }

// curveHoldsMixed: where others are taxed at another rate, what a price brings lies on the pieces'
// lines within their room, however much shipping is beside what the order holds.
func curveHoldsMixed(t *rapid.T) { curveHolds(t, draws{t}.mixed().Terms(eur), draws{t}.grid()) }

// mixed is a channel with orders that hold others of a rate of their own.
func (d draws) mixed() channel.Channel {
	c := channel.Channel{ID: "any", Tax: channel.Tax{InPrice: d.yes("in price"), OnShipping: true}}
	if d.yes("rounded otherwise") {
		d.taxed(&c.Tax)
	}
	c.Tax.ShippingRate = rapid.SampledFrom([]channel.ShippingRate{"", "", channel.AtHighestRate, channel.AtMainRate}).Draw(d.T, "rate of shipping")
	c.Tax.Rate, c.Tax.Classes = d.rate("tax", 1000), []channel.TaxClass{{Class: "print", Rate: d.rate("tax of prints", 400)}, {Class: "frame", Rate: d.rate("tax of frames", 1000)}}
	if d.yes("promoted") {
		c.Promotions = append(c.Promotions, d.offer("a"))
	}
	for range rapid.IntRange(1, 2).Draw(d.T, "kinds") {
		o := d.order([]string{"first", "second"}[len(c.Orders)])
		o.Shipping = d.money("more shipping", rapid.SampledFrom([]int64{900, 20_000}).Draw(d.T, "most shipping"))
		o.Others = &channel.Others{
			Items:    quoin.MustFactor(rapid.SampledFrom([]string{"1", "2.5", "0.3", "7"}).Draw(d.T, "other items")),
			Worth:    d.fine("worth", rapid.SampledFrom([]int64{3, 200}).Draw(d.T, "most worth")),
			TaxClass: "frame",
		}
		if d.yes("a surcharge") {
			o.Surcharge = &channel.Surcharge{Rate: d.rate("surcharge", 200), Fixed: d.money("fixed surcharge", 60), TaxRate: d.maybeRate("tax on it", 250)}
		}
		c.Orders = append(c.Orders, o)
	}
	for range rapid.IntRange(0, 2).Draw(d.T, "fees") {
		f := d.fee()
		if len(f.Tiers) > 0 {
			f.Tiers[1].From = d.money("from", 30_000).Add(amount("0.01"))
		}
		if !f.AtMost.IsZero() && d.yes("further bounds") {
			f.AtLeast = d.money("further at least", 1000)
			f.AtMost = quoin.Some(f.AtLeast.Add(d.money("further at most", 1000)))
		}
		c.Fees = append(c.Fees, f)
	}
	if d.yes("tagged") {
		c.PricePoints = d.tag()
	}
	return d.inParts(c.For("rail"))
}

// A print without tax beside a frame of 10.00 with 100% on top, and shipping of 100.00: at i the
// order comes to i + 10.00 + 10.00 of tax + 1000.00 ÷ (i + 10.00) of tax of shipping. That is 90.00
// at 5.51 and at 54.49, less between them, and more on both sides.
func TestABaseFallsAndRises(t *testing.T) {
	c := channel.Channel{
		Tax: channel.Tax{OnShipping: true, Classes: []channel.TaxClass{{Class: "frame", Rate: rate("100%")}}},
		Orders: []channel.Order{{
			Shipping: amount("100.00"), Others: &channel.Others{Items: over("1"), Worth: amount("10.00"), TaxClass: "frame"},
		}},
		Fees: []channel.Fee{{Name: "large", Of: []channel.Part{channel.Items, channel.SalesTax}, Tiers: []channel.Tier{{}, {From: amount("90.00"), Fixed: amount("4.00")}}}},
	}
	tm := c.Terms(eur)
	for price, want := range map[string]string{"5.50": "2.00", "5.52": "0.00", "54.48": "0.00", "54.50": "2.00"} {
		if got := tm.Proceeds(amount(price)).Fees; !got.Equal(amount(want)) {
			t.Errorf("at %s the fee is %s, want %s", price, got, want)
		}
	}
	g := grid(t, "0.01", "80")
	for _, p := range tm.Curve(g) {
		for i := p.First; i <= p.Last; i++ {
			if off := tm.Proceeds(g.Price(i)).Fees.Sub(p.Fees.At(g.Price(i))); off.Cmp(p.Fees.Within) > 0 || off.Neg().Cmp(p.Fees.Within) > 0 {
				t.Fatalf("at %s the fee lies off its line by %s, which claims %s", g.Price(i), off, p.Fees.Within)
			}
		}
	}
	if n := len(tm.Curve(g)); n > c.Breaks() {
		t.Errorf("%d pieces, where terms break at %d prices at most", n, c.Breaks())
	}
}

// However much shipping is, the curve is drawn in a moment, or refused.
func TestMuchShippingIsDrawnOrRefused(t *testing.T) {
	for shipping, refused := range map[string]bool{"100.00": false, "100000.00": false, "100000000000.00": true} {
		c := besideAFrame("5.5%", onTop)
		c.ID, c.Orders[0].Shipping, c.Orders[0].Others.Worth = "shop", amount(shipping), amount(shipping).Times(quoin.MustFactor("0.1"))
		c.Fees = []channel.Fee{{Name: "all", Rate: rate("1%"), Of: []channel.Part{channel.Items, channel.SalesTax}, AtLeast: amount(shipping).Times(quoin.MustFactor("0.003"))}}
		if got := c.Check(eur) != nil; got != refused {
			t.Errorf("shipping of %s is refused: %t, want %t: %v", shipping, got, refused, c.Check(eur))
		}
		if n := len(c.Terms(eur).Curve(grid(t, "0.01", "1000000"))); n > c.Breaks() {
			t.Errorf("shipping of %s: %d pieces, where terms break at %d prices at most", shipping, n, c.Breaks())
		}
	}
}
