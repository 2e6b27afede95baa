package rule

import "example.com/quoin"

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

// lookBack is how many prices before a break are tried for the one that keeps
// most, since cents of rounding decide among neighbours.
const lookBack = 10

// DeadZones returns the dead zones of an offer, in rising order. The cents that
// rounding takes between neighbours are none.
func DeadZones(g quoin.Grid, o Offer) ([]DeadZone, error) {
	var out []DeadZone
	for i := 1; i < len(o.Curve); i++ {
		before, after := o.Sale.Lines(o.Curve[i-1]).Contribution, o.Sale.Lines(o.Curve[i]).Contribution
		drop := before.Add(after.Times(quoin.FactorOf(-1)))
		at := g.Price(o.Curve[i].First)
		if fall := at.Times(drop.Slope).Add(drop.Start); fall.Cmp(drop.Within) <= 0 {
			continue
		}
		z, err := deadZone(g, o, o.Curve[i-1].First, o.Curve[i-1].Last)
		if err != nil {
			return nil, err
		}
		if n := len(out); n > 0 && out[n-1].Last.Cmp(z.Last) >= 0 {
			continue // inside one that reaches farther
		}
		out = append(out, z)
	}
	return out, nil
}

// deadZone is the zone behind the best price at the end of a piece.
func deadZone(g quoin.Grid, o Offer, first, last int64) (DeadZone, error) {
	z := DeadZone{First: g.Price(last + 1), Last: g.Price(g.Len())}
	for i := last; i >= max(first, last-lookBack); i-- {
		if kept := o.Sale.At(g.Price(i)).Contribution; i == last || kept.Cmp(z.Keeps) > 0 {
			z.After, z.Keeps = g.Price(i), kept
		}
	}
	keeps := Contribution{AtLeast: z.Keeps}
	again, err := keeps.allowed(Item{Grid: g}, []Offer{o})
	if err != nil {
		return DeadZone{}, err
	}
	if p, ok := again.Next(z.First); ok {
		z.Again = quoin.Some(p)
		z.Last = p.Sub(g.Step())
	}
	return z, nil
}

// Holds reports whether a price lies in the zone.
func (z DeadZone) Holds(p quoin.Amount) bool { return p.Cmp(z.First) >= 0 && p.Cmp(z.Last) <= 0 }
