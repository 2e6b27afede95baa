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
	// Revenue, Gross, Contribution and Operating are as in a statement. Net is none
	// of them: it bends where operating passes zero.
	Revenue, Gross, Contribution, Operating channel.Line
}

// Stretches returns the curve of the sale over the prices of a grid, in rising
// order and without a gap. They break where postage becomes free, a fee reaches a
// tier or a bound, or a promotion sets in; how many they are does not follow from
// how many prices there are.
func (s Sale) Stretches(g quoin.Grid) []Stretch {
	pieces := s.Terms.Curve(g)
	out := make([]Stretch, len(pieces))
	minus := quoin.FactorOf(-1)
	goods := channel.Flat(s.GoodsPerItem().Neg())
	for i, p := range pieces {
		st := Stretch{First: g.Price(p.First), Last: g.Price(p.Last), Revenue: p.Revenue}
		st.Gross = p.Revenue.Add(goods)
		st.Contribution = st.Gross.Add(p.Fees.Times(minus)).Add(channel.Flat(p.Fulfilment.Add(s.Selling).Neg()))
		st.Operating = st.Contribution.Add(channel.Flat(s.Overhead.Neg()))
		out[i] = st
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
