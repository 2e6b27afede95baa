package channel

import "example.com/quoin"

// StraightLine is a straight line in the list price, with a margin for rounding to money: value
// = Slope × price + Start, plus or minus Within.
type StraightLine struct {
	Slope  quoin.Factor
	Start  quoin.Amount
	Within quoin.Amount
}

// Flat returns the line with the value a at every price.
func Flat(a quoin.Amount) StraightLine { return StraightLine{Start: a} }

// At returns the value of the line at a list price, exactly: slope × price + start. The true
// figure differs from it by at most Within.
func (l StraightLine) At(price quoin.Amount) quoin.Amount { return price.Times(l.Slope).Add(l.Start) }

// Add returns the sum of two lines.
func (l StraightLine) Add(m StraightLine) StraightLine {
	return StraightLine{l.Slope.Add(m.Slope), l.Start.Add(m.Start), l.Within.Add(m.Within)}
}

// Times returns the line multiplied by f. Its margin is multiplied by |f|.
func (l StraightLine) Times(f quoin.Factor) StraightLine {
	return StraightLine{l.Slope.Times(f), l.Start.Times(f), l.Within.Times(absolute(f))}
}

// Over returns the line divided by f, for f above zero. It panics if f is 0.
func (l StraightLine) Over(f quoin.Factor) StraightLine {
	if f.IsZero() {
		panic("quoin: a line divided by 0")
	}
	return StraightLine{l.Slope.Over(f), l.Start.Over(f), l.Within.Over(f)}
}

// slack covers what 34 digits leave out and the 12 places of comparisons, so
// that Within is never a digit too narrow.
var slack = quoin.AmountOf(1, 9)

// Crossing returns the indexes between which a rising or falling line may cross zero: below
// from the sign is certain, and above to it is the opposite one. Both are kept within first and
// last. For a line that neither rises nor falls they are first and last.
func (l StraightLine) Crossing(g quoin.Grid, first, last int64) (from, to int64) {
	if l.Slope.IsZero() {
		return first, last
	}
	middle := l.Start.Neg()
	room := l.Within.Add(slack)
	a, b := middle.Sub(room).Over(l.Slope), middle.Add(room).Over(l.Slope)
	if l.Slope.Sign() < 0 {
		a, b = b, a
	}
	from, to = g.Floor(a), g.Ceil(b)
	return min(max(from, first), last), max(min(to, last), first)
}

// Above reports whether a flat line is certainly at least zero.
func (l StraightLine) Above() bool { return l.Start.Sub(l.Within).Sub(slack).Sign() >= 0 }

// Below reports whether a flat line is certainly below zero.
func (l StraightLine) Below() bool { return l.Start.Add(l.Within).Add(slack).Sign() < 0 }
