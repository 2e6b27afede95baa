package channel

import (
	"slices"

	"example.com/quoin"
)

// feePiece is a fee's line from a price on.
type feePiece struct {
	first int64
	line  orderLine
}

// feePieces breaks a fee where it reaches a tier or a bound.
func (c kindCurve) feePieces(l *levy, lines saleLines, first, last int64) []feePiece {
	f := &l.Fee
	tiers := []int64{first, last + 1}
	for _, tier := range f.Tiers {
		base := func(i int64) quoin.Amount { return f.together(c.baseAt(f, i)) }
		tiers = append(tiers, c.reach(first, last, c.togetherLine(f, lines).line(lines.rooms), f.each(tier.From, c.k().ItemsOr1()), base))
	}
	if from, some := l.leaves(c.k()); l.owed(c.k()) && some {
		tiers = append(tiers, c.reach(first, last, c.baseLine(f, lines).line(lines.rooms), from, func(i int64) quoin.Amount { return c.baseAt(f, i) }))
	}
	slices.Sort(tiers)
	tiers = slices.Compact(tiers)
	var cuts []int64
	for j, at := range tiers[:len(tiers)-1] {
		cuts = append(cuts, at)
		cuts = c.boundCuts(cuts, f, lines, at, tiers[j+1]-1)
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	out := make([]feePiece, 0, len(cuts))
	for _, cut := range cuts {
		if cut <= last {
			out = append(out, feePiece{cut, c.feeLine(l, cut, lines)})
		}
	}
	return out
}

func (c kindCurve) baseAt(f *Fee, i int64) quoin.Amount {
	s := c.sale(i)
	return f.base(c.t.paid(c.k(), &s), c.t.places)
}

// boundCuts adds the prices at which the fee reaches its least and greatest
// amount, between two prices with the same tier.
func (c kindCurve) boundCuts(cuts []int64, f *Fee, lines saleLines, first, last int64) []int64 {
	computed := func(i int64) quoin.Amount { return f.computed(c.baseAt(f, i), c.k().ItemsOr1()) }
	line := c.computedLine(f, first, lines).line(lines.rooms)
	if !f.AtLeast.IsZero() {
		cuts = append(cuts, c.reach(first, last, line, f.AtLeast, computed))
	}
	if most, given := f.AtMost.Get(); given {
		cuts = append(cuts, c.reach(first, last, line, most, computed))
	}
	return cuts
}

// baseLine is the base of one order.
func (c kindCurve) baseLine(f *Fee, lines saleLines) orderLine {
	var base orderLine
	for _, p := range f.parts() {
		base = base.plus(lines.part(p))
	}
	if f.Net && c.t.inPrice && !c.k().tax.IsZero() {
		base = base.minus(c.heldIn(f.parts(), lines))
	}
	return base
}

func (l saleLines) part(p Part) orderLine {
	switch p {
	case Shipping:
		return l.shipping
	case SalesTax:
		return l.tax
	case Discount:
		return l.discount
	case unreduced:
		return l.unreduced
	default:
		return l.items
	}
}

// togetherLine is the base of the orders that are charged together.
func (c kindCurve) togetherLine(f *Fee, lines saleLines) orderLine {
	line := c.baseLine(f, lines)
	if f.Over.IsZero() {
		return line
	}
	return line.times(f.Over)
}

// computedLine is the fee before its bounds, in the tier that price i is in.
func (c kindCurve) computedLine(f *Fee, i int64, lines saleLines) orderLine {
	base, count := c.baseAt(f, i), c.k().ItemsOr1()
	rate := f.slope(f.together(base), count)
	offset := f.computed(base, count).Sub(f.together(base).Part(rate))
	return c.togetherLine(f, lines).times(rate.Factor()).plus(level(offset))
}

// feeLine is the fee as charged, in the form that it has at price i.
func (c kindCurve) feeLine(l *levy, i int64, lines saleLines) orderLine {
	f := &l.Fee
	line := c.computedLine(f, i, lines)
	computed := f.computed(c.baseAt(f, i), c.k().ItemsOr1())
	most, given := f.AtMost.Get()
	if line.constant() || computed.Cmp(f.AtLeast) < 0 || given && computed.Cmp(most) >= 0 {
		s := c.sale(i)
		return level(l.charge(c.k(), c.t.paid(c.k(), &s), c.t.places).Total)
	}
	line = line.loosen(c.feeRoom(f, i))
	if l.owed(c.k()) {
		return c.lessTax(l, i, line, lines)
	}
	if !f.Tax.IsZero() {
		line = line.plus(line.times(f.Tax.Factor()).loosen(c.room(f)))
	}
	if !f.Over.IsZero() {
		line = line.over(f.Over)
	}
	line = line.times(f.Share.Or(whole).Factor())
	return l.staying(line)
}

// lessTax is a fee's line with the tax that it owes paid out of it. Where that takes
// all of it, rounding may still leave as much as it can move the two.
func (c kindCurve) lessTax(l *levy, i int64, line orderLine, lines saleLines) orderLine {
	line = line.minus(c.heldIn(l.parts(), lines))
	if from, some := l.leaves(c.k()); !some || c.baseAt(&l.Fee, i).Cmp(from) < 0 {
		line = level(quoin.Amount{}).loosen(line.line(lines.rooms).Within)
	}
	return l.staying(line)
}

// staying is the share of a fee that no refund brings back.
func (l *levy) staying(line orderLine) orderLine {
	if stays, given := l.stays.Get(); given {
		return line.times(stays)
	}
	return line
}

// feeRoom is the room of a fee in the form that it has at price i: none where whole
// cents of its base are whole cents of the fee.
func (c kindCurve) feeRoom(f *Fee, i int64) quoin.Amount {
	base, count := c.baseAt(f, i), c.k().ItemsOr1()
	together, rate := f.together(base), f.slope(f.together(base), count).Factor()
	if !f.Over.IsZero() {
		rate = rate.Times(f.Over)
	}
	if fee := f.computed(base, count); rate.Places() == 0 && together.Places() <= c.t.places && fee.Places() <= c.t.places {
		return quoin.Amount{}
	}
	return c.room(f)
}

// room is how far the fee's rounding can move it.
func (c kindCurve) room(f *Fee) quoin.Amount {
	switch {
	case f.Expected:
		return quoin.Amount{}
	case f.Rounding == quoin.Up || f.Rounding == quoin.Down:
		return quoin.AmountOf(1, c.t.places)
	}
	return c.half()
}
