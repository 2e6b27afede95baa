package channel

import (
	"slices"

	"example.com/quoin"
)

// parts is a figure of each part of what the buyer of one order pays: those of Payment.
type parts[T any] struct {
	items, shipping, tax, discount T
	surcharge, surchargeTax        T
	unreduced                      T // items before the discount of a shop on consignment
	full                           T // items before all promotions, where the tax is of that
	shippingTax                    T // where goods of the order have several rates
}

type paid = parts[quoin.Operand]

func (p *parts[T]) part(part Part) T {
	switch part {
	case Shipping:
		return p.shipping
	case SalesTax:
		return p.tax
	case Surcharged:
		return p.surcharge
	case Discount:
		return p.discount
	case unreduced:
		return p.unreduced
	default:
		return p.items
	}
}

// chargedFee is a fee on an order, and what it comes to before its bounds.
type chargedFee struct {
	Charge
	unbounded quoin.Amount
	others    quoin.Amount // what others add to its base
	othersTax quoin.Amount // of shipping, where goods have several rates
}

// fees adds all fees of the order up; each is told to keep, where that is not nil.
func (e *order) fees(s *sale, keep func(i int, c Charge)) quoin.Operand {
	s.paid.discount = e.discount(s)
	fees := make([]quoin.Operand, 0, 8)
	for i := range e.compiledFees {
		if l := &e.compiledFees[i]; l.on(e.k) {
			fee, c := e.fee(l, l.at(e.at), &s.paid, s.count)
			if len(fees) == cap(fees) && e.Trail == silent { // nobody is told what it is the sum of
				fees = append(fees[:0], e.Sum(StepFees, e.place, fees...))
			}
			if fees = append(fees, fee); keep != nil {
				keep(i, c.Charge)
			}
		}
	}
	if len(fees) == 0 {
		return zero(string(StepFees))
	}
	e.On("")
	return e.Sum(StepFees, e.place, fees...)
}

// because is what a reason explains, or else as it is given.
func (e *order) because(why reason, at quoin.Path, given quoin.Operand) quoin.Operand {
	if why == nil {
		return given
	}
	return why(e, at)
}

// fee is a fee on the order, line by line as the fields of Charge say.
func (e *order) fee(l *compiledFee, at quoin.Path, p *paid, count quoin.Operand) (quoin.Operand, chargedFee) {
	f := &l.Fee
	e.On(f.Name)
	c := chargedFee{Charge: Charge{Tax: quoin.AmountOf(0, e.places)}}
	over := quoin.Given("over", at.Field("orders_together"), f.OrdersTogether.Figure())
	own, ownCount := e.base(l, at, p), count
	base := own
	if e.besides != nil {
		others := e.base(l, at, e.besides)
		base, count, c.others = e.Sum(StepWholeBase, at, own, others), e.k.explainAll(e.Trail, e.place, count), amountOf(others)
	}
	c.Base = amountOf(base)
	if !f.OrdersTogether.IsZero() && (!f.Rate.IsZero() || len(f.Tiers) > 0) {
		base = e.Product(StepTogether, at, base, over)
	}
	parts := e.ofBase(make([]quoin.Operand, 0, 4), l, at, base, count, over)
	fixed := e.because(l.fixed, at, quoin.GivenOr("fixed", at.Field("fixed"), f.Fixed.Figure(), !f.Fixed.IsZero()))
	if !f.Fixed.IsZero() {
		fixed = e.each(l, StepFixed, at, fixed, count, over)
	}
	charge := e.Sum(StepCharge, at, append(parts, fixed)...)
	c.unbounded, c.Computed = amountOf(charge), amountOf(charge)
	charge = e.withinBounds(l, at, charge)
	if l.owed(e.k) {
		charge = e.Sum(StepCharge, at, charge, e.held(at, l, p).Minus())
		c.Computed = amountOf(charge)
		charge = e.Greatest(StepAtLeast, at, charge, zero("nothing"))
	}
	c.Bounded = amountOf(charge)
	if e.besides != nil {
		charge = e.ownFee(l, at, own, base, charge, count, ownCount, over)
	}
	charge = e.rounded(f, charge)
	c.Rounded = amountOf(charge)
	if !f.Tax.IsZero() {
		tax := e.rounded(f, e.Product(StepFeeTax, at, charge, e.because(l.feeTax, at, e.rate("tax", at, f.Tax))))
		c.Tax = amountOf(tax)
		charge = e.Sum(StepCharge, at, charge, tax)
	}
	if !f.OrdersTogether.IsZero() {
		charge = e.Quotient(StepPerOrder, at, charge, over)
	}
	share := e.because(l.share, at, quoin.GivenOr("share", at.Field("share"), f.Share.Or(whole).Figure(), !f.Share.IsZero()))
	counts := append(make([]quoin.Operand, 0, 3), charge, share)
	if !l.stays.IsZero() {
		counts = append(counts, e.stays(l.withPrice()))
		e.On(f.Name)
	}
	fee := e.Product(StepFee, at, counts...).Named(f.Name)
	c.Total = amountOf(fee)
	return fee, c
}

func (e *order) rounded(f *Fee, o quoin.Operand) quoin.Operand {
	if f.Expected {
		return o
	}
	return e.Rounded(e.places, f.Rounding, o)
}

// each is an amount that the fee names, as it is for all that is charged together.
func (e *order) each(l *compiledFee, code quoin.StepCode, at quoin.Path, of, count, over quoin.Operand) quoin.Operand {
	if l.Per != quoin.PerItem {
		return of
	}
	if l.OrdersTogether.IsZero() {
		return e.Product(code, at, of, count)
	}
	return e.Product(code, at, of, count, over)
}

func (e *order) withinBounds(l *compiledFee, at quoin.Path, charge quoin.Operand) quoin.Operand {
	if !l.AtLeast.IsZero() {
		charge = e.Greatest(StepAtLeast, at, charge, quoin.Given("at least", at.Field("at_least"), l.AtLeast.Figure()))
	}
	if most, given := l.AtMost.Get(); given {
		charge = e.Least(StepAtMost, at, charge, e.because(l.most, at, quoin.Given("at most", at.Field("at_most"), most.Figure())))
	}
	return charge
}

// base is the parts that the fee names, without the tax in them where it says so.
func (e *order) base(l *compiledFee, at quoin.Path, p *paid) quoin.Operand {
	f := &l.Fee
	withoutTax := f.WithoutTax && e.taxed.InPrice && !e.k.untaxed()
	ofSurcharge := f.WithoutTax && e.taxed.InPrice && slices.Contains(f.Of, Surcharged)
	if len(f.Of) == 0 && !withoutTax {
		return p.items
	}
	parts := make([]quoin.Operand, 0, 5)
	taxed := false
	for _, part := range f.parts() {
		if part == Surcharged && l.way != "" && e.k.Surcharge == nil {
			continue // such as conversion, which is taken of all there is
		}
		parts, taxed = append(parts, p.part(part)), taxed || part.holdsTax(e.taxed.OnShipping)
	}
	if withoutTax && taxed {
		parts = append(parts, e.held(at, l, p).Minus())
	}
	if ofSurcharge {
		parts = append(parts, p.surchargeTax.Minus())
	}
	return e.Sum(StepBase, at, parts...)
}

// held is the tax that prices hold in the parts that the fee names.
func (e *order) held(at quoin.Path, l *compiledFee, p *paid) quoin.Operand {
	if p == e.besides {
		return e.ofOthers().held(at, l, p)
	}
	all, goods := make([]quoin.Operand, 0, 4), make([]quoin.Operand, 0, 4)
	of := taxed{shipping: p.shipping, shippingTax: p.shippingTax}
	for _, part := range l.parts() {
		if !part.holdsTax(e.taxed.OnShipping) {
			continue
		}
		amount := p.part(part)
		if l.asTaxed && part == Items && e.taxed.Of == OfFullPrice {
			amount = p.full
		}
		all = append(all, amount)
		if part == Shipping {
			of.isShipped = true
		} else {
			goods = append(goods, amount)
		}
	}
	if e.inOne() {
		return e.roundedTax(StepBaseTax, at, e.summed(StepBase, at, all), e.taxRate())
	}
	of.goods, of.count = zero("no goods"), e.count()
	if len(goods) > 0 {
		of.goods = e.summed(StepBase, at, goods)
	}
	return e.parted(StepBaseTax, at, of)
}

// summed adds figures up; one by itself needs no step.
func (e *order) summed(code quoin.StepCode, at quoin.Path, all []quoin.Operand) quoin.Operand {
	if len(all) == 1 {
		return all[0]
	}
	return e.Sum(code, at, all...)
}

// ofBase is what the fee's rate takes of the base; or what the rates of the tiers that it
// reaches take of it, and their fixed amounts. It is put behind parts.
func (e *order) ofBase(parts []quoin.Operand, l *compiledFee, at quoin.Path, base, count, over quoin.Operand) []quoin.Operand {
	if len(l.Tiers) == 0 {
		return append(parts, e.Product(StepRated, at, base, e.because(l.rate, at, e.rate("rate", at, l.Rate))))
	}
	last := l.reached(amountOf(base), count.Value.Factor())
	if last < 0 {
		return append(parts, zero("below every tier"))
	}
	if l.TierMode == Whole {
		parts = append(parts, e.Product(StepRated, at, base, e.tierRate(l, at, last)))
		return append(parts, e.tierFixed(l, at, last, last, count, over)...)
	}
	pairs := make([]quoin.Operand, 0, 8)
	from := e.tierFrom(l, at, 0, count, over)
	for i := range last + 1 {
		top := base
		if i < last {
			top = e.tierFrom(l, at, i+1, count, over).Named("next from")
		}
		if len(pairs) == cap(pairs) && e.Trail == silent { // as in fees
			pairs = append(pairs[:0], e.Weighted(StepRated, at, pairs...), quoin.FactorOf(1).Named(""))
		}
		pairs = append(pairs, e.Sum(StepSlice, at, top, from.Minus()), e.tierRate(l, at, i))
		from = top.Named("from")
	}
	return append(append(parts, e.Weighted(StepRated, at, pairs...)), e.tierFixed(l, at, 0, last, count, over)...)
}

// tierFixed is the fixed amounts of some tiers, but for 0.
func (e *order) tierFixed(l *compiledFee, at quoin.Path, first, last int, count, over quoin.Operand) (fixed []quoin.Operand) {
	for i := first; i <= last; i++ {
		if !l.Tiers[i].Fixed.IsZero() {
			given := quoin.Given("tier fixed", at.Sub("tiers", i).Field("fixed"), l.Tiers[i].Fixed.Figure())
			fixed = append(fixed, e.each(l, StepFixed, at, given, count, over))
		}
	}
	return fixed
}

// tierFrom is where a tier begins: of a fee for each item, at an amount for each item of
// the order.
func (e *order) tierFrom(l *compiledFee, at quoin.Path, i int, count, over quoin.Operand) quoin.Operand {
	given, code := quoin.Given("from", at.Sub("tiers", i).Field("from"), l.Tiers[i].From.Figure()), StepFrom
	if l.tier != nil {
		if i == 0 {
			return zero("from") // no document says that it begins there
		}
		given, code = l.tier(e, at), StepFirst
	}
	return e.each(l, code, at, given, count, over).Named("from")
}

func (e *order) tierRate(l *compiledFee, at quoin.Path, i int) quoin.Operand {
	tier := &l.Tiers[i]
	given := quoin.GivenOr("tier rate", at.Sub("tiers", i).Field("rate"), tier.Rate.Figure(), !tier.Rate.IsZero() || tier.Fixed.IsZero())
	if l.tier == nil {
		return given
	}
	if i == 0 {
		return quoin.Given("tier rate", quoin.Path{}, quoin.Rate{}.Figure())
	}
	return e.because(l.rate, at, given)
}
