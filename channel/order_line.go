package channel

import "example.com/quoin"

// orderLine is a figure of one order as a straight line in the list price. It tells apart
// what moves the figure off the line: the rounding of the unit price, that of the items,
// that of the tax, and roundings of its own. So what moves two figures alike is gone
// where one is taken off the other, as the tax is where a fee is of the price without it.
type orderLine struct {
	slope quoin.Factor
	start quoin.Amount
	// unit, items and tax are how often the figure holds what rounding adds to each.
	unit, items, tax quoin.Factor
	own              quoin.Amount // room of its own roundings
}

// rooms is how far rounding can move the unit price, the items and the tax of an order.
type rooms struct{ unit, items, tax quoin.Amount }

// level is the figure that is a at every price.
func level(a quoin.Amount) orderLine { return orderLine{start: a} }

func (l orderLine) plus(m orderLine) orderLine {
	return orderLine{
		l.slope.Add(m.slope), l.start.Add(m.start),
		l.unit.Add(m.unit), l.items.Add(m.items), l.tax.Add(m.tax), l.own.Add(m.own),
	}
}

func (l orderLine) minus(m orderLine) orderLine { return l.plus(m.times(quoin.FactorOf(-1))) }

func (l orderLine) times(f quoin.Factor) orderLine {
	return orderLine{l.slope.Times(f), l.start.Times(f), l.unit.Times(f), l.items.Times(f), l.tax.Times(f), l.own.Times(absolute(f))}
}

func (l orderLine) over(f quoin.Factor) orderLine {
	return orderLine{l.slope.Over(f), l.start.Over(f), l.unit.Over(f), l.items.Over(f), l.tax.Over(f), l.own.Over(f)}
}

// loosen adds room on both sides.
func (l orderLine) loosen(by quoin.Amount) orderLine {
	l.own = l.own.Add(by)
	return l
}

// constant reports whether the figure has one value, exactly.
func (l orderLine) constant() bool {
	return l.slope.IsZero() && l.unit.IsZero() && l.items.IsZero() && l.tax.IsZero() && l.own.IsZero()
}

// line is the figure with all that can move it in one room.
func (l orderLine) line(r rooms) StraightLine {
	within := l.own.Add(r.unit.Times(absolute(l.unit))).Add(r.items.Times(absolute(l.items))).Add(r.tax.Times(absolute(l.tax)))
	return StraightLine{l.slope, l.start, within}
}

func absolute(f quoin.Factor) quoin.Factor {
	if f.Sign() < 0 {
		return quoin.FactorOf(-1).Times(f)
	}
	return f
}
