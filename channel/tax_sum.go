package channel

import (
	"slices"

	"example.com/quoin"
)

// taxed is what a tax is taken of: goods, so many items of them, and shipping.
type taxed struct {
	goods, count quoin.Operand
	shipping     quoin.Operand
	isShipped    bool // shipping is taxed
	// shippingTax is the tax of it, where goods of the order have several rates.
	shippingTax quoin.Operand
}

// channelRate is the rate that the channel gives for what is sold.
func (e *order) channelRate() quoin.Operand {
	at := e.at.Sub("tax", -1)
	if i := classIn(e.taxed.Classes, e.k.class); i >= 0 {
		return quoin.Given("tax rate", at.Sub("classes", i).Field("rate"), e.taxed.Classes[i].Rate.Figure())
	}
	return e.serviceRate()
}

// serviceRate is the channel's rate of what has no class, such as a shop's commission.
func (e *order) serviceRate() quoin.Operand {
	return e.rate("rate", e.at.Sub("tax", -1), e.taxed.Rate).Named("tax rate")
}

func (e *order) taxRate() quoin.Operand { return e.rateOf(e.k.class) }

// rateOf is the rate of a class on the order, where the document gives it.
func (e *order) rateOf(class string) quoin.Operand {
	if e.k.why.tax != nil {
		return e.k.why.tax(e, e.place)
	}
	own := e.k.source
	if i := classIn(own.TaxClasses, class); i >= 0 {
		return quoin.Given("tax rate", e.place.Sub("tax_classes", i).Field("rate"), own.TaxClasses[i].Rate.Figure())
	}
	if rate, given := own.TaxRate.Get(); given {
		return quoin.Given("tax rate", e.place.Field("tax_rate"), rate.Figure())
	}
	if i := classIn(e.taxed.Classes, class); i >= 0 {
		return quoin.Given("tax rate", e.at.Sub("tax", -1).Sub("classes", i).Field("rate"), e.taxed.Classes[i].Rate.Figure())
	}
	return e.serviceRate()
}

// tax is the tax of the order, in its prices or on top.
func (e *order) tax(s *sale) quoin.Operand {
	goods := s.paid.items
	if e.taxed.Of == OfFullPrice {
		goods = s.paid.full
	}
	s.taxable = goods
	if e.taxed.OnShipping {
		s.taxable = e.Sum(StepTaxable, e.place, goods, s.paid.shipping)
	}
	if e.inOne() {
		return e.roundedTax(StepTax, e.place, s.taxable, e.taxRate())
	}
	return e.parted(StepTax, e.place, taxed{goods, s.count, s.paid.shipping, e.taxed.OnShipping, s.paid.shippingTax})
}

// inOne reports whether the tax of an order is one rounded figure.
func (e *order) inOne() bool {
	return len(e.k.parts) == 0 && !e.k.mixed && (e.k.tax.IsZero() || e.taxed.Per == "" || e.taxed.Per == PerTaxedOrder)
}

// roundedTax is the tax in an amount, or on top of it, rounded to money: it, or what is left.
func (e *order) roundedTax(code quoin.StepCode, at quoin.Path, of, rate quoin.Operand) quoin.Operand {
	how := e.taxed.Rounding
	switch {
	case !e.taxed.InPrice:
		return e.Rounded(e.places, how, e.Product(code, at, of, rate))
	case e.taxed.Rounded != RoundedNet || rate.Value.Factor().IsZero():
		return e.Rounded(e.places, how, e.Quotient(code, at, of, rate, rate.OnePlus()))
	}
	net := e.Rounded(e.places, how, e.Quotient(StepTaxNet, at, of, rate.OnePlus()))
	return e.Sum(code, at, of, net.Minus())
}

// parted is a tax that is rounded in parts: by line, by item, or by rate.
func (e *order) parted(code quoin.StepCode, at quoin.Path, of taxed) quoin.Operand {
	var taxes []quoin.Operand
	isShared := of.isShipped && e.k.mixed
	of.isShipped = of.isShipped && !isShared
	switch {
	case len(e.k.parts) > 0:
		taxes = e.taxOfParts(at, of)
	default:
		rate := e.taxRate()
		if e.taxed.Per == PerTaxedUnit {
			taxes = append(taxes, e.taxOfUnits(at, of, rate))
		} else {
			taxes = append(taxes, e.roundedTax(StepTaxLine, at, of.goods, rate))
		}
		if of.isShipped {
			taxes = append(taxes, e.roundedTax(StepTaxLine, at, of.shipping, rate).Named("tax on shipping"))
		}
	}
	if isShared {
		taxes = append(taxes, of.shippingTax)
	}
	return e.Sum(code, at, taxes...)
}

// taxOfUnits is the tax of each item, rounded, for all of them. An amount that is no whole cents
// for each item is shared out: some have a cent more.
func (e *order) taxOfUnits(at quoin.Path, of taxed, rate quoin.Operand) quoin.Operand {
	cent := quoin.Given("a minor unit more", quoin.Path{}, quoin.AmountOf(1, e.places).Figure())
	each := e.Rounded(e.places, quoin.Down, e.Quotient(StepTaxedUnit, at, of.goods, of.count))
	odd := e.Quotient(StepOddUnits, at, e.Sum(StepOddUnits, at, of.goods, e.Product(StepOddUnits, at, each, of.count).Minus()), cent)
	unit := e.roundedTax(StepTaxUnit, at, each, rate)
	if odd.Value.Factor().IsZero() {
		return e.Product(StepTaxLine, at, unit, of.count)
	}
	more := e.roundedTax(StepTaxUnit, at, e.Sum(StepTaxedUnit, at, each, cent), rate)
	return e.Weighted(StepTaxLine, at, unit, e.Sum(StepOddUnits, at, of.count, odd.Minus()), more, odd)
}

// taxOfParts is the tax of an item that has parts of several rates: of each part by itself, or of
// all that have the same rate.
func (e *order) taxOfParts(at quoin.Path, of taxed) []quoin.Operand {
	amounts := make([][]quoin.Operand, len(e.k.parts)) // of each part, and its shipping
	if !of.isShipped || !amountOf(of.goods).IsZero() {
		for i, part := range e.shared(at, of.goods) {
			amounts[i] = append(amounts[i], part)
		}
	}
	if of.isShipped {
		e.withShipping(at, of.shipping, amounts)
	}
	var taxes []quoin.Operand
	rates, _ := e.k.rates()
	for _, r := range rates {
		var rate quoin.Operand
		var alike []quoin.Operand
		for i, p := range e.k.parts {
			if p.rate.Equal(r) {
				rate, alike = e.rateOf(p.Class), append(alike, amounts[i]...)
			}
		}
		if len(alike) > 1 && e.taxed.Per != PerTaxedLine && e.taxed.Per != PerTaxedUnit {
			alike = []quoin.Operand{e.summed(StepTaxable, at, alike)}
		}
		for _, a := range alike {
			taxes = append(taxes, e.roundedTax(StepTaxLine, at, a, rate).Named("tax at "+r.String()))
		}
	}
	return taxes
}

// withShipping adds what is charged for shipping to the parts whose rates it is taxed at.
func (e *order) withShipping(at quoin.Path, shipping quoin.Operand, parts [][]quoin.Operand) {
	if how := e.taxed.ShippingRate; how == AtHighestRate || how == AtMainRate {
		i := e.k.postagePart(how)
		parts[i] = append(parts[i], shipping)
		return
	}
	for i, share := range e.shared(at, shipping) {
		parts[i] = append(parts[i], share)
	}
}

// shared shares an amount of money out to the parts of an item, in proportion to what they cost
// by themselves. The minor units that are left go to the largest remainders.
func (e *order) shared(at quoin.Path, of quoin.Operand) []quoin.Operand {
	weights, prices := make([]quoin.Factor, len(e.k.parts)), e.pricesOfParts()
	for i, p := range e.k.parts {
		weights[i] = p.Price.Ratio(quoin.AmountOf(1, 0))
	}
	amount := amountOf(of)
	split, err := amount.Split(e.places, weights...)
	sum := e.Sum(StepParts, at, prices...)
	out := make([]quoin.Operand, len(weights))
	for i := range out {
		share := e.Product(StepPart, at, of, e.Quotient(StepShareOfParts, at, prices[i], sum))
		if err != nil { // no whole minor units, such as shipping of half a cent
			out[i] = share
			continue
		}
		out[i] = e.Rounded(e.places, quoin.Down, share)
		if odd := split[i].Sub(amountOf(out[i])); !odd.IsZero() {
			out[i] = e.Sum(StepPart, at, out[i], quoin.Given("left of the minor units", quoin.Path{}, odd.Figure()))
		}
		out[i] = out[i].Named(e.k.parts[i].Name)
	}
	return out
}

// pricesOfParts is what each part of an item costs by itself.
func (e *order) pricesOfParts() []quoin.Operand {
	if e.worths != nil {
		return slices.Clone(e.worths)
	}
	prices := make([]quoin.Operand, len(e.k.parts))
	for i, p := range e.k.parts {
		prices[i] = quoin.Given("price of "+p.Name, quoin.Path{}, p.Price.Figure())
	}
	return prices
}
