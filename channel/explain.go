package channel

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// Codes of the steps that explain a settlement. They stand at the kind of order
// or at the fee that they belong to.
const (
	StepUnitPrice  quoin.StepCode = "unit_price" // list × (1 + uplift) × each (1 − trade discount)
	StepSteps      quoin.StepCode = "tag_steps"  // in whole steps, or moduli, of the tag
	StepTagged     quoin.StepCode = "tag_price"  // the nearest price that can be asked
	StepItems      quoin.StepCode = "items"      // unit price × count × (1 − promotion)
	StepFull       quoin.StepCode = "full_price" // unit price × count
	StepDiscount   quoin.StepCode = "discount"   // full price − items
	StepShipping   quoin.StepCode = "shipping"   // where items stay below free from
	StepTaxable    quoin.StepCode = "taxable"
	StepTax        quoin.StepCode = "tax"
	StepRevenue    quoin.StepCode = "order_revenue" // items + shipping − tax in them
	StepBase       quoin.StepCode = "fee_base"
	StepBaseTax    quoin.StepCode = "fee_base_tax" // the tax in it
	StepTogether   quoin.StepCode = "fee_together" // base × the orders charged together
	StepFrom       quoin.StepCode = "fee_from"     // where a tier begins: its from × items
	StepSlice      quoin.StepCode = "fee_slice"    // the part of the base in one tier
	StepRated      quoin.StepCode = "fee_rated"    // rate, or the rates of tiers, of the base
	StepFixed      quoin.StepCode = "fee_fixed"    // fixed, of the fee or of a tier, × items
	StepCharge     quoin.StepCode = "fee_charge"
	StepAtLeast    quoin.StepCode = "fee_at_least"
	StepAtMost     quoin.StepCode = "fee_at_most"
	StepFeeTax     quoin.StepCode = "fee_tax"
	StepApart      quoin.StepCode = "fee_apart"  // one order's part of it
	StepFee        quoin.StepCode = "fee"        // as it counts: with its tax, times its share
	StepFees       quoin.StepCode = "order_fees" // all fees of the order
	StepFulfilment quoin.StepCode = "order_fulfilment"
	StepHome       quoin.StepCode = "in_shop_currency" // × the rate of the channel's currency

	// What ways of selling come to.
	StepFreight  quoin.StepCode = "freight_charged" // postage, in the currency that buyers pay in
	StepShare    quoin.StepCode = "share_of_orders" // of those with a discount, or without
	StepTakes    quoin.StepCode = "shops_share"     // mark-up ÷ (1 + mark-up)
	StepWaits    quoin.StepCode = "days_waited"
	StepCarrying quoin.StepCode = "cost_of_waiting" // money × days ÷ 365
	StepKeeps    quoin.StepCode = "house_keeps"     // 1 − the maker's rate
	StepFirst    quoin.StepCode = "comes_first"     // an amount for each item × items
	StepStays    quoin.StepCode = "fee_stays"       // 1 − the share that refunds bring back
	StepReturned quoin.StepCode = "fee_returned"    // returned × part × fees
	StepSurvives quoin.StepCode = "arrives"         // of the goods: 1 − each loss, multiplied
	StepLost     quoin.StepCode = "goods_lost"
)

// IsFee reports whether a step belongs to a fee.
func IsFee(s quoin.Step) bool {
	switch s.Code {
	case StepBase, StepBaseTax, StepTogether, StepApart, StepFrom, StepSlice, StepRated, StepFixed, StepCharge, StepAtLeast, StepAtMost, StepFeeTax, StepFee, StepFees:
		return true
	}
	return false
}

// Settled is the figures of one explained order, in the shop's currency.
type Settled struct {
	Share, Count                   quoin.Operand
	Revenue, Tax, Fees, Fulfilment quoin.Operand
}

// Kinds returns how many kinds of order Explain knows, and for each where it
// stands in the channel's list, −1 where it has none.
func (c Channel) Kinds() []int {
	kinds := c.kinds(0)
	out := make([]int, len(kinds))
	for i, k := range kinds {
		out[i] = k.index
	}
	return out
}

// Explain settles one order of kind i at a list price, step by step. The
// channel stands at a path; the list price is an operand of the caller's. It panics
// where there is no kind i: Kinds says how many there are.
func (c Channel) Explain(t *quoin.Trail, at quoin.Path, currency quoin.Currency, i int, list quoin.Operand) Settled {
	e := explainer{Trail: t, c: c, at: at, order: at, places: c.Money(currency).Digits()}
	kinds := c.kinds(e.places)
	if i < 0 || i >= len(kinds) {
		panic(fmt.Sprintf("quoin: kind %d of order, of a channel with %d: Channel.Kinds says which it has", i, len(kinds)))
	}
	e.k, e.levies = &kinds[i], c.levies(kinds, e.places)
	if e.k.index >= 0 {
		e.o, e.order = c.Orders[e.k.index], at.Sub("orders", e.k.index)
	}
	return e.settle(list)
}

type explainer struct {
	*quoin.Trail
	c         Channel
	o         Order // as it is given
	k         *kind
	levies    []levy
	at, order quoin.Path // of the channel, of the kind of order
	places    int
}

func (e explainer) settle(list quoin.Operand) Settled {
	e.On("")
	s := Settled{
		Share: e.because(e.k.why.share, e.order, quoin.GivenOr("share", e.order.Field("share"), e.o.ShareOr1().Figure(), !e.o.Share.IsZero())),
		Count: e.count(),
	}
	unit := e.unit(list)
	gross, given, items := e.items(unit, s.Count)
	shipping := e.shipping(gross, items)
	s.Tax = e.tax(items, shipping)
	onTop := s.Tax
	revenue := []quoin.Operand{items, shipping}
	if e.c.Tax.InPrice {
		revenue = append(revenue, s.Tax.Minus())
		onTop = zero("tax on top")
	}
	s.Revenue = e.Sum(StepRevenue, e.order, revenue...)
	paid := map[Part]quoin.Operand{Items: items, Shipping: shipping, SalesTax: onTop}
	paid[unreduced] = given
	paid[Discount] = e.discount(unit, s.Count, items)
	s.Fees = e.fees(paid, s.Count)
	s.Fulfilment = e.Quotient(StepFulfilment, e.order, e.postage(), e.rate("loss", e.at, e.c.Loss).OneMinus())
	s.Revenue, s.Tax, s.Fees = e.home(s.Revenue), e.home(s.Tax), e.home(s.Fees)
	return s
}

func (e explainer) count() quoin.Operand {
	return quoin.GivenOr("items", e.order.Field("items"), quoin.FactorOf(e.k.ItemsOr1()).Figure(), e.o.Items > 0)
}

// home is an amount in the shop's currency.
func (e explainer) home(o quoin.Operand) quoin.Operand {
	if e.c.Abroad == nil {
		return o
	}
	return e.Product(StepHome, e.order, o, e.exchange())
}

func (e explainer) exchange() quoin.Operand {
	return quoin.Given("rate", e.at.Sub("abroad", -1).Field("rate"), e.c.Home().Figure())
}

func zero(name string) quoin.Operand {
	return quoin.Given(name, quoin.Path{}, quoin.Amount{}.Figure())
}

func (e explainer) rate(name string, at quoin.Path, r quoin.Rate) quoin.Operand {
	return quoin.GivenOr(name, at.Field(name), r.Figure(), !r.IsZero())
}

func (e explainer) unit(list quoin.Operand) quoin.Operand {
	price := []quoin.Operand{list, e.rate("uplift", e.at, e.c.Uplift).OnePlus()}
	for i, d := range e.c.TradeDiscount {
		price = append(price, quoin.Given("trade discount", e.at.FieldAt("trade_discount", i), d.Figure()).OneMinus())
	}
	same := e.c.sameNet(e.k)
	if same {
		price = append(price, e.taxRate().OnePlus())
	}
	unit := e.Product(StepUnitPrice, e.order, price...)
	if same {
		unit = e.Quotient(StepUnitPrice, e.order, unit, e.channelRate().OnePlus())
	}
	if e.c.Abroad != nil {
		unit = e.Quotient(StepUnitPrice, e.order, unit, e.exchange())
	}
	if e.c.Tag == nil {
		return e.Rounded(e.places, quoin.HalfUp, unit)
	}
	return e.tagged(unit)
}

// tagged is the nearest price that can be asked: so many steps, or moduli and an
// ending.
func (e explainer) tagged(unit quoin.Operand) quoin.Operand {
	at, a := e.at.Sub("tag", -1), amountOf(unit)
	whole, ending := e.c.Tag.split(a)
	if len(e.c.Tag.Of) == 0 {
		step := quoin.Given("step", at.Field("step"), e.c.Tag.Step.Figure())
		steps := e.Rounded(0, quoin.HalfUp, e.Quotient(StepSteps, at, unit, step))
		least := e.Greatest(StepSteps, at, steps, quoin.FactorOf(1).Called("at least one"))
		return e.Product(StepTagged, at, least, step)
	}
	modulus := quoin.GivenOr("modulus", at.Field("modulus"), e.c.Tag.modulus().Figure(), !e.c.Tag.Modulus.IsZero())
	moduli := e.Rounded(0, quoin.Down, e.Quotient(StepSteps, at, unit, modulus))
	if more := whole.Sub(moduli.Value.Factor()); !more.IsZero() {
		moduli = e.Sum(StepSteps, at, moduli, more.Called("to the nearest"))
	}
	return e.Weighted(StepTagged, at, moduli, modulus, quoin.FactorOf(1).Called("one"), quoin.Given("ending", at.Field("of"), ending.Figure()))
}

func amountOf(o quoin.Operand) quoin.Amount {
	a, _ := o.Value.Amount()
	return a
}

// items explains what they come to before codes, after those that the maker gives,
// and after all.
func (e explainer) items(unit, count quoin.Operand) (gross, given, items quoin.Operand) {
	gross = e.Rounded(e.places, quoin.HalfUp,
		e.Product(StepItems, e.order, unit, count, e.rate("promotion", e.at, e.c.Promotion).OneMinus()))
	if len(e.k.offers) == 0 {
		return gross, gross, gross
	}
	offers := make([]promo.Offer, len(e.k.offers))
	for i, o := range e.k.offers {
		offers[i] = o.Offer
	}
	n := e.k.given()
	given = promo.Explain(e.Trail, func(i int) quoin.Path { return e.k.offers[i].at(e.at) }, gross, unit, count, offers[:n], e.places)
	items = promo.Explain(e.Trail, func(i int) quoin.Path { return e.k.offers[n+i].at(e.at) }, given, unit, count, offers[n:], e.places)
	e.On("")
	return gross, given, items
}

// discount explains what promotions took off, where a fee is taken of it.
func (e explainer) discount(unit, count, items quoin.Operand) quoin.Operand {
	for _, l := range e.levies {
		for _, p := range l.Of {
			if p == Discount && l.on(e.k) {
				full := e.Product(StepFull, e.order, unit, count)
				return e.Sum(StepDiscount, e.order, full, items.Minus())
			}
		}
	}
	return quoin.Operand{}
}

func (e explainer) shipping(gross, items quoin.Operand) quoin.Operand {
	charged := e.because(e.k.why.shipping, e.order, quoin.GivenOr("shipping", e.order.Field("shipping"), e.o.Shipping.Figure(), !e.o.Shipping.IsZero()))
	from, given := e.k.FreeFrom.Get()
	if !given {
		return charged
	}
	tested, at := items, e.order
	if e.k.FreeTest == promo.Before {
		tested = gross
	}
	if e.k.freeAt != "" {
		at = e.at.Sub(e.k.freeAt, -1)
	}
	return e.Below(StepShipping, e.order, charged, tested, quoin.Given("free from", at.Field("free_from"), from.Figure()))
}

// freight is the postage that a shop is charged, in the currency it pays in.
func (e explainer) freight(quoin.Path) quoin.Operand {
	postage := e.given("postage", e.order, e.o.Postage)
	if e.c.Abroad == nil {
		return e.Rounded(e.places, quoin.HalfUp, e.Sum(StepFreight, e.order, postage))
	}
	return e.Rounded(e.places, quoin.HalfUp, e.Quotient(StepFreight, e.order, postage, e.exchange()))
}

func (e explainer) given(name string, at quoin.Path, a quoin.Amount) quoin.Operand {
	if o, ok := e.Rested(name, at.Field(name)); ok {
		return o
	}
	return quoin.GivenOr(name, at.Field(name), a.Figure(), !a.IsZero())
}

func (e explainer) postage() quoin.Operand {
	return e.because(e.k.why.postage, e.order, e.given("postage", e.order, e.o.Postage))
}

func (e explainer) channelRate() quoin.Operand {
	return e.rate("rate", e.at.Sub("tax", -1), e.c.Tax.Rate).Called("tax rate")
}

func (e explainer) taxRate() quoin.Operand {
	if e.k.why.tax != nil {
		return e.k.why.tax(e, e.order)
	}
	if own, given := e.o.TaxRate.Get(); given {
		return quoin.Given("tax rate", e.order.Field("tax_rate"), own.Figure())
	}
	return e.channelRate()
}

func (e explainer) tax(items, shipping quoin.Operand) quoin.Operand {
	taxable := items
	if e.c.Tax.OnShipping {
		taxable = e.Sum(StepTaxable, e.order, items, shipping)
	}
	rate := e.taxRate()
	if e.c.Tax.InPrice {
		return e.Rounded(e.places, quoin.HalfUp, e.Quotient(StepTax, e.order, taxable, rate, rate.OnePlus()))
	}
	return e.Rounded(e.places, quoin.HalfUp, e.Product(StepTax, e.order, taxable, rate))
}
