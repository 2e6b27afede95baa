package channel

import "example.com/quoin"

// Surcharge is what a buyer pays extra for how the order is paid, such as by card. It is revenue,
// it is taxed by itself, and fees are taken of it where they name it. 2% on 20.00 with 5.00 of
// shipping is 0.50.
//
// Many places forbid it, or bound it by what the payment costs.
type Surcharge struct {
	// Share of all else that the buyer pays: items after discounts, shipping, and tax on top of
	// them.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// Added to that, once an order, in the currency that buyers pay in. Both together are rounded
	// to money, half up.
	Fixed quoin.Amount `json:"fixed,omitzero" range:"[0,"`
	// Rate of tax on it: in it where prices hold the tax, on top else. Where it is not given, the
	// rate of the order for what has no class.
	TaxRate quoin.Optional[quoin.Rate] `json:"tax_rate,omitzero" range:"[0,1]"`
}

// surcharged fills in how the surcharge of a kind of order is taxed.
func (c *Channel) surcharged(k *kind) {
	if k.Surcharge == nil {
		return
	}
	k.surchargeTax = k.ofAmount(k.Surcharge.TaxRate.Or(c.rateOn(k, "")))
}

// surcharge is what own items bear of the surcharge of an order, and the tax in that or on top of
// it. What is paid beside it stands in p.
func (e *order) surcharge(p *paid, count quoin.Operand) {
	none := func(p *paid) { p.surcharge, p.surchargeTax = zero("surcharge"), zero("tax on the surcharge") }
	if e.k.Surcharge == nil {
		if none(p); e.besides != nil {
			none(e.besides)
		}
		return
	}
	at := e.place.Inside("surcharge")
	fixed := quoin.GivenOr("fixed", at.Field("fixed"), e.k.Surcharge.Fixed.Figure(), !e.k.Surcharge.Fixed.IsZero())
	rate := e.rate("rate", at, e.k.Surcharge.Rate)
	own := e.ownOf(fixed, count)
	p.surcharge = e.surchargeOf(at, p, rate, own)
	p.surchargeTax = e.surchargeTaxOf(at, p)
	if b := e.besides; b != nil {
		b.surcharge = e.surchargeOf(at, b, rate, e.Sum(StepOthersSurcharge, at, fixed, own.Minus()))
		if b.surchargeTax = e.surchargeTaxOf(at, b); !e.taxed.InPrice {
			b.tax = e.Sum(StepTax, at, b.tax, b.surchargeTax)
		}
	}
}

// surchargeOf is a rate of what is paid beside the surcharge, and a fixed amount.
func (e *order) surchargeOf(at quoin.Path, p *paid, rate, fixed quoin.Operand) quoin.Operand {
	if rate.Value.Factor().IsZero() {
		return e.Rounded(e.places, quoin.HalfUp, e.Sum(StepSurcharge, at, fixed))
	}
	beside := e.Sum(StepBeforeSurcharge, at, p.items, p.shipping, p.tax)
	return e.Rounded(e.places, quoin.HalfUp, e.Sum(StepSurcharge, at, e.Product(StepSurchargeRated, at, beside, rate), fixed))
}

func (e *order) surchargeTaxOf(at quoin.Path, p *paid) quoin.Operand {
	return e.roundedTax(StepSurchargeTax, at, p.surcharge, e.surchargeTaxRate(at))
}

// surchargeTaxRate is the rate of tax on the surcharge.
func (e *order) surchargeTaxRate(at quoin.Path) quoin.Operand {
	if rate, given := e.k.Surcharge.TaxRate.Get(); given {
		return quoin.Given("tax rate", at.Field("tax_rate"), rate.Figure())
	}
	return e.rateOf("")
}

// withSurcharge adds a surcharge and its tax to the lines of an order.
func (c kindCurve) withSurcharge(l saleLines, s Settlement) saleLines {
	u := c.k().Surcharge
	if u == nil {
		return l
	}
	l.surcharge = level(s.Surcharge)
	if !u.Rate.IsZero() {
		fixed := c.k().OfOrder(u.Fixed)
		l.surcharge = c.cents(l.items.plus(l.shipping).plus(l.tax).times(u.Rate.Factor()).plus(level(fixed)))
	}
	l.surchargeTax = level(s.SurchargeTax)
	if !u.Rate.IsZero() && !c.k().surchargeTax.IsZero() {
		l.surchargeTax = l.surcharge.times(c.k().surchargeTax).loosen(c.roomOf(c.t.channel.Tax.Rounding))
	}
	l.revenue = l.revenue.plus(l.surcharge)
	if c.t.inPrice {
		l.revenue = l.revenue.minus(l.surchargeTax)
	} else {
		l.tax = l.tax.plus(l.surchargeTax)
	}
	return l
}
