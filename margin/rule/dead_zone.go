package rule

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// DeadZone is a run of prices at which a sale contributes less, per item, than at a lower
// price: where a tier takes a rate of the whole amount, or postage becomes free. Shipping of
// 3.50 that is free from 20.00 on makes one from 20.00 to 23.48.
type DeadZone struct {
	// The lower price that keeps more.
	After quoin.Amount `json:"after"`
	// The contribution there.
	Contribution quoin.Amount `json:"contribution"`
	// The first price of the zone.
	First quoin.Amount `json:"first"`
	// The last price of the zone.
	Last quoin.Amount `json:"last"`
	// The first price that keeps as much again; not given where none does up to the limit.
	Again quoin.Optional[quoin.Amount] `json:"again,omitzero"`
}

// fall is a break of a curve behind which a sale keeps less than before it.
type fall struct {
	piece int   // that begins with less
	best  int64 // the price before it that keeps most
}

// fallsOn returns the breaks at which what is kept falls by more than the cents of rounding.
// Where a step to the next price brings more than the break takes there is no fall. What
// an item costs beside fees is the same on both sides.
func (s *CompiledChannel) fallsOn(g quoin.Grid) []fall {
	var out []fall
	o := Offer{Sale: margin.Sale{Terms: s.terms}, compiled: s}
	for i := 1; i < len(s.curve); i++ {
		before, after := &s.curve[i-1], &s.curve[i]
		first := after.First
		if !mayFall(g.Price(first), before, after) {
			continue
		}
		best, keeps := o.best(g, max(before.First, first-1-lookBack), first-1)
		if drop := keeps.Sub(o.kept(g.Price(first))); drop.Cmp(before.Cents.Add(after.Cents)) > 0 {
			out = append(out, fall{i, best})
		}
	}
	return out
}

// mayFall reports whether the lines of two pieces leave room for a fall at a price. Where
// less is kept of a higher price already, more is kept before it than the line says there.
func mayFall(price quoin.Amount, before, after *channel.Piece) bool {
	if before.Kept.Slope.Sign() < 0 {
		return true
	}
	drop := before.Kept.Add(after.Kept.Times(quoin.FactorOf(-1)))
	return price.Times(drop.Slope).Add(drop.Start).Add(drop.Within).Sign() > 0
}

func (o *Offer) kept(price quoin.Amount) quoin.Amount {
	k := o.Sale.Terms.Proceeds(price)
	return k.Revenue.Sub(k.Fees)
}

// DeadZones returns the dead zones of an offer, in rising order. Single cents of rounding
// between neighbouring prices do not count. It errs if prices break into more runs than can be
// told apart.
func DeadZones(g quoin.Grid, o Offer) ([]DeadZone, error) {
	if o.compiled == nil {
		return nil, nil
	}
	var out []DeadZone
	for _, f := range o.compiled.falls {
		// Inside a zone nothing keeps as much as before it, so what begins there ends
		// there.
		if last := len(out) - 1; last >= 0 && g.Price(o.compiled.curve[f.piece].First).Cmp(out[last].Last) <= 0 {
			continue
		}
		z, err := deadZone(g, &o, f)
		if err != nil {
			return nil, err
		}
		out = append(out, z)
	}
	return out, nil
}

// deadZone is the zone that begins with a fall.
func deadZone(g quoin.Grid, o *Offer, f fall) (DeadZone, error) {
	z := DeadZone{After: g.Price(f.best), First: g.Price(o.compiled.curve[f.piece].First), Last: g.Price(g.Len())}
	z.Contribution = o.Sale.At(z.After).Contribution
	q := ask(o, &demand{kind: Contribution{}, after: ofSpent, least: z.Contribution})
	for n := f.piece; n < len(o.compiled.curve); n++ {
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
// keep the same, and what it keeps.
func (o *Offer) best(g quoin.Grid, first, last int64) (best int64, keeps quoin.Amount) {
	for i := last; i >= first; i-- {
		if kept := o.kept(g.Price(i)); i == last || kept.Cmp(keeps) > 0 {
			best, keeps = i, kept
		}
	}
	return best, keeps
}

// Holds reports whether a price lies in the zone.
func (z DeadZone) Holds(p quoin.Amount) bool { return p.Cmp(z.First) >= 0 && p.Cmp(z.Last) <= 0 }
