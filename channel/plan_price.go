package channel

import "example.com/quoin"

// plannedPricePoints is which unit prices can be asked, in minor units: multiples of step,
// or what leaves one of ends, which rise, when divided by modulus.
type plannedPricePoints struct {
	step    uint64 // 0 for ends
	ends    []uint64
	modulus divisor
}

// nearest follows PricePoints.Nearest for a list price. Keep is in steps, or in minor units
// where there are ends.
func (g *plannedPricePoints) nearest(keep ratio, list uint64) (uint64, bool) {
	if g.step > 0 {
		n, ok := keep.of(list, quoin.HalfUp)
		if !ok {
			return 0, false
		}
		return times(max(n, 1), g.step)
	}
	whole, rest, ok := keep.split(list)
	if !ok || whole > mostUnits {
		return 0, false
	}
	below, above := g.around(whole)
	if below == 0 {
		return above, true
	}
	// How much further up than down it is: 2 × (the middle − price) in halves.
	further := int64(above-whole) - int64(whole-below)
	if further <= 0 || further == 1 && rest >= keep.d.by-rest {
		return above, true
	}
	return below, true
}

// around is the highest price up to one, 0 for none, and the lowest above it.
func (g *plannedPricePoints) around(price uint64) (below, above uint64) {
	n, rest := g.modulus.split(price)
	moduli := n * g.modulus.by
	if last := moduli + g.ends[len(g.ends)-1]; n > 0 {
		below = last - g.modulus.by
	}
	above = moduli + g.modulus.by + g.ends[0]
	for _, e := range g.ends {
		if e > rest {
			return below, moduli + e
		}
		below = moduli + e
	}
	return below, above
}

// plannedOffer is what a promotion takes off the items: a share of what is left, an
// amount, or all but what it is sold at.
type plannedOffer struct {
	from     uint64 // what the items have to come to
	before   bool   // before all offers
	part     ratio
	amount   uint64
	isSale   bool
	rounding quoin.Rounding
	sold     uint64 // what the items cost at the sale price, its last half unit dropped
}

// left follows Terms.left: what the items still come to after the first n offers.
func (k *plannedKind) left(gross uint64, n int) (uint64, bool) {
	left, ok := gross, true
	for i := range n {
		o := &k.offers[i]
		tested := left
		if o.before {
			tested = gross
		}
		if tested < o.from {
			continue
		}
		off, fine := o.off(left)
		left, ok = left-min(off, left), ok && fine
	}
	return left, ok
}

// unreduced is what items at a unit price come to after the offers that the maker
// gives.
func (k *plannedKind) unreduced(unit uint64) (uint64, bool) {
	gross, ok := k.take.of(unit, quoin.HalfUp)
	left, fine := k.left(gross, k.given)
	return left, ok && fine
}

// off is what the offer takes off, which may be more than is left.
func (o *plannedOffer) off(left uint64) (uint64, bool) {
	if o.isSale { // where a sale price is no less than the unit price, no less is left
		return left - min(o.sold, left), true
	}
	if o.part.n > 0 {
		return o.part.of(left, o.rounding)
	}
	return o.amount, true
}
