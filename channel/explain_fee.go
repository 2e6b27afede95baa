package channel

import "example.com/quoin"

func (e explainer) fees(paid map[Part]quoin.Operand, count quoin.Operand) quoin.Operand {
	var fees []quoin.Operand
	for i := range e.levies {
		if l := &e.levies[i]; l.on(e.k) {
			fees = append(fees, e.fee(l, l.at(e.at), paid, count))
		}
	}
	if len(fees) == 0 {
		return zero(string(StepFees))
	}
	e.On("")
	return e.Sum(StepFees, e.order, fees...)
}

// because is what a reason explains, or else as it is given.
func (e explainer) because(why reason, at quoin.Path, given quoin.Operand) quoin.Operand {
	if why == nil {
		return given
	}
	return why(e, at)
}

func (e explainer) fee(l *levy, at quoin.Path, paid map[Part]quoin.Operand, count quoin.Operand) quoin.Operand {
	f := &l.Fee
	e.On(f.Name)
	over := quoin.Given("over", at.Field("over"), f.Over.Figure())
	base := e.base(f, at, paid)
	if !f.Over.IsZero() && (!f.Rate.IsZero() || len(f.Tiers) > 0) {
		base = e.Product(StepTogether, at, base, over)
	}
	fixed := e.because(l.fixed, at, quoin.GivenOr("fixed", at.Field("fixed"), f.Fixed.Figure(), !f.Fixed.IsZero()))
	parts := append(e.ofBase(l, at, base, count, over), e.each(l, StepFixed, at, fixed, count, over))
	charge := e.bounded(l, at, e.Sum(StepCharge, at, parts...))
	if l.owed(e.k) {
		_, taxed := e.parts(f, paid)
		charge = e.Sum(StepCharge, at, charge, e.held(at, taxed).Minus())
		charge = e.Greatest(StepAtLeast, at, charge, zero("nothing"))
	}
	charge = e.rounded(f, charge)
	if !f.Tax.IsZero() {
		tax := e.rounded(f, e.Product(StepFeeTax, at, charge, e.because(l.feeTax, at, e.rate("tax", at, f.Tax))))
		charge = e.Sum(StepCharge, at, charge, tax)
	}
	if !f.Over.IsZero() {
		charge = e.Quotient(StepApart, at, charge, over)
	}
	share := e.because(l.share, at, quoin.GivenOr("share", at.Field("share"), f.Share.Or(whole).Figure(), !f.Share.IsZero()))
	counts := []quoin.Operand{charge, share}
	if !l.stays.IsZero() {
		counts = append(counts, e.stays(l.withPrice()))
		e.On(f.Name)
	}
	return e.Product(StepFee, at, counts...).Called(f.Name)
}

func (e explainer) rounded(f *Fee, o quoin.Operand) quoin.Operand {
	if f.Expected {
		return o
	}
	return e.Rounded(e.places, f.Rounding, o)
}

// each is an amount that the fee names, as it is for all that is charged together.
func (e explainer) each(l *levy, code quoin.StepCode, at quoin.Path, of, count, over quoin.Operand) quoin.Operand {
	if l.Per != quoin.PerItem {
		return of
	}
	if l.Over.IsZero() {
		return e.Product(code, at, of, count)
	}
	return e.Product(code, at, of, count, over)
}

func (e explainer) bounded(l *levy, at quoin.Path, charge quoin.Operand) quoin.Operand {
	if !l.AtLeast.IsZero() {
		charge = e.Greatest(StepAtLeast, at, charge, quoin.Given("at least", at.Field("at_least"), l.AtLeast.Figure()))
	}
	if most, given := l.AtMost.Get(); given {
		charge = e.Least(StepAtMost, at, charge, e.because(l.most, at, quoin.Given("at most", at.Field("at_most"), most.Figure())))
	}
	return charge
}

// base is the parts that the fee names, without the tax in them where it says so.
func (e explainer) base(f *Fee, at quoin.Path, paid map[Part]quoin.Operand) quoin.Operand {
	parts, taxed := e.parts(f, paid)
	switch {
	case f.Net && e.c.Tax.InPrice && !e.k.tax.IsZero() && len(taxed) > 0:
		return e.Sum(StepBase, at, append(parts, e.held(at, taxed).Minus())...)
	case len(f.Of) == 0:
		return paid[Items]
	}
	return e.Sum(StepBase, at, parts...)
}

// parts are those that the fee names, and those of them that hold the tax.
func (e explainer) parts(f *Fee, paid map[Part]quoin.Operand) (parts, taxed []quoin.Operand) {
	for _, p := range f.parts() {
		parts = append(parts, paid[p])
		if p.holdsTax(e.c.Tax.OnShipping) {
			taxed = append(taxed, paid[p])
		}
	}
	return parts, taxed
}

// held is the tax that prices hold in some parts.
func (e explainer) held(at quoin.Path, taxed []quoin.Operand) quoin.Operand {
	holds := taxed[0]
	if len(taxed) > 1 {
		holds = e.Sum(StepBase, at, taxed...)
	}
	rate := e.taxRate()
	return e.Rounded(e.places, quoin.HalfUp, e.Quotient(StepBaseTax, at, holds, rate, rate.OnePlus()))
}

// ofBase is what the fee's rate takes of the base; or what the rates of the tiers that it
// reaches take of it, and their fixed amounts.
func (e explainer) ofBase(l *levy, at quoin.Path, base, count, over quoin.Operand) []quoin.Operand {
	f := &l.Fee
	if len(f.Tiers) == 0 {
		return []quoin.Operand{e.Product(StepRated, at, base, e.because(l.rate, at, e.rate("rate", at, f.Rate)))}
	}
	size := amountOf(base)
	last := f.reached(size, e.k.ItemsOr1())
	first := 0
	if f.TierMode == Whole {
		first = max(last, 0)
	}
	from := func(i int) quoin.Operand { return e.tierFrom(l, at, i, count, over) }
	var rated, fixed []quoin.Operand
	for i := first; i <= last; i++ {
		tier := &f.Tiers[i]
		if tier.Fixed.IsGiven() {
			given := quoin.Given("tier fixed", at.FieldAt("tiers", i), tier.Fixed.Figure())
			fixed = append(fixed, e.each(l, StepFixed, at, given, count, over))
		}
		switch {
		case !tier.Rate.IsGiven() && tier.Fixed.IsGiven():
		case f.TierMode == Whole:
			rated = append(rated, e.Product(StepRated, at, base, e.tierRate(l, at, i)))
		case f.each(tier.From, e.k.ItemsOr1()).Cmp(size) < 0:
			top := base
			if i < last {
				top = from(i + 1).Called("next from")
			}
			rated = append(rated, e.Sum(StepSlice, at, top, from(i).Minus()), e.tierRate(l, at, i))
		}
	}
	switch {
	case f.TierMode != Whole && len(rated) > 0:
		rated = []quoin.Operand{e.Weighted(StepRated, at, rated...)}
	case len(rated)+len(fixed) == 0:
		rated = []quoin.Operand{zero("below every tier")}
	}
	return append(rated, fixed...)
}

// tierFrom is where a tier begins: of a fee for each item, at an amount for each item of
// the order.
func (e explainer) tierFrom(l *levy, at quoin.Path, i int, count, over quoin.Operand) quoin.Operand {
	given, code := quoin.Given("from", at.FieldAt("tiers", i), l.Tiers[i].From.Figure()), StepFrom
	if l.tier != nil {
		if i == 0 {
			return given
		}
		given, code = l.tier(e, at), StepFirst
	}
	return e.each(l, code, at, given, count, over).Called("from")
}

func (e explainer) tierRate(l *levy, at quoin.Path, i int) quoin.Operand {
	given := quoin.Given("tier rate", at.FieldAt("tiers", i), l.Tiers[i].Rate.Figure())
	if l.tier == nil {
		return given
	}
	if i == 0 {
		return quoin.Given("tier rate", quoin.Path{}, quoin.Rate{}.Figure())
	}
	return e.because(l.rate, at, given)
}
