package margin

import (
	"iter"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Stretch is a run of neighbouring prices on which what an item leaves is a
// straight line in the list price, but for the cents of each rounding: a piece of
// the curve of a sale, exact enough to be drawn from its ends.
type Stretch struct {
	First, Last quoin.Amount // prices
	Lines
}

// Lines is what an item leaves as straight lines in the list price, as in a
// statement. Net is none of them: it bends where operating passes zero.
type Lines struct{ Revenue, Gross, Contribution, Operating channel.Line }

// Lines returns what the sale leaves on a piece of its terms' curve.
func (s Sale) Lines(p channel.Piece) Lines {
	l := Lines{Revenue: p.Revenue}
	l.Gross = p.Revenue.Add(channel.Flat(s.GoodsPerItem().Neg()))
	l.Contribution = p.Kept.Add(channel.Flat(s.GoodsPerItem().Add(p.Fulfilment).Add(s.Selling).Neg()))
	l.Operating = l.Contribution.Add(channel.Flat(s.Overhead.Neg()))
	return l
}

// Stretches returns the curve of the sale over the prices of a grid, in rising
// order and without a gap. They break where postage becomes free, a fee reaches a
// tier or a bound, or a promotion sets in; how many they are does not follow from
// how many prices there are.
func (s Sale) Stretches(g quoin.Grid) []Stretch {
	pieces := s.Terms.Curve(g)
	out := make([]Stretch, len(pieces))
	for i, p := range pieces {
		out[i] = Stretch{g.Price(p.First), g.Price(p.Last), s.Lines(p)}
	}
	return out
}

// Along returns the statement at each of some prices, such as those that a slider
// passes, in their order.
func (s Sale) Along(prices iter.Seq[quoin.Amount]) iter.Seq2[quoin.Amount, Statement] {
	return func(yield func(quoin.Amount, Statement) bool) {
		for p := range prices {
			if !yield(p, s.At(p)) {
				return
			}
		}
	}
}
