package channel

import (
	"slices"

	"example.com/quoin"
)

// Alike returns the last price of a grid, at most last, up to which every kind of order has the
// same unit price as at the price with index i. Up to there nothing changes in a sale. It
// returns i if every price of the grid has its own unit price. With PricePoints, or a currency
// with coarser units, many list prices share one.
func (t Terms) Alike(g quoin.Grid, i, last int64) int64 {
	if !t.shares(g) {
		return i
	}
	for k := range t.kinds {
		last = t.sameUnit(k, g, i, last)
	}
	return last
}

// shares reports whether neighbouring list prices may have one unit price.
func (t Terms) shares(g quoin.Grid) bool {
	minor := quoin.AmountOf(1, t.places)
	return t.tag != nil || slices.ContainsFunc(t.kinds, func(k kind) bool { return g.Step().Times(k.keep).Cmp(minor) < 0 })
}

// sameUnit looks in strides that double, and halves the last one: unit prices never
// fall as list prices rise.
func (t Terms) sameUnit(kind int, g quoin.Grid, i, last int64) int64 {
	same := t.unitIs(kind, g, i)
	low, stride := i, int64(1)
	for low < last && same(min(low+stride, last)) {
		low = min(low+stride, last)
		stride *= 2
	}
	for high := min(low+stride, last+1); low+1 < high; {
		if middle := low + (high-low)/2; same(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// unitIs returns whether a price of the grid has the unit price that the one with index
// i has: in whole numbers where terms have a plan and a tag.
func (t Terms) unitIs(kind int, g quoin.Grid, i int64) func(j int64) bool {
	if t.fast != nil && t.tag != nil {
		k, tag := &t.fast.kinds[kind], t.fast.tag
		step, whole := g.Step().Units(t.fast.list)
		at := func(j int64) (uint64, bool) {
			list, fits := times(uint64(j), uint64(step))
			unit, ok := tag.nearest(k.keep, list)
			return unit, ok && fits
		}
		if _, ok := at(g.Len()); ok && whole {
			unit, _ := at(i)
			return func(j int64) bool { u, _ := at(j); return u == unit }
		}
	}
	k := &t.kinds[kind]
	e := t.order(k)
	unit := func(j int64) quoin.Amount { return amountOf(e.unit(listPrice(g.Price(j)))) }
	same := unit(i)
	return func(j int64) bool { return unit(j).Equal(same) }
}
