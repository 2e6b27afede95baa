package rule

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// mostTried bounds the prices that are tried one by one for one rule, product and kind
// of sale.
const mostTried = 1 << 19

// solveOne goes over the pieces of the curve.
func (d *demand) solveOne(g quoin.Grid, o *Offer) (Set, error) {
	out, q := Set{grid: g}, ask(o, d)
	for n := range o.compiled.curve {
		if err := q.solve(&out, n); err != nil {
			return Set{}, err
		}
	}
	return out, nil
}

// question is a demand in an offer, made ready to be asked of its pieces.
type question struct {
	offer  *Offer
	demand *demand
	claims []claim
	bars   []bar // in the numbers of the offer's gauge; none where it does not serve
	tried  int   // prices that were tried, of those between which something moves
}

func ask(o *Offer, d *demand) question {
	claims := d.claims(&o.Sale)
	return question{offer: o, demand: d, claims: claims, bars: o.bars(claims)}
}

// solve adds the prices of piece n that meet the demand. Its lines say where that is
// certain and where it may be, and only the few prices between are tried: of prices
// between which nothing moves, one.
func (q *question) solve(out *Set, n int) error {
	z := q.zones(out.grid, n)
	if z.still && z.sure.first <= z.sure.last && !q.meets(z.sure.first, out.grid) {
		return nil
	}
	for i := z.maybe.first; i <= z.maybe.last; {
		if i == z.sure.first && z.sure.first <= z.sure.last {
			out.add(z.sure)
			i = z.sure.last + 1
			continue
		}
		last := z.maybe.last
		if i < z.sure.first {
			last = z.sure.first - 1
		}
		if q.tried++; q.tried > mostTried {
			return q.tooFlat(out.grid)
		}
		same := run{i, q.offer.Sale.Terms.Alike(out.grid, i, last)}
		if q.meets(i, out.grid) {
			out.add(same)
		}
		i = same.last + 1
	}
	return nil
}

func (q *question) zones(g quoin.Grid, n int) zones {
	if gauge := q.offer.compiled.gauge; len(q.bars) > 0 && gauge.spans[n].known {
		return gauge.spans[n].zones(q.bars)
	}
	p := &q.offer.compiled.curve[n]
	z := whole(p.First, p.Last)
	for _, c := range q.claims {
		z.narrow(zonesAlong(g, c.line(&q.offer.Sale, p), p.First, p.Last))
	}
	return z.settled()
}

// meets reports whether a price meets the demand: by the bars, where there are any
// and they can tell, else by the statement, which is the definition.
func (q *question) meets(i int64, g quoin.Grid) bool {
	v := unsure
	if len(q.bars) > 0 {
		v = q.offer.compiled.gauge.weigh(q.bars, i)
	}
	return v == met || v == unsure && q.demand.met(q.offer.Sale.At(g.Price(i)))
}

// bars are the claims in the numbers of the offer's gauge; none where it has no gauge
// that serves.
func (o *Offer) bars(claims []claim) []bar {
	gauge := o.compiled.gauge
	if gauge == nil || !o.costs.ok {
		return nil
	}
	out := make([]bar, len(claims))
	for i, c := range claims {
		m, ok := gauge.mark(c)
		if !ok {
			return nil
		}
		out[i] = m.with(&o.costs)
	}
	return out
}

// zones is what lines say of the prices of a piece.
type zones struct {
	sure  run  // on which every claim certainly holds, but for those that stand still
	maybe run  // around it, on which every claim may hold
	still bool // a claim does not move at all, and any price tells of all
}

// whole is the zones of a piece before any claim.
func whole(first, last int64) zones { return zones{run{first, last}, run{first, last}, false} }

// narrow takes from the zones what another claim does not leave.
func (z *zones) narrow(by zones) {
	z.sure = run{max(z.sure.first, by.sure.first), min(z.sure.last, by.sure.last)}
	z.maybe = run{max(z.maybe.first, by.maybe.first), min(z.maybe.last, by.maybe.last)}
	z.still = z.still || by.still
}

// settled writes runs that may be empty so that they can be gone through.
func (z zones) settled() zones {
	if z.maybe.first > z.maybe.last {
		return zones{run{1, 0}, run{1, 0}, false}
	}
	if z.sure.first > z.sure.last {
		z.sure = run{z.maybe.first, z.maybe.first - 1}
	}
	return z
}

// zonesAlong follows a claim's line on a piece.
func zonesAlong(g quoin.Grid, l channel.StraightLine, first, last int64) zones {
	all, none := run{first, last}, run{last + 1, last}
	from, to := l.Crossing(g, first, last)
	switch rises := l.Slope.Sign(); {
	case rises > 0:
		return zones{run{to + 1, last}, run{from, last}, false}
	case rises < 0:
		return zones{run{first, from - 1}, run{first, to}, false}
	case l.Above():
		return zones{all, all, false}
	case l.Below():
		return zones{none, none, false}
	case l.Within.IsZero():
		return zones{all, all, true}
	}
	return zones{none, all, false}
}

// tooFlat says that more prices than can be tried are decided by rounding alone. With
// a limit so low there would be no more of them than can be.
func (q *question) tooFlat(g quoin.Grid) error {
	return fault(quoin.Problem{
		Code:   TooManyRuns,
		Found:  fmt.Sprintf("more than %d prices in %q at which rounding alone decides %v", mostTried, q.offer.Channel, q.demand.kind),
		Wanted: fmt.Sprintf("at most %d of them", mostTried),
		Remedy: fmt.Sprintf("set price_limit to %v or less, raise price_step, or move the rule's figure by a cent", g.Price(min(mostTried, g.Len()))),
	})
}
