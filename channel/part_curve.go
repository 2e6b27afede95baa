package channel

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// part is a run of prices on which the same promotions do the same, so that what
// the items come to is a straight line, which rises or is flat.
type part struct {
	first, last int64
	unit, gross Line // of one item, and of all before codes
	unreduced   Line // items before the discount of a shop on consignment
	items       Line
}

// parts breaks the grid where codes set in, and where they have taken all.
func (c kindCurve) parts() []part {
	unit := c.unitLine()
	gross := c.grossLine(unit)
	parts := []part{{first: 1, last: c.g.Len(), unit: unit, gross: gross, items: gross}}
	for n, o := range c.k().offers {
		var out []part
		for _, p := range parts {
			p.unreduced = p.items
			for _, p := range c.threshold(p, o.Offer, n) {
				out = append(out, p...)
			}
		}
		parts = out
	}
	if !c.k().reduced {
		for i := range parts {
			parts[i].unreduced = parts[i].items
		}
	}
	return parts
}

// threshold breaks a part where code n sets in.
func (c kindCurve) threshold(p part, o promo.Offer, n int) [][]part {
	without, with := p.cut(c.setsIn(p, o, n))
	return [][]part{without, c.reduced(with, o, n)}
}

// setsIn is the first price of a part at which code n sets in, one beyond it
// where there is none.
func (c kindCurve) setsIn(p part, o promo.Offer, n int) int64 {
	switch {
	case o.From.Sign() <= 0:
		return p.first
	case o.Test == promo.Before:
		return c.reach(p.first, p.last, p.gross, o.From, c.gross)
	}
	return c.reach(p.first, p.last, p.items, o.From, c.leftAfter(n))
}

// cut breaks a part at a price: what lies before it, and from it on.
func (p part) cut(at int64) (before, from []part) {
	if p.first < at {
		b := p
		b.last = min(at-1, p.last)
		before = []part{b}
	}
	if at <= p.last {
		f := p
		f.first = max(at, p.first)
		from = []part{f}
	}
	return before, from
}

// reduced is a part, or nothing, with what code n takes off in it.
func (c kindCurve) reduced(parts []part, o promo.Offer, n int) []part {
	if len(parts) == 0 {
		return nil
	}
	p, count := parts[0], c.k().ItemsOr1()
	switch sale, onSale := o.Sale.Get(); {
	case !o.Rate.IsZero():
		p.items = c.cents(p.items.Times(o.Rate.Complement()))
	case !o.Amount.IsZero():
		amount := o.Amount.Round(c.t.places, quoin.HalfUp)
		free, paid := p.cut(c.reach(p.first, p.last, p.items, amount, c.leftAfter(n)))
		for i := range free {
			free[i].items = Line{}
		}
		for i := range paid {
			paid[i].items = paid[i].items.Add(Flat(amount.Neg()))
		}
		return append(free, paid...)
	case o.FreeOf(count) > 0:
		p.items = c.cents(p.items.Times(quoin.FactorOf(count - o.FreeOf(count)).Over(quoin.FactorOf(count))))
	case onSale:
		return c.onSale(p, sale, n)
	}
	return []part{p}
}

// onSale is a part with an item at a sale price where that is less.
func (c kindCurve) onSale(p part, sale quoin.Amount, n int) []part {
	unit := func(i int64) quoin.Amount { return c.sale(i).Unit }
	whole := sale.Times(quoin.FactorOf(c.k().ItemsOr1()))
	more := sale.Round(c.t.places, quoin.Down).Add(quoin.AmountOf(1, c.t.places)) // the least unit price above it
	below, above := p.cut(c.reach(p.first, p.last, p.unit, more, unit))
	for _, p := range above {
		less, more := p.cut(c.reach(p.first, p.last, p.items, whole, c.leftAfter(n)))
		for i := range more {
			more[i].items = c.cents(Flat(whole))
		}
		below = append(append(below, less...), more...)
	}
	return below
}

// leftAfter is what the items come to at a price after the first n codes.
func (c kindCurve) leftAfter(n int) func(i int64) quoin.Amount {
	return func(i int64) quoin.Amount {
		unit := c.t.unit(c.k(), c.g.Price(i))
		return c.t.left(c.k(), unit, c.t.items(c.k(), unit), n)
	}
}

func (c kindCurve) gross(i int64) quoin.Amount { return c.leftAfter(0)(i) }

// free is the first price of a part at which postage is free, one beyond it where
// there is none.
func (c kindCurve) free(p part, from quoin.Amount) int64 {
	if c.k().FreeTest == promo.Before {
		return c.reach(p.first, p.last, p.gross, from, c.gross)
	}
	return c.reach(p.first, p.last, p.items, from, c.leftAfter(len(c.k().offers)))
}

// cents gives a line room for rounding to money.
func (c kindCurve) cents(l Line) Line { return l.loosen(c.half()) }

// unitLine is the price of one item, with no room at all where every price on
// the grid gives whole cents.
func (c kindCurve) unitLine() Line {
	unit := Line{Slope: c.k().keep}
	switch {
	case c.t.tag != nil:
		return unit.loosen(c.t.tag.room())
	case !c.wholeCents(unit.Slope):
		return c.cents(unit)
	}
	return unit
}

// grossLine is what the items come to before codes.
func (c kindCurve) grossLine(unit Line) Line {
	items := unit.Times(c.k().take)
	if !unit.Within.IsZero() || !c.wholeCents(items.Slope) {
		return c.cents(items)
	}
	return items
}

func (c kindCurve) wholeCents(slope quoin.Factor) bool {
	step := c.g.Step().Times(slope)
	return step.Equal(step.Round(c.t.places, quoin.Down))
}

func (c kindCurve) half() quoin.Amount { return quoin.AmountOf(5, c.t.places+1) }

// saleLines are the lines of an order's parts while its shipping stays.
type saleLines struct{ items, unreduced, discount, shipping, tax, revenue Line }

func (c kindCurve) lines(p part, s Settlement) saleLines {
	l := saleLines{items: p.items, unreduced: p.unreduced, shipping: Flat(s.Shipping)}
	l.discount = p.unit.Times(quoin.FactorOf(s.Count)).Add(p.items.Times(quoin.FactorOf(-1)))
	taxable := l.items
	if c.k().onShipping {
		taxable = taxable.Add(l.shipping)
	}
	share := c.k().tax.Factor()
	if c.t.inPrice {
		share = c.k().within
	}
	if !share.IsZero() {
		l.tax = c.cents(taxable.Times(share))
	}
	l.revenue = l.items.Add(l.shipping)
	if c.t.inPrice {
		l.revenue = l.revenue.Add(l.tax.Times(quoin.FactorOf(-1)))
		l.tax = Line{}
	}
	return l
}
