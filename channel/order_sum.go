package channel

import (
	"fmt"
	"iter"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// OrderFigures are the figures of one explained order, in the shop's currency.
type OrderFigures struct {
	Share, Count                   quoin.Operand
	Order                          Order // the kind of order
	Revenue, Tax, Fees, Fulfilment quoin.Operand
}

// Kinds returns one entry for each kind of order that Explain knows: its place in the channel's
// list, or −1 if it has none.
func (c Channel) Kinds() []int {
	kinds := c.kinds(0)
	out := make([]int, len(kinds))
	for i, k := range kinds {
		out[i] = k.index
	}
	return out
}

// Explain settles one order of kind i at a list price, step by step. The channel stands at a
// path, and the list price is an operand of the caller. It panics if there is no kind i; Kinds
// says how many there are.
func (c Channel) Explain(t *quoin.Trail, at quoin.Path, currency quoin.Currency, i int, list quoin.Operand) OrderFigures {
	kinds, e := c.explaining(t, currency)
	if i < 0 || i >= len(kinds) {
		panic(fmt.Sprintf("quoin: kind %d of order, of a channel with %d: Channel.Kinds says which it has", i, len(kinds)))
	}
	e.k = &kinds[i]
	return e.locate(at).explained(list)
}

// ExplainOrders is Explain for each kind of order in turn. The steps of one are on the trail when
// it is handed over, and those of the next are not yet.
func (c Channel) ExplainOrders(t *quoin.Trail, at quoin.Path, currency quoin.Currency, list quoin.Operand) iter.Seq2[int, OrderFigures] {
	return func(yield func(int, OrderFigures) bool) {
		kinds, e := c.explaining(t, currency)
		for i := range kinds {
			one := e
			one.k = &kinds[i]
			if !yield(i, one.locate(at).explained(list)) {
				return
			}
		}
	}
}

// explaining is what all kinds of order have in common that are settled on a trail.
func (c *Channel) explaining(t *quoin.Trail, currency quoin.Currency) ([]kind, order) {
	places := c.Money(currency).Digits()
	kinds := c.kinds(places)
	return kinds, order{Trail: t, c: c, taxed: &c.Tax, compiledFees: c.compiledFees(kinds, places), places: places}
}

// order is one kind of order that is settled on a trail. This is the definition of what
// it comes to: with steps where they are asked for, and on a silent trail else.
type order struct {
	*quoin.Trail
	c            *Channel
	taxed        *Tax // as the channel is
	k            *kind
	compiledFees []compiledFee
	at, place    quoin.Path // of the channel, of the kind of order
	places       int
	besides      *paid           // what the buyer pays for others, once it is known
	worths       []quoin.Operand // what the parts of an item come to, where that is not their prices
}

// locate says where the channel stands, and the kind of order in it.
func (e *order) locate(at quoin.Path) *order {
	e.at, e.place = at, at
	if e.k.index >= 0 {
		e.place = at.Sub("orders", e.k.index)
	}
	return e
}

// sale is an order without its fees, in the currency that buyers pay in.
type sale struct {
	count, unit, taxable, tax, revenue quoin.Operand
	paid                               paid
}

// explained is the order with its fees, in the shop's currency.
func (e *order) explained(list quoin.Operand) OrderFigures {
	e.On("")
	share := e.because(e.k.why.share, e.place, e.share())
	s := e.sale(list)
	fees := e.fees(&s, nil)
	sent := e.Quotient(StepFulfilment, e.place, e.ownOf(e.postage(), s.count), quoin.GivenOr("loss", e.at.Field("lost_parcels"), e.c.LostParcels.Figure(), !e.c.LostParcels.IsZero()).OneMinus())
	return OrderFigures{Order: e.k.Order, Share: share, Count: s.count, Revenue: e.home(s.revenue), Tax: e.home(s.tax), Fees: e.home(fees), Fulfilment: sent}
}

func (e *order) sale(list quoin.Operand) sale {
	s := sale{count: e.count(), unit: e.unit(list)}
	gross := e.gross(s.unit, s.count)
	n := e.k.given()
	p := &s.paid
	p.unreduced = e.left(gross, &s, 0, n)
	p.items = e.left(p.unreduced, &s, n, len(e.k.offers))
	p.shipping = e.shipping(gross, p.items, s.count, &p.shippingTax)
	if e.taxed.Of == OfFullPrice {
		p.full = e.Product(StepFull, e.place, s.unit, s.count)
	}
	s.tax = e.tax(&s)
	if p.tax = s.tax; e.taxed.InPrice {
		p.tax = zero("tax on top")
	}
	e.surcharge(p, s.count)
	paid := append(make([]quoin.Operand, 0, 4), p.items, p.shipping)
	if e.k.Surcharge != nil {
		s.tax = e.Sum(StepTax, e.place, s.tax, p.surchargeTax)
		paid = append(paid, p.surcharge)
	}
	if e.taxed.InPrice {
		s.revenue = e.Sum(StepRevenue, e.place, append(paid, s.tax.Minus())...)
		return s
	}
	p.tax = s.tax
	s.revenue = e.Sum(StepRevenue, e.place, paid...)
	return s
}

func (e *order) share() quoin.Operand {
	return quoin.GivenOr("share", e.place.Field("share"), e.k.source.ShareOr1().Figure(), !e.k.source.Share.IsZero())
}

func (e *order) count() quoin.Operand {
	return quoin.GivenOr("items", e.place.Field("items"), quoin.FactorOf(e.k.ItemsOr1()).Figure(), e.k.source.Items > 0)
}

// home is an amount in the shop's currency.
func (e *order) home(o quoin.Operand) quoin.Operand {
	if e.c.ForeignCurrency == nil {
		return o
	}
	return e.Product(StepHome, e.place, o, e.exchange())
}

func (e *order) exchange() quoin.Operand {
	return quoin.Given("rate", e.at.Sub("foreign_currency", -1).Field("rate"), e.c.Home().Figure())
}

func zero(name string) quoin.Operand { return quoin.Given(name, quoin.Path{}, quoin.Amount{}.Figure()) }

func (e *order) rate(name string, at quoin.Path, r quoin.Rate) quoin.Operand {
	return quoin.GivenOr(name, at.Field(name), r.Figure(), !r.IsZero())
}

func (e *order) unit(list quoin.Operand) quoin.Operand {
	price := append(make([]quoin.Operand, 0, 6), list, e.rate("uplift", e.at, e.c.Uplift).OnePlus())
	for i, d := range e.c.TradeDiscount {
		price = append(price, quoin.Given("trade discount", e.at.FieldAt("trade_discount", i), d.Figure()).OneMinus())
	}
	same := e.c.sameNet(e.k)
	if same {
		price = append(price, e.taxRate().OnePlus())
	}
	unit := e.Product(StepUnitPrice, e.place, price...)
	if same {
		unit = e.Quotient(StepUnitPrice, e.place, unit, e.channelRate().OnePlus())
	}
	if e.c.ForeignCurrency != nil {
		unit = e.Quotient(StepUnitPrice, e.place, unit, e.exchange())
	}
	switch {
	case e.c.PricePoints == nil:
		return e.Rounded(e.places, quoin.HalfUp, unit)
	case e.c.PricePoints.room().IsZero():
		return unit // price points that say nothing
	}
	return e.tagged(unit)
}

// tagged is the nearest price that can be asked: so many steps, or moduli and an
// ending.
func (e *order) tagged(unit quoin.Operand) quoin.Operand {
	at, a := e.at.Sub("price_points", -1), amountOf(unit)
	whole, ending := e.c.PricePoints.split(a)
	if len(e.c.PricePoints.EndsIn) == 0 {
		step := quoin.Given("step", at.Field("step"), e.c.PricePoints.Step.Figure())
		steps := e.Rounded(0, quoin.HalfUp, e.Quotient(StepPricePointSteps, at, unit, step))
		least := e.Greatest(StepPricePointSteps, at, steps, quoin.FactorOf(1).Named("at least one"))
		return e.Product(StepPricePoint, at, least, step)
	}
	modulus := quoin.GivenOr("every", at.Field("every"), e.c.PricePoints.modulus().Figure(), !e.c.PricePoints.Every.IsZero())
	moduli := e.Rounded(0, quoin.Down, e.Quotient(StepPricePointSteps, at, unit, modulus))
	if more := whole.Sub(moduli.Value.Factor()); !more.IsZero() {
		moduli = e.Sum(StepPricePointSteps, at, moduli, more.Named("to the nearest"))
	}
	return e.Weighted(StepPricePoint, at, moduli, modulus, quoin.FactorOf(1).Named("one"), quoin.Given("ending", at.FieldAt("ends_in", slices.IndexFunc(e.c.PricePoints.EndsIn, ending.Equal)), ending.Figure()))
}

func amountOf(o quoin.Operand) quoin.Amount {
	a, _ := o.Value.Amount()
	return a
}

// gross is what the items come to before codes.
func (e *order) gross(unit, count quoin.Operand) quoin.Operand {
	return e.Rounded(e.places, quoin.HalfUp,
		e.Product(StepItems, e.place, unit, count, e.rate("promotion", e.at, e.c.Promotion).OneMinus()))
}

// left is what items still come to after the codes from one to another.
func (e *order) left(items quoin.Operand, s *sale, from, to int) quoin.Operand {
	if from == to {
		return items
	}
	if e.k.Others != nil {
		return e.leftBeside(items, s, from, to)
	}
	offers := make([]promo.Offer, to-from)
	for i := range offers {
		offers[i] = e.k.offers[from+i].Offer
	}
	return promo.Explain(e.Trail, func(i int) quoin.Path { return e.k.offers[from+i].at(e.at) }, items, s.unit, s.count, offers, e.places)
}

// discount is what promotions took off, where a fee is taken of it.
func (e *order) discount(s *sale) quoin.Operand {
	for i := range e.compiledFees {
		if l := &e.compiledFees[i]; slices.Contains(l.Of, Discount) && l.on(e.k) {
			full := e.Product(StepFull, e.place, s.unit, s.count)
			return e.Sum(StepDiscount, e.place, full, s.paid.items.Minus())
		}
	}
	return quoin.Operand{}
}

// shipping is what the buyer is charged for own items. Where goods have several rates, it tells
// the tax of that.
func (e *order) shipping(gross, items, count quoin.Operand, tax *quoin.Operand) quoin.Operand {
	all := e.shippingOfAll(gross, items)
	if e.k.Others == nil {
		return all
	}
	own := e.Rounded(e.places, quoin.HalfUp, e.ownOf(all, count))
	var rest quoin.Operand
	if e.k.mixed {
		*tax, rest = e.shareShippingTax(all, items, count)
	}
	e.besides = e.others(all, own, rest)
	return own
}

func (e *order) shippingOfAll(gross, items quoin.Operand) quoin.Operand {
	charged := e.because(e.k.why.shipping, e.place, quoin.GivenOr("shipping", e.place.Field("shipping"), e.k.source.Shipping.Figure(), !e.k.source.Shipping.IsZero()))
	from, given := e.k.FreeFrom.Get()
	if !given {
		return charged
	}
	tested, at := items, e.place
	if e.k.FreeTest == promo.Before {
		tested = gross
	}
	if e.k.freeAt != "" {
		at = e.at.Sub(e.k.freeAt, -1)
	}
	return e.Below(StepShipping, e.place, charged, e.whole(tested), quoin.Given("free from", at.Field("free_from"), from.Figure()))
}

// freight is the postage that a shop is charged, in the currency it pays in.
func (e *order) freight(quoin.Path) quoin.Operand {
	postage := e.given("postage", e.place, e.k.source.Postage)
	if e.c.ForeignCurrency == nil {
		return e.Rounded(e.places, quoin.HalfUp, e.Sum(StepFreight, e.place, postage))
	}
	return e.Rounded(e.places, quoin.HalfUp, e.Quotient(StepFreight, e.place, postage, e.exchange()))
}

func (e *order) given(name string, at quoin.Path, a quoin.Amount) quoin.Operand {
	if o, ok := e.Rested(name, at.Field(name)); ok {
		return o
	}
	return quoin.GivenOr(name, at.Field(name), a.Figure(), !a.IsZero())
}

func (e *order) postage() quoin.Operand {
	return e.because(e.k.why.postage, e.place, e.given("postage", e.place, e.k.source.Postage))
}
