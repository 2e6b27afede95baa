package channel

import (
	"slices"
	"sort"

	"example.com/quoin"
)

// Piece is a run of neighbouring prices on which what one item brings is a
// straight line in the list price, but for the cents of each rounding.
type Piece struct {
	First, Last int64 // indexes on the grid
	Revenue     Line  // per item, averaged over the kinds of order
	Fees        Line
	Fulfilment  quoin.Amount
}

// Curve returns the pieces that cover the grid, in order. They break where
// postage becomes free, where a fee reaches a tier or a bound; so their number
// follows from the terms, and never from how many prices there are.
func (t Terms) Curve(g quoin.Grid) []Piece {
	kinds := make([][]Piece, len(t.kinds))
	for i := range t.kinds {
		kinds[i] = kindCurve{t, i, g}.pieces()
	}
	var out []Piece
	for first := int64(1); first <= g.Len(); first = out[len(out)-1].Last + 1 {
		out = append(out, t.averaged(kinds, first))
	}
	return out
}

// averaged puts the kinds' pieces that hold the price first together.
func (t Terms) averaged(kinds [][]Piece, first int64) Piece {
	sum := Piece{First: first, Last: kinds[0][len(kinds[0])-1].Last}
	for i, pieces := range kinds {
		at := sort.Search(len(pieces), func(j int) bool { return pieces[j].Last >= first })
		p, share := pieces[at], t.kinds[i].share
		sum.Last = min(sum.Last, p.Last)
		sum.Revenue = sum.Revenue.Add(p.Revenue.Times(share))
		sum.Fees = sum.Fees.Add(p.Fees.Times(share))
		sum.Fulfilment = sum.Fulfilment.Add(t.kinds[i].fulfilment.Times(share))
	}
	sum.Revenue, sum.Fees = sum.Revenue.Over(t.perOrder), sum.Fees.Over(t.perOrder)
	sum.Fulfilment = sum.Fulfilment.Over(t.perOrder)
	return sum
}

// kindCurve finds the pieces of one kind of order.
type kindCurve struct {
	t    Terms
	kind int
	g    quoin.Grid
}

func (c kindCurve) k() *kind { return &c.t.kinds[c.kind] }

func (c kindCurve) sale(i int64) Settlement { return c.t.sale(c.kind, c.g.Price(i)) }

// pieces breaks the grid where postage becomes free, then each part where a
// fee changes its form.
func (c kindCurve) pieces() []Piece {
	free := c.g.Len() + 1
	if from, given := c.k().FreeFrom.Get(); given {
		free = c.reach(1, c.g.Len(), c.itemsLine(), from, func(i int64) quoin.Amount { return c.sale(i).Items })
	}
	var out []Piece
	for _, part := range [][2]int64{{1, free - 1}, {free, c.g.Len()}} {
		if part[0] <= part[1] {
			out = append(out, c.within(part[0], part[1])...)
		}
	}
	return out
}

// within finds the pieces between two prices with the same shipping: those of
// each fee, put together.
func (c kindCurve) within(first, last int64) []Piece {
	s := c.sale(first)
	lines := c.lines(s)
	fees := make([][]feePiece, len(c.t.fees))
	cuts := []int64{first}
	for i, f := range c.t.fees {
		fees[i] = c.feePieces(f, lines, first, last)
		for _, p := range fees[i][1:] {
			cuts = append(cuts, p.first)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	out := make([]Piece, len(cuts))
	for i, cut := range cuts {
		out[i] = Piece{First: cut, Last: last, Revenue: lines.revenue, Fulfilment: s.Fulfilment}
		if i > 0 {
			out[i-1].Last = cut - 1
		}
		for j, pieces := range fees {
			if len(pieces) > 1 && pieces[1].first <= cut {
				fees[j] = pieces[1:]
			}
			out[i].Fees = out[i].Fees.Add(fees[j][0].line)
		}
	}
	return out
}

// saleLines are the lines of an order's parts while its shipping stays.
type saleLines struct{ items, shipping, tax, revenue Line }

func (c kindCurve) lines(s Settlement) saleLines {
	l := saleLines{items: c.itemsLine(), shipping: Flat(s.Shipping)}
	taxable := l.items
	if c.k().onShipping {
		taxable = taxable.Add(l.shipping)
	}
	share := c.k().tax.Factor()
	if c.t.inPrice {
		share = c.k().within
	}
	if !share.IsZero() {
		l.tax = taxable.Times(share).loosen(c.half())
	}
	l.revenue = l.items.Add(l.shipping)
	if c.t.inPrice {
		l.revenue = l.revenue.Add(l.tax.Times(quoin.FactorOf(-1)))
		l.tax = Line{}
	}
	return l
}

// itemsLine is the items total, with no room at all where every price on the
// grid gives whole cents.
func (c kindCurve) itemsLine() Line {
	unit := Line{Slope: c.t.keep}
	if !c.wholeCents(unit.Slope) {
		unit = unit.loosen(c.half())
	}
	items := unit.Times(c.k().take)
	if !unit.Within.IsZero() || !c.wholeCents(items.Slope) {
		items = items.loosen(c.half())
	}
	return items
}

func (c kindCurve) wholeCents(slope quoin.Factor) bool {
	step := c.g.Step().Times(slope)
	return step.Equal(step.Round(c.t.places, quoin.Down))
}

func (c kindCurve) half() quoin.Amount { return quoin.AmountOf(5, c.t.places+1) }

// feePiece is a fee's line from a price on.
type feePiece struct {
	first int64
	line  Line
}

// feePieces breaks a fee where it reaches a tier or a bound.
func (c kindCurve) feePieces(f Fee, lines saleLines, first, last int64) []feePiece {
	base := func(i int64) quoin.Amount { return f.base(c.sale(i).paid(c.t.inPrice)) }
	tiers := []int64{first, last + 1}
	for _, tier := range f.Tiers {
		tiers = append(tiers, c.reach(first, last, f.baseLine(lines), tier.From, base))
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
			out = append(out, feePiece{cut, c.feeLine(f, c.sale(cut), lines)})
		}
	}
	return out
}

// boundCuts adds the prices at which the fee reaches its least and greatest
// amount, between two prices with the same tier.
func (c kindCurve) boundCuts(cuts []int64, f Fee, lines saleLines, first, last int64) []int64 {
	computed := func(i int64) quoin.Amount {
		return f.computed(f.base(c.sale(i).paid(c.t.inPrice)), c.k().ItemsOr1())
	}
	line := c.computedLine(f, c.sale(first), lines)
	if !f.AtLeast.IsZero() {
		cuts = append(cuts, c.reach(first, last, line, f.AtLeast, computed))
	}
	if most, given := f.AtMost.Get(); given {
		cuts = append(cuts, c.reach(first, last, line, most, computed))
	}
	return cuts
}

func (f Fee) baseLine(lines saleLines) Line {
	if len(f.Of) == 0 {
		return lines.items
	}
	var base Line
	for _, part := range f.Of {
		switch part {
		case Shipping:
			base = base.Add(lines.shipping)
		case SalesTax:
			base = base.Add(lines.tax)
		default:
			base = base.Add(lines.items)
		}
	}
	return base
}

// computedLine is the fee before its bounds, in the tier that s is in.
func (c kindCurve) computedLine(f Fee, s Settlement, lines saleLines) Line {
	base := f.base(s.paid(c.t.inPrice))
	rate := f.slope(base)
	offset := f.computed(base, s.Count).Sub(base.Part(rate))
	return f.baseLine(lines).Times(rate.Factor()).Add(Flat(offset))
}

// feeLine is the fee as charged, in the form that it has for s.
func (c kindCurve) feeLine(f Fee, s Settlement, lines saleLines) Line {
	line := c.computedLine(f, s, lines)
	computed := f.computed(f.base(s.paid(c.t.inPrice)), s.Count)
	most, given := f.AtMost.Get()
	if line.constant() || computed.Cmp(f.AtLeast) < 0 || given && computed.Cmp(most) >= 0 {
		return Flat(f.Charge(s.paid(c.t.inPrice), c.t.places).Total)
	}
	line = line.loosen(c.room(f))
	if !f.Tax.IsZero() {
		line = line.Add(line.Times(f.Tax.Factor()).loosen(c.room(f)))
	}
	return line.Times(f.Share.Or(whole).Factor())
}

// room is how far the fee's rounding can move it.
func (c kindCurve) room(f Fee) quoin.Amount {
	if f.Rounding == quoin.Up || f.Rounding == quoin.Down {
		return quoin.AmountOf(1, c.t.places)
	}
	return c.half()
}

// reach returns the least index from first to last at which the rising value
// comes up to v, last+1 where it does not. The line says where to look: a few
// prices around its crossing, however many there are.
func (c kindCurve) reach(first, last int64, line Line, v quoin.Amount, value func(int64) quoin.Amount) int64 {
	reached := func(i int64) bool { return value(i).Cmp(v) >= 0 }
	if line.Slope.IsZero() {
		if reached(first) {
			return first
		}
		return last + 1
	}
	from, to := line.Add(Flat(v.Neg())).Crossing(c.g, first, last)
	at := from + int64(sort.Search(int(to-from+1), func(n int) bool { return reached(from + int64(n)) }))
	if at > to {
		return last + 1
	}
	return at
}
