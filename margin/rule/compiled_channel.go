package rule

import (
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// CompiledChannel is a channel's terms with their curve on one grid. Both are the same for
// every product, so they are computed once. What the worst case needs is computed when a rule
// first asks for it. CompileChannel makes one; it is safe for concurrent use.
type CompiledChannel struct {
	terms channel.Terms
	grid  quoin.Grid
	curve []channel.Piece
	falls []fall
	gauge *gauge

	once  sync.Once
	kinds []channel.Terms // of each kind of order by itself, once they were asked for
	apart []*CompiledChannel
}

// CompileChannel computes the curve of a channel on a grid.
func CompileChannel(terms channel.Terms, g quoin.Grid) *CompiledChannel {
	s := &CompiledChannel{terms: terms, grid: g, curve: terms.Curve(g)}
	s.gauge = newGauge(terms, g, s.curve)
	s.falls = s.fallsOn(g)
	return s
}

// Offer returns a sale in this channel. The sale gets the terms of the channel, whatever terms
// it had, and needs goods for each of their kinds of order.
func (s *CompiledChannel) Offer(sale margin.Sale) Offer {
	if s == nil || s.grid.Len() == 0 {
		panic("quoin: an offer without terms: CompileChannel makes one")
	}
	sale.Terms = s.terms
	return Offer{Channel: s.terms.Channel(), Sale: sale, compiled: s, costs: s.gauge.costs(&sale)}
}

// byKind returns the terms of each kind of order by itself, compiled.
func (s *CompiledChannel) byKind() ([]channel.Terms, []*CompiledChannel) {
	s.once.Do(func() {
		s.kinds = s.terms.Worst()
		s.apart = each(s.kinds, func(t channel.Terms) *CompiledChannel { return CompileChannel(t, s.grid) })
	})
	return s.kinds, s.apart
}

// Offer is a product in a channel. A CompiledChannel makes it, and With makes another one of
// it. Do not change Sale in place. An Offer that is built from a channel and a sale alone can
// be judged, but not decided.
type Offer struct {
	Channel string
	Sale    margin.Sale

	compiled *CompiledChannel // it stands on; nil where there is none
	costs    costs            // of the sale, as the gauge of the channel counts
}

// With returns the offer with another sale on the same terms.
func (o Offer) With(sale margin.Sale) Offer {
	if o.compiled == nil {
		o.Sale = sale
		return o
	}
	out := o.compiled.Offer(sale)
	out.Channel = o.Channel
	return out
}

// Curve returns the pieces of the channel's terms over the prices of the grid, in rising order.
// It returns nothing for an offer that no CompiledChannel made.
func (o Offer) Curve() []channel.Piece {
	if o.compiled == nil {
		return nil
	}
	return slices.Clone(o.compiled.curve)
}

// Worst returns the offer by each kind of order, with every fee in full that only some sales
// pay. Rules about the worst case test these.
func (o Offer) Worst() []Offer { return o.worst() }

func (o *Offer) worst() []Offer {
	if o.compiled == nil {
		return each(o.Sale.Worst(), func(sale margin.Sale) Offer { return Offer{Channel: o.Channel, Sale: sale} })
	}
	kinds, apart := o.compiled.byKind()
	out := make([]Offer, len(kinds))
	for i, sale := range o.Sale.WorstBy(kinds) {
		out[i] = apart[i].Offer(sale)
		out[i].Channel = o.Channel
	}
	return out
}
