package rule

import (
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// CompiledChannel is a channel's terms with their curve on one grid. Both are the same for every
// product, so they are worked out once. What the worst case needs is worked out when a
// rule first asks for it. CompileChannel makes a CompiledChannel; it is safe for concurrent use.
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

// CompileChannel works out the curve of a channel on a grid.
func CompileChannel(terms channel.Terms, g quoin.Grid) *CompiledChannel {
	s := &CompiledChannel{terms: terms, grid: g, curve: terms.Curve(g)}
	s.gauge = newGauge(terms, g, s.curve)
	s.falls = s.fallsOn(g)
	return s
}

// Offer puts a sale on the terms of the channel. It is on these terms, whatever terms it
// came with, and has goods for each of their kinds of order.
func (s *CompiledChannel) Offer(sale margin.Sale) Offer {
	if s == nil || s.grid.Len() == 0 {
		panic("quoin: an offer without terms: CompileChannel makes one")
	}
	sale.Terms = s.terms
	return Offer{Channel: s.terms.Channel(), Sale: sale, compiled: s, costs: s.gauge.costs(sale)}
}

// byKind returns the terms of each kind of order by itself, compiled.
func (s *CompiledChannel) byKind() ([]channel.Terms, []*CompiledChannel) {
	s.once.Do(func() {
		s.kinds = s.terms.Worst()
		s.apart = make([]*CompiledChannel, len(s.kinds))
		for i, t := range s.kinds {
			s.apart[i] = CompileChannel(t, s.grid)
		}
	})
	return s.kinds, s.apart
}

// Offer is a product in a channel. A CompiledChannel makes it, and With another of it: Sale is not
// to be changed in place. An Offer of a channel and a sale alone can be judged, and rules
// are not decided with it.
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

// Curve returns what the sale's terms keep of the prices of the grid, as pieces in rising
// order; none where the offer was made by no CompiledChannel.
func (o Offer) Curve() []channel.Piece {
	if o.compiled == nil {
		return nil
	}
	return slices.Clone(o.compiled.curve)
}

// Worst returns the offer by each kind of order by itself, with every fee that is charged
// only sometimes charged in full: what a rule about the worst case asks.
func (o Offer) Worst() []Offer { return o.worst() }

func (o *Offer) worst() []Offer {
	if o.compiled == nil {
		sales := o.Sale.Worst()
		out := make([]Offer, len(sales))
		for i, sale := range sales {
			out[i] = Offer{Channel: o.Channel, Sale: sale}
		}
		return out
	}
	kinds, apart := o.compiled.byKind()
	out := make([]Offer, len(kinds))
	for i, sale := range o.Sale.WorstBy(kinds) {
		out[i] = apart[i].Offer(sale)
		out[i].Channel = o.Channel
	}
	return out
}
