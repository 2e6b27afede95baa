package margin

import (
	"iter"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// CurvePiece is a run of neighbouring prices on which what an item leaves is a straight line in
// the list price, except for rounding. It can be drawn from its two ends.
type CurvePiece struct {
	First, Last quoin.Amount // prices
	StatementLines
}

// StatementLines are the lines of a statement as straight lines in the list price. Net is not
// one of them: it bends where operating income passes zero.
type StatementLines struct{ Revenue, Gross, Contribution, Operating channel.StraightLine }

// Lines returns the lines of the statement on a piece of the curve of the sale's terms.
func (s Sale) Lines(p channel.Piece) StatementLines {
	l := StatementLines{Revenue: p.Revenue}
	l.Gross = p.Revenue.Add(channel.Flat(s.GoodsPerItem().Neg()))
	l.Contribution = p.Kept.Add(channel.Flat(s.GoodsPerItem().Add(p.Fulfilment).Add(s.FixedCost).Neg()))
	l.Operating = l.Contribution.Add(channel.Flat(s.Overhead.Neg()))
	return l
}

// Curve returns the curve of the sale over the prices of a grid, in rising order and without a
// gap. A new piece begins where postage becomes free, a fee reaches a tier or a bound, or a
// promotion begins. So their number does not depend on the number of prices.
func (s Sale) Curve(g quoin.Grid) []CurvePiece {
	pieces := s.Terms.Curve(g)
	out := make([]CurvePiece, len(pieces))
	for i, p := range pieces {
		out[i] = CurvePiece{g.Price(p.First), g.Price(p.Last), s.Lines(p)}
	}
	return out
}

// StatementsAt returns the statement at each of some prices, in their order, such as those that
// a slider passes.
func (s Sale) StatementsAt(prices iter.Seq[quoin.Amount]) iter.Seq2[quoin.Amount, Statement] {
	return func(yield func(quoin.Amount, Statement) bool) {
		for p := range prices {
			if !yield(p, s.At(p)) {
				return
			}
		}
	}
}
