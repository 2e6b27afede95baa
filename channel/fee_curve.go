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
func (c kindCurve) feePieces(l *compiledFee, lines saleLines, first, last int64) []feePiece {
	f := &l.Fee
	tiers := []int64{first, last + 1}
	for _, tier := range f.Tiers {
		base := func(i int64) quoin.Amount { return f.together(c.charge(l, i).Base) }
		line := func(first, last int64) StraightLine {
			of := lines.on(first, last)
			return c.togetherLine(l, of, c.charge(l, first)).line(of.rooms)
		}
		tiers = c.crossings(tiers, l, lines, first, last, line, f.each(tier.From, c.k().AllItems()), base)
	}
	if from, some := l.leaves(c.k()); l.owed(c.k()) && some {
		tiers = append(tiers, c.reach(first, last, c.baseLine(l, lines).line(lines.rooms), from, func(i int64) quoin.Amount { return c.charge(l, i).Base }))
	}
	slices.Sort(tiers)
	tiers = slices.Compact(tiers)
	var cuts []int64
	for j, at := range tiers[:len(tiers)-1] {
		cuts = c.boundCuts(append(cuts, at), l, lines, at, tiers[j+1]-1)
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	if c.k().Others != nil {
		cuts = append(cuts, c.ownCuts(cuts, l, lines, last)...)
		slices.Sort(cuts)
		cuts = slices.Compact(cuts)
	}
	out := make([]feePiece, 0, len(cuts))
	for _, cut := range cuts {
		if cut <= last {
			out = append(out, feePiece{cut, c.feeLine(l, cut, lines)})
		}
	}
	return out
}

// boundCuts adds the prices at which the fee reaches its least and greatest
// amount, between two prices with the same tier.
func (c kindCurve) boundCuts(cuts []int64, l *compiledFee, lines saleLines, first, last int64) []int64 {
	most, given := l.AtMost.Get()
	if !given && l.AtLeast.IsZero() {
		return cuts
	}
	computed := func(i int64) quoin.Amount { return c.charge(l, i).unbounded }
	line := func(first, last int64) StraightLine {
		of := lines.on(first, last)
		return c.computedLine(l, c.charge(l, first), of).line(of.rooms)
	}
	if !l.AtLeast.IsZero() {
		cuts = c.crossings(cuts, l, lines, first, last, line, l.AtLeast, computed)
	}
	if given {
		cuts = c.crossings(cuts, l, lines, first, last, line, most, computed)
	}
	return cuts
}

// baseLine is the base of one order.
func (c kindCurve) baseLine(l *compiledFee, lines saleLines) orderLine {
	f := &l.Fee
	var base orderLine
	for _, p := range f.parts() {
		base = base.plus(lines.part(p))
	}
	if f.WithoutTax && c.t.inPrice && !c.k().untaxed() {
		base = base.minus(c.heldIn(l, lines))
	}
	if f.WithoutTax && c.t.inPrice && slices.Contains(f.Of, Surcharged) {
		base = base.minus(lines.surchargeTax)
	}
	return base
}

// togetherLine is the base of the orders that are charged together, with that of others in it,
// which is the same as of a charge.
func (c kindCurve) togetherLine(l *compiledFee, lines saleLines, at chargedFee) orderLine {
	line := c.baseLine(l, lines).plus(c.othersLine(l, lines, at))
	if l.OrdersTogether.IsZero() {
		return line
	}
	return line.times(l.OrdersTogether)
}

// computedLine is the fee before its bounds, in the tier of a charge.
func (c kindCurve) computedLine(l *compiledFee, at chargedFee, lines saleLines) orderLine {
	f := &l.Fee
	together := f.together(at.Base)
	rate := f.slope(together, c.k().AllItems())
	return c.togetherLine(l, lines, at).times(rate.Factor()).plus(level(at.unbounded.Sub(together.Part(rate))))
}

// feeLine is the fee as charged, in the form that it has at price i.
func (c kindCurve) feeLine(l *compiledFee, i int64, lines saleLines) orderLine {
	f, at := &l.Fee, c.charge(l, i)
	if c.k().Others != nil {
		return c.ownFeeLine(l, i, at, lines)
	}
	line := c.computedLine(l, at, lines)
	most, given := f.AtMost.Get()
	if line.constant() || !f.AtLeast.IsZero() && at.unbounded.Cmp(f.AtLeast) < 0 || given && at.unbounded.Cmp(most) >= 0 {
		return level(at.Total)
	}
	line = line.loosen(c.feeRoom(f, at))
	if l.owed(c.k()) {
		return c.lessTax(l, at.Base, line, lines)
	}
	return c.settledLine(l, line)
}

// settledLine is a fee's line from the rounded charge on: with its tax, of one order, as often as
// it counts.
func (c kindCurve) settledLine(l *compiledFee, line orderLine) orderLine {
	f := &l.Fee
	if !f.Tax.IsZero() {
		line = line.plus(line.times(f.Tax.Factor()).loosen(c.room(f)))
	}
	if !f.OrdersTogether.IsZero() {
		line = line.over(f.OrdersTogether)
	}
	line = line.times(f.Share.Or(whole).Factor())
	return l.staying(line)
}

// lessTax is a fee's line with the tax that it owes paid out of it. Where that takes
// all of it, rounding may still leave as much as it can move the two.
func (c kindCurve) lessTax(l *compiledFee, base quoin.Amount, line orderLine, lines saleLines) orderLine {
	line = line.minus(c.heldIn(l, lines))
	if from, some := l.leaves(c.k()); !some || base.Cmp(from) < 0 {
		line = level(quoin.Amount{}).loosen(line.line(lines.rooms).Within)
	}
	return l.staying(line)
}

// staying is the share of a fee that no refund brings back.
func (l *compiledFee) staying(line orderLine) orderLine {
	return line.times(l.stays.Or(quoin.FactorOf(1)))
}

// feeRoom is the room of a fee in the form that it has at a charge: none where whole
// cents of its base are whole cents of the fee.
func (c kindCurve) feeRoom(f *Fee, at chargedFee) quoin.Amount {
	together := f.together(at.Base)
	rate := f.slope(together, c.k().AllItems()).Factor()
	if !f.OrdersTogether.IsZero() {
		rate = rate.Times(f.OrdersTogether)
	}
	if rate.Places() == 0 && together.WithPlaces(0).Places() <= c.t.places && at.unbounded.WithPlaces(0).Places() <= c.t.places {
		return quoin.Amount{}
	}
	return c.room(f)
}

// room is how far the fee's rounding can move it.
func (c kindCurve) room(f *Fee) quoin.Amount {
	if f.Expected {
		return quoin.Amount{}
	}
	return c.roomOf(f.Rounding)
}
