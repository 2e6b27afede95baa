package channel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// part is a run of prices on which the same promotions do the same, so that what
// the items come to is a straight line, which rises or is flat. The room of its lines is
// that of the unit price, and of roundings of their own.
type part struct {
	first, last int64
	unit, gross orderLine // of one item, and of all before codes
	unreduced   orderLine // items before the discount of a shop on consignment
	items       orderLine
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
			without, with := p.cut(c.setsIn(p, o.Offer, n))
			out = slices.Concat(out, without, c.reduced(with, o.Offer, n))
		}
		parts = out
	}
	return parts
}

// setsIn is the first price of a part at which code n sets in, one beyond it
// where there is none.
func (c kindCurve) setsIn(p part, o promo.Offer, n int) int64 {
	switch {
	case o.From.Sign() <= 0:
		return p.first
	case o.Test == promo.Before:
		return c.reach(p.first, p.last, c.line(p.gross), o.From, c.gross)
	}
	return c.reach(p.first, p.last, c.line(p.items), o.From, c.leftAfter(n))
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
		p.items = c.off(p.items.times(o.Rate.Complement()), o)
	case !o.Amount.IsZero():
		amount := o.Amount.Round(c.t.places, o.Rounding)
		free, paid := p.cut(c.reach(p.first, p.last, c.line(p.items), amount, c.leftAfter(n)))
		for i := range free {
			free[i].items = orderLine{}
		}
		for i := range paid {
			paid[i].items = paid[i].items.plus(level(amount.Neg()))
		}
		return append(free, paid...)
	case o.FreeOf(count) > 0:
		p.items = c.off(p.items.times(quoin.FactorOf(count-o.FreeOf(count)).Over(quoin.FactorOf(count))), o)
	case onSale:
		return c.onSale(p, sale, o, n)
	}
	return []part{p}
}

// onSale is a part with an item at a sale price where that is less.
func (c kindCurve) onSale(p part, sale quoin.Amount, o promo.Offer, n int) []part {
	unit := func(i int64) quoin.Amount { return c.sale(i).Unit }
	whole := sale.Times(quoin.FactorOf(c.k().ItemsOr1()))
	more := sale.Round(c.t.places, quoin.Down).Add(quoin.AmountOf(1, c.t.places)) // the least unit price above it
	below, above := p.cut(c.reach(p.first, p.last, c.line(p.unit), more, unit))
	for _, p := range above {
		less, more := p.cut(c.reach(p.first, p.last, c.line(p.items), whole, c.leftAfter(n)))
		for i := range more {
			more[i].items = c.off(level(whole), o)
		}
		below = append(append(below, less...), more...)
	}
	return below
}

// leftAfter is what the items come to at a price after the first n codes.
func (c kindCurve) leftAfter(n int) func(i int64) quoin.Amount {
	return func(i int64) quoin.Amount {
		e := c.t.order(c.k())
		s := sale{count: e.count(), unit: e.unit(listPrice(c.g.Price(i)))}
		return amountOf(e.left(e.gross(s.unit, s.count), &s, 0, n))
	}
}

func (c kindCurve) gross(i int64) quoin.Amount { return c.leftAfter(0)(i) }

// free is the first price of a part at which postage is free, one beyond it where
// there is none.
func (c kindCurve) free(p part, from quoin.Amount) int64 {
	from = from.Sub(c.k().worth())
	if c.k().FreeTest == promo.Before {
		return c.reach(p.first, p.last, c.line(p.gross), from, c.gross)
	}
	return c.reach(p.first, p.last, c.line(p.items), from, c.leftAfter(len(c.k().offers)))
}

// cents gives a line room for rounding to money.
func (c kindCurve) cents(l orderLine) orderLine { return l.loosen(c.half()) }

// off gives what an offer leaves room for the rounding of what it takes off.
func (c kindCurve) off(l orderLine, o promo.Offer) orderLine { return l.loosen(c.roomOf(o.Rounding)) }

// roomOf is how far a rounding to money can move a figure.
func (c kindCurve) roomOf(how quoin.Rounding) quoin.Amount {
	if how == quoin.Up || how == quoin.Down {
		return quoin.AmountOf(1, c.t.places)
	}
	return c.half()
}

// line is a line of a part, before the items are taken for what they are.
func (c kindCurve) line(l orderLine) StraightLine { return l.line(rooms{unit: c.unitRoom()}) }

// unitRoom is how far the unit price is moved: not at all where every price on the grid
// gives whole cents.
func (c kindCurve) unitRoom() quoin.Amount {
	switch {
	case c.t.points != nil:
		return c.t.points.room()
	case !c.wholeCents(c.k().keep):
		return c.half()
	}
	return quoin.Amount{}
}

// unitLine is the price of one item.
func (c kindCurve) unitLine() orderLine {
	unit := orderLine{slope: c.k().keep}
	if !c.unitRoom().IsZero() {
		unit.unit = quoin.FactorOf(1)
	}
	return unit
}

// grossLine is what the items come to before codes. A unit price is whole cents, and so
// are whole numbers of it.
func (c kindCurve) grossLine(unit orderLine) orderLine {
	items := unit.times(c.k().take)
	if c.k().take.Places() == 0 || unit.unit.IsZero() && c.wholeCents(items.slope) {
		return items
	}
	return c.cents(items)
}

func (c kindCurve) wholeCents(slope quoin.Factor) bool {
	step := c.g.Step().Times(slope)
	return step.Equal(step.Round(c.t.places, quoin.Down))
}

func (c kindCurve) half() quoin.Amount { return quoin.AmountOf(5, c.t.places+1) }

// saleLines are the lines of an order's parts while its shipping stays. Held is the tax
// in the price of what is taxed.
type saleLines struct {
	parts[orderLine]
	rooms         rooms
	held, revenue orderLine
	mixed         mixedTax
	narrow        func(first, last int64) saleLines
}

// on is the same on fewer of the prices, where that is closer.
func (l saleLines) on(first, last int64) saleLines {
	if l.narrow == nil {
		return l
	}
	return l.narrow(first, last)
}

func (c kindCurve) lines(p part, s Settlement, first, last int64) saleLines {
	l := saleLines{rooms: rooms{unit: c.unitRoom(), items: p.items.own, tax: c.half()}}
	l.items, l.shipping = p.items, level(s.Shipping)
	if l.items.own = (quoin.Amount{}); !p.items.own.Equal(l.items.own) {
		l.items.items = quoin.FactorOf(1)
	}
	if l.unreduced = p.unreduced; !c.k().reduced {
		l.unreduced = l.items
	}
	l.discount = p.unit.times(quoin.FactorOf(s.Count)).minus(l.items)
	l.full = p.unit.times(quoin.FactorOf(s.Count))
	l.revenue = l.items.plus(l.shipping)
	if c.k().untaxed() {
		return c.withSurcharge(l, s)
	}
	goods, shipped := l.items, c.k().onShipping && !s.Shipping.IsZero()
	if c.of() == OfFullPrice {
		goods = l.full
	}
	if c.k().mixed {
		l.mixed, shipped = c.mixed(l.items, first, last), true
		l.narrow = func(first, last int64) saleLines { return c.lines(p, s, first, last) }
	}
	tax := c.taxLine(goods, l, shipped)
	l.rooms.tax = c.taxRoom(l, shipped)
	tax.tax = tax.tax.Add(quoin.FactorOf(1))
	if c.t.inPrice {
		l.held = tax
		l.revenue = l.revenue.minus(tax)
	} else {
		l.tax = tax
	}
	return c.withSurcharge(l, s)
}

// of is what the tax of items is taken of.
func (c kindCurve) of() TaxBase { return c.t.channel.Tax.Of }

// taxLine is the tax in what is taxed, or on top of it.
func (c kindCurve) taxLine(goods orderLine, l saleLines, shipped bool) orderLine {
	tax := goods.times(c.k().onGoods)
	switch {
	case !shipped:
		return tax
	case c.k().mixed:
		return tax.plus(l.mixed.own)
	}
	return tax.plus(l.shipping.times(c.k().onPostage))
}

// taxRoom is how far rounding can move the tax: by what is rounded as one, and by the cents that
// are shared out to the parts of an item.
func (c kindCurve) taxRoom(l saleLines, shipped bool) quoin.Amount {
	tax, k := &c.t.channel.Tax, c.k()
	if shipped && k.mixed {
		return c.taxRoom(l, false).Add(l.mixed.ownRoom)
	}
	each := c.roomOf(tax.Rounding)
	goods, postage := int64(1), int64(0)
	parted := tax.Per == PerTaxedLine || tax.Per == PerTaxedUnit
	if parted && shipped {
		postage = 1
	}
	if tax.Per == PerTaxedUnit {
		goods = k.ItemsOr1()
	}
	if len(k.parts) == 0 {
		return each.Times(quoin.FactorOf(goods + postage))
	}
	parts := int64(len(k.parts))
	sharedOut := quoin.Factor{}
	for _, p := range k.parts {
		sharedOut = sharedOut.Add(k.ofAmount(p.rate))
	}
	if shipped {
		sharedOut, parts = sharedOut.Add(sharedOut), 2*parts
	}
	return each.Times(quoin.FactorOf(parts)).Add(quoin.AmountOf(1, c.t.places).Times(sharedOut))
}

// heldIn is the tax in the price that some parts of an order hold: that of the order
// itself where they are just what it taxes.
func (c kindCurve) heldIn(f *compiledFee, l saleLines) orderLine {
	parts := f.parts()
	full := c.of() == OfFullPrice
	var goods orderLine
	same := !full || f.asTaxed
	for i, p := range parts {
		if !p.holdsTax(c.k().onShipping) || p == Shipping {
			continue
		}
		if full && f.asTaxed && p == Items {
			goods = goods.plus(l.full)
		} else {
			goods = goods.plus(l.part(p))
		}
		same = same && p != Discount && p != unreduced && !slices.Contains(parts[:i], p)
	}
	shipped := c.k().onShipping && slices.Contains(parts, Shipping)
	if same && slices.Contains(parts, Items) && (!c.k().onShipping || shipped) {
		return l.held
	}
	return c.taxLine(goods, l, shipped).loosen(c.taxRoom(l, shipped))
}
