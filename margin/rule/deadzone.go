package rule

import (
	"example.com/quoin"
	"example.com/quoin/channel"
)

// DeadZone is a run of prices at which a sale keeps less, per item, than at a
// lower one: where a tier takes the whole amount, or postage becomes free.
type DeadZone struct {
	After quoin.Amount `json:"after"` // the lower price that keeps more
	Keeps quoin.Amount `json:"keeps"` // the contribution there
	First quoin.Amount `json:"first"` // of the zone
	Last  quoin.Amount `json:"last"`
	// Again is the first price that keeps as much again; none up to the limit
	// where it is not given.
	Again quoin.Optional[quoin.Amount] `json:"again,omitzero"`
}

// falls returns the pieces of a curve at whose beginning what is kept falls by more
// than rounding takes. What an item costs beside fees is the same on both sides.
func falls(g quoin.Grid, curve []channel.Piece) []int {
	var out []int
	for i := 1; i < len(curve); i++ {
		before, after := kept(curve[i-1]), kept(curve[i])
		drop := before.Add(after.Times(quoin.FactorOf(-1)))
		if fall := g.Price(curve[i].First).Times(drop.Slope).Add(drop.Start); fall.Cmp(drop.Within) > 0 {
			out = append(out, i)
		}
	}
	return out
}

// kept is revenue without fees.
func kept(p channel.Piece) channel.Line { return p.Revenue.Add(p.Fees.Times(quoin.FactorOf(-1))) }

// DeadZones returns the dead zones of an offer, in rising order. The cents that
// rounding takes between neighbours are none.
func DeadZones(g quoin.Grid, o Offer) ([]DeadZone, error) {
	var out []DeadZone
	left := mostTried
	for _, n := range o.falls {
		// Inside a zone nothing keeps as much as before it, so what begins there ends
		// there.
		if last := len(out) - 1; last >= 0 && g.Price(o.Curve[n].First).Cmp(out[last].Last) <= 0 {
			continue
		}
		z, err := deadZone(g, &o, n, &left)
		if err != nil {
			return nil, err
		}
		out = append(out, z)
	}
	return out, nil
}

// deadZone is the zone that begins with piece n, behind the best price at the end of
// the one before it.
func deadZone(g quoin.Grid, o *Offer, n int, left *int) (DeadZone, error) {
	first := o.Curve[n].First
	z := DeadZone{First: g.Price(first), Last: g.Price(g.Len())}
	best := o.best(g, max(o.Curve[n-1].First, first-1-lookBack), first-1)
	z.After = g.Price(best)
	z.Keeps = o.Sale.At(z.After).Contribution
	q := question{offer: o, demand: Contribution{AtLeast: z.Keeps}, left: left}
	q.prepare()
	for ; n < len(o.Curve); n++ {
		again := Set{grid: g}
		if err := q.solve(&again, n); err != nil {
			return DeadZone{}, err
		}
		if p, ok := again.Least(); ok {
			z.Again, z.Last = quoin.Some(p), p.Sub(g.Step())
			break
		}
	}
	return z, nil
}

// lookBack is how many prices before a break are tried for the one that keeps
// most, since cents of rounding decide among neighbours.
const lookBack = 10

// best is the price that keeps most from first to last, the greatest of those that
// keep the same.
func (o *Offer) best(g quoin.Grid, first, last int64) int64 {
	if best, ok := o.gauge.best(first, last); ok {
		return best
	}
	best, keeps := last, quoin.Amount{}
	for i := last; i >= first; i-- {
		if kept := o.Sale.At(g.Price(i)).Contribution; i == last || kept.Cmp(keeps) > 0 {
			best, keeps = i, kept
		}
	}
	return best
}

// best is that in whole numbers; false where these are too fine to be told apart by
// decimals, or not there.
func (m *gauge) best(first, last int64) (int64, bool) {
	if m == nil || m.wide > 10 || m.items > 100 {
		return 0, false
	}
	best, keeps := last, int64(0)
	for i := last; i >= first; i-- {
		t, ok := m.at(i)
		if !ok {
			return 0, false
		}
		if kept := int64(t.revenue) - int64(t.fees); i == last || kept > keeps {
			best, keeps = i, kept
		}
	}
	return best, true
}

// Holds reports whether a price lies in the zone.
func (z DeadZone) Holds(p quoin.Amount) bool { return p.Cmp(z.First) >= 0 && p.Cmp(z.Last) <= 0 }
