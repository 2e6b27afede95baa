package channel_test

import (
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// draws makes random channels of every kind there is.
type draws struct{ *rapid.T }

func (d draws) rate(name string, most int64) quoin.Rate {
	return quoin.AmountOf(rapid.Int64Range(0, most).Draw(d.T, name), 3).Share(amount("1"))
}

func (d draws) money(name string, most int64) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(0, most).Draw(d.T, name), 2)
}

// fine is money that may have more places than any currency's.
func (d draws) fine(name string, most int64) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(0, most*100).Draw(d.T, name), rapid.IntRange(2, 4).Draw(d.T, "places"))
}

func (d draws) yes(name string) bool { return rapid.Bool().Draw(d.T, name) }

func (d draws) maybeRate(name string, most int64) (o quoin.Optional[quoin.Rate]) {
	if d.yes(name + " given") {
		o = quoin.Some(d.rate(name, most))
	}
	return o
}

func (d draws) maybeMoney(name string, most int64) (o quoin.Optional[quoin.Amount]) {
	if d.yes(name + " given") {
		o = quoin.Some(d.money(name, most))
	}
	return o
}

func (d draws) grid() quoin.Grid {
	step := amount(rapid.SampledFrom([]string{"0.01", "0.05", "0.37", "1"}).Draw(d.T, "step"))
	g, err := quoin.NewGrid(step, step.Times(quoin.FactorOf(160)))
	if err != nil {
		d.Fatal(err)
	}
	return g
}

// channel is any channel in which a document could sell a rail.
func (d draws) channel() channel.Channel {
	c := channel.Channel{
		ID: "any", Uplift: d.rate("uplift", 300), Promotion: d.rate("promotion", 400), LostParcels: d.rate("loss", 100),
		Tax: channel.Tax{
			Rate: d.rate("tax", 250), InPrice: d.yes("in price"), OnShipping: d.yes("on shipping"),
			Constant: rapid.SampledFrom([]channel.Constant{"", channel.Gross, channel.Net}).Draw(d.T, "constant"),
		},
	}
	d.taxed(&c.Tax)
	if d.yes("discounted") {
		c.TradeDiscount = []quoin.Rate{d.rate("discount", 600), d.rate("more", 100)}
	}
	for range rapid.IntRange(0, 3).Draw(d.T, "promotions") {
		c.Promotions = append(c.Promotions, d.offer([]string{"a", "b", "c"}[len(c.Promotions)]))
	}
	for range rapid.IntRange(0, 2).Draw(d.T, "kinds") {
		c.Orders = append(c.Orders, d.order([]string{"first", "second"}[len(c.Orders)]))
	}
	for range rapid.IntRange(0, 3).Draw(d.T, "fees") {
		c.Fees = append(c.Fees, d.fee())
	}
	if d.yes("tagged") {
		c.PricePoints = d.tag()
	}
	if d.yes("abroad") {
		c.ForeignCurrency = &channel.ForeignCurrency{
			Currency:   quoin.MustCurrency(rapid.SampledFrom([]string{"USD", "JPY", "KWD"}).Draw(d.T, "currency")),
			Rate:       quoin.MustFactor(rapid.SampledFrom([]string{"0.9", "1.17", "3", "0.07"}).Draw(d.T, "exchange")),
			Conversion: d.rate("conversion", 40),
		}
	}
	switch rapid.IntRange(0, 3).Draw(d.T, "way") {
	case 1:
		c.Trade = d.trade()
	case 2:
		c.Consignment = d.consignment()
	case 3:
		c.OnDemand = d.onDemand()
	}
	if c.Trade == nil && c.Consignment == nil && c.OnDemand == nil {
		for i := range c.Orders {
			if d.yes("others") {
				c.Orders[i].Others = &channel.Others{Items: quoin.MustFactor(rapid.SampledFrom([]string{"1", "2.5", "0.3", "7"}).Draw(d.T, "other items")), Worth: d.fine("worth", 60), TaxClass: rapid.SampledFrom([]string{"", "frame", "print"}).Draw(d.T, "class of others")}
			}
		}
	}
	if c.Consignment == nil && c.OnDemand == nil {
		for i := range c.Orders {
			if d.yes("a surcharge") {
				c.Orders[i].Surcharge = &channel.Surcharge{Rate: d.rate("surcharge", 40), Fixed: d.money("fixed surcharge", 60).Add(amount("0.01")), TaxRate: d.maybeRate("tax on it", 250)}
			}
		}
	}
	if d.yes("refunds") {
		c.Returns = &refund.Rates{
			Surcharge: d.yes("surcharge back"),
			Returned:  d.rate("returned", rapid.SampledFrom([]int64{200, 950}).Draw(d.T, "most returned")), Part: d.maybeRate("part", 1000), Shipping: d.yes("shipping back"), Postage: d.money("return", 600),
			Resold: d.rate("resold", 1000), Fees: d.rate("fees back", 1000), Disputed: d.rate("disputed", 50), Lost: d.maybeRate("lost", 1000), Fee: d.money("dispute", 2000),
		}
	}
	return d.inParts(d.inUnits(c).For("rail"))
}

// taxed draws how the tax is rounded, and of what it is taken.
func (d draws) taxed(t *channel.Tax) {
	if d.yes("a plain tax") {
		return
	}
	t.Per = rapid.SampledFrom([]channel.TaxPer{"", channel.PerTaxedLine, channel.PerTaxedUnit}).Draw(d.T, "tax per")
	t.Rounding = quoin.Rounding(rapid.IntRange(0, 4).Draw(d.T, "tax rounding"))
	t.Rounded = rapid.SampledFrom([]channel.TaxFigure{"", channel.RoundedTax, channel.RoundedNet}).Draw(d.T, "rounded figure")
	t.Of = rapid.SampledFrom([]channel.TaxBase{"", "", channel.OfPaid, channel.OfFullPrice}).Draw(d.T, "tax of")
	t.ShippingRate = rapid.SampledFrom([]channel.ShippingRate{"", channel.AtHighestRate, channel.AtMainRate}).Draw(d.T, "rate of shipping")
	if d.yes("classes") {
		t.Classes = []channel.TaxClass{{Class: "print", Rate: d.rate("tax of prints", 250)}, {Class: "frame", Rate: d.rate("tax of frames", 250)}}
	}
}

// inParts makes the channel that of a product of a class, or of an item with parts.
func (d draws) inParts(c channel.Channel) channel.Channel {
	switch rapid.IntRange(0, 3).Draw(d.T, "sold as") {
	case 0:
		return c.TaxedAs(rapid.SampledFrom([]string{"print", "frame", "pencil"}).Draw(d.T, "class"))
	case 1:
		parts := []channel.TaxedPart{{"rail", "print", d.money("part", 2000)}, {"oak frame", "frame", d.money("part", 2000)}, {"pencil", "", d.money("part", 900)}}
		return c.OfParts(parts[:rapid.IntRange(1, 3).Draw(d.T, "parts")]...)
	}
	return c
}

// inUnits makes the tag one of whole units, where the currency has no cents.
func (d draws) inUnits(c channel.Channel) channel.Channel {
	if c.ForeignCurrency == nil || c.PricePoints == nil || c.ForeignCurrency.Currency.Digits() >= 2 {
		return c
	}
	c.PricePoints.Step = c.PricePoints.Step.Round(0, quoin.Up)
	c.PricePoints.Every = c.PricePoints.Every.Round(0, quoin.Up)
	for i, e := range c.PricePoints.EndsIn {
		c.PricePoints.EndsIn[i] = e.Round(0, quoin.Down)
	}
	return c
}

func (d draws) offer(id string) promo.Offer {
	o := promo.Offer{ID: id, Test: rapid.SampledFrom([]promo.Test{"", promo.Before, promo.After}).Draw(d.T, "test")}
	if d.yes("threshold") {
		o.From = d.fine("offer from", 30)
	}
	if d.yes("some products") {
		o.Products = []string{"rail", rapid.SampledFrom([]string{"bittern", "heron"}).Draw(d.T, "other")}
	}
	if d.yes("rounded otherwise") {
		o.Rounding = quoin.Rounding(rapid.IntRange(0, 4).Draw(d.T, "rounding"))
	}
	switch rapid.IntRange(0, 4).Draw(d.T, "kind of offer") {
	case 0:
		o.Rate = d.rate("off", 900).Add(rate("0.1%"))
	case 1:
		o.Amount = d.fine("amount off", 9).Add(amount("0.0001"))
	case 2:
		o.Buy = rapid.Int64Range(2, 4).Draw(d.T, "buy")
		o.Free = rapid.Int64Range(1, o.Buy-1).Draw(d.T, "free")
	case 3:
		o.Sale = quoin.Some(d.fine("sale", 15))
	case 4:
		o.Price, o.Products = quoin.Some(d.money("set", 1500)), []string{"rail", "bittern"}
	}
	return o
}

func (d draws) order(id string) channel.Order {
	o := channel.Order{
		ID: id, Share: quoin.Some(d.rate("share", 900).Add(rate("1%"))), Items: rapid.Int64Range(0, 5).Draw(d.T, "items"),
		Shipping: d.money("shipping", 500), Postage: d.money("postage", 700), TaxRate: d.maybeRate("own tax", 250), Reorder: d.yes("reorder"),
		FreeFrom: d.maybeMoney("free from", 2500), FreeTest: rapid.SampledFrom([]promo.Test{"", promo.Before, promo.After}).Draw(d.T, "free test"),
	}
	if d.yes("own classes") {
		o.TaxClasses = []channel.TaxClass{{Class: "frame", Rate: d.rate("own tax of frames", 250)}}
	}
	for _, code := range rapid.Permutation([]string{"a", "b", "c"}).Draw(d.T, "codes") {
		if d.yes("takes it") {
			o.Codes = append(o.Codes, code)
		}
	}
	return o
}

func (d draws) fee() channel.Fee {
	f := fee(d.T, d.rate, d.money)
	f.Of = rapid.SampledFrom([][]channel.Part{
		nil,
		{channel.Shipping},
		{channel.Items, channel.SalesTax},
		{channel.Items, channel.Discount},
		{channel.Items, channel.Shipping, channel.SalesTax},
		{channel.Discount},
		{channel.Items, channel.Shipping, channel.SalesTax, channel.Discount},
		{channel.Items, channel.Shipping, channel.Surcharged, channel.SalesTax},
		{channel.Surcharged},
	}).Draw(d.T, "parts")
	f.WithoutTax, f.Expected = d.yes("net"), d.yes("expected")
	if d.yes("together") {
		f.OrdersTogether = quoin.MustFactor(rapid.SampledFrom([]string{"12", "0.02", "7", "2.5"}).Draw(d.T, "over"))
	}
	if d.yes("per item") {
		f.Per = quoin.PerItem
	}
	if d.yes("of some orders") {
		f.Orders = []string{rapid.SampledFrom([]string{"first", "second"}).Draw(d.T, "of orders")}
	}
	return f
}

func (d draws) tag() *channel.PricePoints {
	if d.yes("by steps") {
		return &channel.PricePoints{Step: d.money("tag step", 300).Add(amount("0.01"))}
	}
	g := channel.PricePoints{EndsIn: []quoin.Amount{d.money("ending", 99)}}
	if d.yes("two endings") {
		g.EndsIn = append(g.EndsIn, d.money("ending", 99))
	}
	if d.yes("every") {
		g.Every = d.money("tag modulus", 400).Add(amount("1"))
	}
	return &g
}

func (d draws) trade() *channel.Trade {
	w := channel.Trade{
		Freight:   rapid.SampledFrom([]channel.Freight{"", channel.Collect, channel.Added, channel.Prepaid, channel.Allowance}).Draw(d.T, "freight"),
		Allowance: d.rate("allowance", 300), FreeFrom: d.maybeMoney("trade free from", 2500),
		Agent: d.rate("agent", 200), AgentReorder: d.maybeRate("agent reorder", 200), Defects: d.rate("defects", 50),
	}
	w.Credit = channel.Credit{Days: rapid.Int64Range(0, 90).Draw(d.T, "days"), Interest: d.rate("money", 150), Bad: d.rate("bad", 50)}
	if d.yes("early payment") {
		w.Credit.Early, w.Credit.EarlyDays, w.Credit.Taken = d.rate("early", 50), rapid.Int64Range(1, 20).Draw(d.T, "early days"), d.maybeRate("taken", 1000)
		w.Credit.EarlyRounded = rapid.SampledFrom([]channel.RoundedFigure{"", channel.RoundedDue, channel.RoundedDiscount}).Draw(d.T, "early rounded")
	}
	return &w
}

func (d draws) consignment() *channel.Consignment {
	w := channel.Consignment{
		WithoutTax: d.yes("net commission"), Interest: d.rate("money", 150), Days: rapid.Int64Range(0, 90).Draw(d.T, "days"), LostPieces: d.rate("shop's loss", 100),
		Registered: rapid.SampledFrom([][]channel.Party{nil, {channel.Maker}, {channel.Shop}, {channel.Shop, channel.Maker}}).Draw(d.T, "registered"),
	}
	if d.yes("on maker") {
		w.OnMaker = quoin.Some(d.rate("mark-up", 2000))
	} else {
		w.Commission = quoin.Some(d.rate("commission", 1000))
	}
	if d.yes("costs first") {
		w.CostsFirst = d.money("costs first", 900)
	}
	if d.yes("shop discounts") {
		w.Discount = channel.Reduction{
			Rate: d.rate("shop's discount", 400), Share: d.maybeRate("discounted", 1000),
			Borne: rapid.SampledFrom([]channel.DiscountBearer{"", channel.Shared, channel.ByShop, channel.ByMaker}).Draw(d.T, "borne"),
		}
	}
	return &w
}

func (d draws) onDemand() *channel.OnDemand {
	w := channel.OnDemand{
		Pays: rapid.SampledFrom([]channel.Payout{channel.AboveBase, channel.Royalty, channel.ShareOfRest, channel.FlatFee}).Draw(d.T, "pays"),
		Rate: d.rate("royalty", 1000), WithoutTax: d.yes("net royalty"), CodesFromMaker: d.yes("codes from maker"),
	}
	if d.yes("size known") {
		w.Sizes = []channel.OnDemandProduct{{Product: "heron", Base: amount("3")}, {Product: "rail", Base: d.money("base", 1500), Flat: d.money("flat", 900)}}
	}
	return &w
}
