package channel

import (
	"sort"

	"example.com/quoin"
)

// ownLines are what a fee on the whole order comes to, what own items bear of it before that is
// kept between nothing and all, and what is left of it for others then.
type ownLines struct{ whole, own, rest orderLine }

// ownLines are those of a fee in the form that it has at a charge.
func (c kindCurve) ownLines(l *compiledFee, at chargedFee, lines saleLines) ownLines {
	f := &l.Fee
	whole := c.computedLine(l, at, lines)
	if most, given := f.AtMost.Get(); !f.AtLeast.IsZero() && at.unbounded.Cmp(f.AtLeast) < 0 || given && at.unbounded.Cmp(most) >= 0 {
		whole = level(at.Bounded)
	}
	rate := f.slope(f.together(at.Base), c.k().AllItems()).Factor()
	base := c.baseLine(l, lines)
	if !f.OrdersTogether.IsZero() {
		base = base.times(f.OrdersTogether)
	}
	beside := whole.minus(c.togetherLine(l, lines, at).times(rate))
	own := base.times(rate).plus(beside.times(quoin.FactorOf(c.k().ItemsOr1())).over(c.k().AllItems()))
	return ownLines{whole, own, whole.minus(own)}
}

// ownCuts are the prices, behind cuts of a fee, at which own items begin or end to bear nothing of
// it, or all.
func (c kindCurve) ownCuts(cuts []int64, l *compiledFee, lines saleLines, last int64) (out []int64) {
	for n, from := range cuts {
		to := last
		if n+1 < len(cuts) {
			to = cuts[n+1] - 1
		}
		if from > to {
			continue
		}
		of := c.ownLines(l, c.charge(l, from), lines)
		for _, line := range []StraightLine{of.whole.line(lines.rooms), of.own.line(lines.rooms), of.rest.line(lines.rooms)} {
			out = append(out, c.turns(line, from, to)...)
		}
	}
	return out
}

// sign says whether a line is certainly below zero, certainly not, or neither, at price i.
func (c kindCurve) sign(line StraightLine, i int64) int {
	at, room := line.At(c.g.Price(i)), line.Within.Add(slack)
	switch {
	case at.Add(room).Sign() < 0:
		return -1
	case at.Sub(room).Sign() >= 0:
		return 1
	}
	return 0
}

// turns are the prices at which the sign of a line turns.
func (c kindCurve) turns(line StraightLine, first, last int64) (out []int64) {
	for at := first; at <= last; {
		sign, n := c.sign(line, at), int(last-at+1)
		at += int64(sort.Search(n, func(k int) bool { return c.sign(line, at+int64(k)) != sign }))
		if at <= last {
			out = append(out, at)
		}
	}
	return out
}

// ownFeeLine is feeLine, of an order with others.
func (c kindCurve) ownFeeLine(l *compiledFee, i int64, at chargedFee, lines saleLines) orderLine {
	of := c.ownLines(l, at, lines)
	own, rest := of.own.line(lines.rooms), of.rest.line(lines.rooms)
	line := of.own
	whole := of.whole.line(lines.rooms)
	some := c.sign(whole, i)
	if of.whole.constant() && of.whole.start.Sign() >= 0 {
		some = 1
	}
	switch more, all := c.sign(own, i), c.sign(rest, i); {
	case some < 0 || all < 0: // below nothing, own items bear all of it, such as a refund that brings in more than it costs
		line = of.whole
	case more < 0:
		if line = level(quoin.Amount{}); some == 0 {
			line = line.loosen(whole.Within.Add(whole.Within).Add(slack))
		}
	case more == 0 || all == 0: // where it is kept inside by what rounding adds
		room := own.Within.Add(rest.Within).Add(slack)
		line = line.loosen(room.Add(room))
	}
	if line.constant() {
		return level(at.Total)
	}
	return c.settledLine(l, line.loosen(c.room(&l.Fee)))
}
