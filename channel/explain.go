package channel

import "example.com/quoin"

// Codes of the steps that explain a settlement. They stand at the kind of order
// or at the fee that they belong to.
const (
	StepUnitPrice  quoin.StepCode = "unit_price" // list × (1 + uplift) × each (1 − trade discount)
	StepItems      quoin.StepCode = "items"      // unit price × count × (1 − promotion)
	StepShipping   quoin.StepCode = "shipping"   // where items stay below free from
	StepTaxable    quoin.StepCode = "taxable"
	StepTax        quoin.StepCode = "tax"
	StepRevenue    quoin.StepCode = "order_revenue" // items + shipping − tax in them
	StepBase       quoin.StepCode = "fee_base"
	StepSlice      quoin.StepCode = "fee_slice" // the part of the base in one tier
	StepRated      quoin.StepCode = "fee_rated" // rate, or tiers, of the base
	StepFixed      quoin.StepCode = "fee_fixed" // fixed × items
	StepCharge     quoin.StepCode = "fee_charge"
	StepAtLeast    quoin.StepCode = "fee_at_least"
	StepAtMost     quoin.StepCode = "fee_at_most"
	StepFeeTax     quoin.StepCode = "fee_tax"
	StepFee        quoin.StepCode = "fee"        // as it counts: with its tax, times its share
	StepFees       quoin.StepCode = "order_fees" // all fees of the order
	StepFulfilment quoin.StepCode = "order_fulfilment"
)

// IsFee reports whether a step belongs to a fee.
func IsFee(s quoin.Step) bool {
	switch s.Code {
	case StepBase, StepSlice, StepRated, StepFixed, StepCharge, StepAtLeast, StepAtMost, StepFeeTax, StepFee, StepFees:
		return true
	}
	return false
}

// Settled is the figures of one explained order.
type Settled struct {
	Share, Count                   quoin.Operand
	Revenue, Tax, Fees, Fulfilment quoin.Operand
}

// Explain settles one order of kind i at a list price, step by step. The
// channel stands at a path; the list price is an operand of the caller's.
func (c Channel) Explain(t *quoin.Trail, at quoin.Path, currency quoin.Currency, i int, list quoin.Operand) Settled {
	e := explainer{Trail: t, c: c, at: at, order: at, places: currency.Digits()}
	if len(c.Orders) > 0 {
		e.o, e.order = c.Orders[i], at.Sub("orders", i)
	}
	return e.settle(list)
}

type explainer struct {
	*quoin.Trail
	c         Channel
	o         Order
	at, order quoin.Path // of the channel, of the kind of order
	places    int
}

func (e explainer) settle(list quoin.Operand) Settled {
	e.On("")
	s := Settled{
		Share: quoin.GivenOr("share", e.order.Field("share"), e.o.ShareOr1().Figure(), !e.o.Share.IsZero()),
		Count: quoin.GivenOr("items", e.order.Field("items"), quoin.FactorOf(e.o.ItemsOr1()).Figure(), e.o.Items > 0),
	}
	items := e.items(list, s.Count)
	shipping := e.shipping(items)
	s.Tax = e.tax(items, shipping)
	onTop := s.Tax
	revenue := []quoin.Operand{items, shipping}
	if e.c.Tax.InPrice {
		revenue = append(revenue, s.Tax.Minus())
		onTop = zero("tax on top")
	}
	s.Revenue = e.Sum(StepRevenue, e.order, revenue...)
	s.Fees = e.fees(map[Part]quoin.Operand{Items: items, Shipping: shipping, SalesTax: onTop}, s.Count)
	s.Fulfilment = e.Quotient(StepFulfilment, e.order,
		quoin.GivenOr("postage", e.order.Field("postage"), e.o.Postage.Figure(), !e.o.Postage.IsZero()),
		e.rate("loss", e.at, e.c.Loss).OneMinus())
	return s
}

func zero(name string) quoin.Operand {
	return quoin.Given(name, quoin.Path{}, quoin.Amount{}.Figure())
}

func (e explainer) rate(name string, at quoin.Path, r quoin.Rate) quoin.Operand {
	return quoin.GivenOr(name, at.Field(name), r.Figure(), !r.IsZero())
}

func (e explainer) items(list, count quoin.Operand) quoin.Operand {
	price := []quoin.Operand{list, e.rate("uplift", e.at, e.c.Uplift).OnePlus()}
	for i, d := range e.c.TradeDiscount {
		price = append(price, quoin.Given("trade discount", e.at.FieldAt("trade_discount", i), d.Figure()).OneMinus())
	}
	unit := e.Rounded(e.places, quoin.HalfUp, e.Product(StepUnitPrice, e.order, price...))
	return e.Rounded(e.places, quoin.HalfUp,
		e.Product(StepItems, e.order, unit, count, e.rate("promotion", e.at, e.c.Promotion).OneMinus()))
}

func (e explainer) shipping(items quoin.Operand) quoin.Operand {
	charged := quoin.GivenOr("shipping", e.order.Field("shipping"), e.o.Shipping.Figure(), !e.o.Shipping.IsZero())
	from, given := e.o.FreeFrom.Get()
	if !given {
		return charged
	}
	return e.Below(StepShipping, e.order, charged, items, quoin.Given("free from", e.order.Field("free_from"), from.Figure()))
}

func (e explainer) tax(items, shipping quoin.Operand) quoin.Operand {
	taxable := items
	if e.c.Tax.OnShipping {
		taxable = e.Sum(StepTaxable, e.order, items, shipping)
	}
	rate := e.rate("rate", e.at.Sub("tax", -1), e.c.Tax.Rate).Called("tax rate")
	if own, given := e.o.TaxRate.Get(); given {
		rate = quoin.Given("tax rate", e.order.Field("tax_rate"), own.Figure())
	}
	if e.c.Tax.InPrice {
		return e.Rounded(e.places, quoin.HalfUp, e.Quotient(StepTax, e.order, taxable, rate, rate.OnePlus()))
	}
	return e.Rounded(e.places, quoin.HalfUp, e.Product(StepTax, e.order, taxable, rate))
}

func (e explainer) fees(paid map[Part]quoin.Operand, count quoin.Operand) quoin.Operand {
	if len(e.c.Fees) == 0 {
		return zero(string(StepFees))
	}
	fees := make([]quoin.Operand, len(e.c.Fees))
	for i, f := range e.c.Fees {
		fees[i] = e.fee(f, e.at.Sub("fees", i), paid, count)
	}
	e.On("")
	return e.Sum(StepFees, e.order, fees...)
}

func (e explainer) fee(f Fee, at quoin.Path, paid map[Part]quoin.Operand, count quoin.Operand) quoin.Operand {
	e.On(f.Name)
	base := paid[Items]
	if len(f.Of) > 0 {
		parts := make([]quoin.Operand, len(f.Of))
		for i, part := range f.Of {
			parts[i] = paid[part]
		}
		base = e.Sum(StepBase, at, parts...)
	}
	fixed := quoin.GivenOr("fixed", at.Field("fixed"), f.Fixed.Figure(), !f.Fixed.IsZero())
	if f.Per == quoin.PerItem {
		fixed = e.Product(StepFixed, at, fixed, count)
	}
	charge := e.Sum(StepCharge, at, e.rated(f, at, base), fixed)
	if !f.AtLeast.IsZero() {
		charge = e.Greatest(StepAtLeast, at, charge, quoin.Given("at least", at.Field("at_least"), f.AtLeast.Figure()))
	}
	if most, given := f.AtMost.Get(); given {
		charge = e.Least(StepAtMost, at, charge, quoin.Given("at most", at.Field("at_most"), most.Figure()))
	}
	charge = e.Rounded(e.places, f.Rounding, charge)
	if !f.Tax.IsZero() {
		tax := e.Rounded(e.places, f.Rounding, e.Product(StepFeeTax, at, charge, e.rate("tax", at, f.Tax)))
		charge = e.Sum(StepCharge, at, charge, tax)
	}
	share := quoin.GivenOr("share", at.Field("share"), f.Share.Or(whole).Figure(), !f.Share.IsZero())
	return e.Product(StepFee, at, charge, share).Called(f.Name)
}

// rated is what the fee's rate or tiers take of the base.
func (e explainer) rated(f Fee, at quoin.Path, base quoin.Operand) quoin.Operand {
	if len(f.Tiers) == 0 {
		return e.Product(StepRated, at, base, e.rate("rate", at, f.Rate))
	}
	size, _ := base.Value.Amount()
	var slices []quoin.Operand
	for i, tier := range f.Tiers {
		from := quoin.Given("from", at.FieldAt("tiers", i), tier.From.Figure())
		rate := quoin.Given("tier rate", at.FieldAt("tiers", i), tier.Rate.Figure())
		last := i+1 == len(f.Tiers) || f.Tiers[i+1].From.Cmp(size) > 0
		switch {
		case f.TierMode == Whole && last && tier.From.Cmp(size) <= 0:
			return e.Product(StepRated, at, base, rate)
		case f.TierMode == Whole || tier.From.Cmp(size) >= 0:
			continue
		}
		top := base
		if i+1 < len(f.Tiers) && f.Tiers[i+1].From.Cmp(size) < 0 {
			top = quoin.Given("next from", at.FieldAt("tiers", i+1), f.Tiers[i+1].From.Figure())
		}
		slices = append(slices, e.Sum(StepSlice, at, top, from.Minus()), rate)
	}
	if len(slices) == 0 {
		return zero("below every tier")
	}
	return e.Weighted(StepRated, at, slices...)
}
