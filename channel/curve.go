package channel

import (
	"slices"
	"sort"

	"example.com/quoin"
)

// Piece is a run of neighbouring prices on which the proceeds of one item are a straight line
// in the list price, except for rounding.
type Piece struct {
	First, Last int64        // indexes on the grid
	Revenue     StraightLine // per item, averaged over the kinds of order
	Fees        StraightLine
	// Kept is revenue without fees. What rounding adds to both cancels here, so its room
	// can be far smaller than the rooms of the two added up: a flat fee has none.
	Kept       StraightLine
	Fulfilment quoin.Amount
	// Cents is the part of the room of Kept that comes from rounding to money; the rest
	// comes from a PricePoints.
	Cents quoin.Amount
}

// Curve returns the pieces that cover the grid, in order. A new piece begins where postage
// becomes free, and where a fee reaches a tier or a bound. So the number of pieces depends on
// the terms, never on the number of prices.
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
		sum.Kept = sum.Kept.Add(p.Kept.Times(share))
		sum.Cents = sum.Cents.Add(p.Cents.Times(share))
	}
	if t.abroad {
		sum.Revenue, sum.Fees, sum.Kept = sum.Revenue.Times(t.home), sum.Fees.Times(t.home), sum.Kept.Times(t.home)
	}
	sum.Revenue, sum.Fees, sum.Kept = sum.Revenue.Over(t.perOrder), sum.Fees.Over(t.perOrder), sum.Kept.Over(t.perOrder)
	sum.Cents = t.Home(sum.Cents).Over(t.perOrder)
	sum.Fulfilment = t.sent
	return sum
}

// kindCurve finds the pieces of one kind of order.
type kindCurve struct {
	t    Terms
	kind int
	g    quoin.Grid
}

func (c kindCurve) k() *kind { return &c.t.kinds[c.kind] }

// sale is an order at a price, without its fees.
func (c kindCurve) sale(i int64) Settlement {
	list := c.g.Price(i)
	s := c.t.order(c.k()).sale(listPrice(list))
	return c.t.settlement(c.k(), &s, list)
}

// charge is a fee on an order at a price.
func (c kindCurve) charge(l *compiledFee, i int64) chargedFee {
	e := c.t.order(c.k())
	s := e.sale(listPrice(c.g.Price(i)))
	s.paid.discount = e.discount(&s)
	_, fee := e.fee(l, quoin.Path{}, &s.paid, s.count)
	if c.k().mixed {
		fee.othersTax = amountOf(e.besides.shippingTax)
	}
	return fee
}

// pieces breaks the grid where promotions set in and where postage becomes
// free, then each part where a fee changes its form.
func (c kindCurve) pieces() []Piece {
	var out []Piece
	for _, part := range c.parts() {
		free := part.last + 1
		if from, given := c.k().FreeFrom.Get(); given {
			free = c.free(part, from)
		}
		for _, p := range [][2]int64{{part.first, free - 1}, {free, part.last}} {
			if p[0] > p[1] {
				continue
			}
			for _, run := range c.mixedRuns(part, p[0], p[1]) {
				out = append(out, c.within(part, run[0], run[1])...)
			}
		}
	}
	return out
}

// within finds the pieces between two prices of a part with the same shipping:
// those of each fee, put together.
func (c kindCurve) within(part part, first, last int64) []Piece {
	s := c.sale(first)
	lines := c.lines(part, s, first, last)
	var fees [][]feePiece
	cuts := []int64{first}
	for i := range c.t.compiledFees {
		l := &c.t.compiledFees[i]
		if !l.on(c.k()) {
			continue
		}
		pieces := c.feePieces(l, lines, first, last)
		for _, p := range pieces[1:] {
			cuts = append(cuts, p.first)
		}
		fees = append(fees, pieces)
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	out := make([]Piece, len(cuts))
	for i, cut := range cuts {
		var sum orderLine
		for j, pieces := range fees {
			if len(pieces) > 1 && pieces[1].first <= cut {
				fees[j] = pieces[1:]
			}
			sum = sum.plus(fees[j][0].line)
		}
		out[i] = c.piece(lines, sum)
		out[i].First, out[i].Last, out[i].Fulfilment = cut, last, s.Fulfilment
		if i > 0 {
			out[i-1].Last = cut - 1
		}
	}
	return out
}

// piece is what revenue and fees of an order come to on a piece.
func (c kindCurve) piece(lines saleLines, fees orderLine) Piece {
	kept := lines.revenue.minus(fees)
	cents := lines.rooms
	if c.t.points != nil {
		cents.unit = quoin.Amount{}
	}
	return Piece{
		Revenue: lines.revenue.line(lines.rooms), Fees: fees.line(lines.rooms), Kept: kept.line(lines.rooms),
		Cents: kept.line(cents).Within,
	}
}

// reach returns the least index from first to last at which the rising value
// comes up to v, last+1 where it does not. The line says where to look: a few
// prices around its crossing, however many there are.
func (c kindCurve) reach(first, last int64, line StraightLine, v quoin.Amount, value func(int64) quoin.Amount) int64 {
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
