package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin"
)

const (
	curvePixels = 200 // columns of a curve, of which each has four points at most
	mostSeen    = 200 // comparables that are listed one by one
)

// WithCurves returns the answer with what pictures are drawn from: of each product what a sale
// contributes in each channel, from half of the lower to twice the higher of the price and
// today's price; and its first 200 comparables, one by one. An answer that was read from JSON
// stays as it is: it has curves if it was written with them. The answer itself is not changed.
func (a Answer) WithCurves() Answer {
	a.Products = slices.Clone(a.Products)
	for i := range a.Products {
		if p := &a.Products[i]; p.ByChannel.of != nil {
			p.ByChannel.of.draw(p.ByChannel.at, p)
		}
	}
	return a
}

// draw adds what pictures of product i are drawn from.
func (d *decidedList) draw(i int, p *ProductResult) {
	it := &d.items[i]
	low := d.dec.Prices[i]
	high := low
	if today, ok := it.Today.Get(); ok && today.Sign() > 0 {
		low, high = slices.MinFunc([]quoin.Amount{low, today}, quoin.Amount.Cmp), slices.MaxFunc([]quoin.Amount{high, today}, quoin.Amount.Cmp)
	}
	p.Channels = slices.Clone(p.Channels)
	for n, o := range it.Offers {
		p.Channels[n].Curve = d.curve(o.Sale.Points(it.Grid, low.Part(perCent(50)), high.Times(quoin.FactorOf(2)), curvePixels))
	}
	if p.Market != nil {
		k, _ := d.asking(i)
		p.Market = new(*p.Market)
		p.Market.Seen = k.Choice().Seen(it.Comparables[:min(len(it.Comparables), mostSeen)], it.Size)
		for k := range p.Market.Seen {
			seen := &p.Market.Seen[k]
			seen.Price = d.Currency.Round(seen.Price, quoin.HalfUp)
		}
	}
}

func (d *decidedList) curve(points []margin.Point) []margin.CurvePoint {
	out := make([]margin.CurvePoint, len(points))
	for i, p := range points {
		out[i] = margin.CurvePoint{Price: p.Price.Round(d.Currency.Digits(), quoin.HalfUp), Contribution: p.Contribution}
	}
	return out
}
