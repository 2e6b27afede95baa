package rule

import (
	"fmt"
	"iter"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// Scope says which sales a margin or contribution rule speaks of.
type Scope string

const (
	Average Scope = "average" // over the kinds of order; also when empty
	// Worst asks every kind of order by itself, with every fee that is charged
	// only sometimes charged in full.
	Worst Scope = "worst"
)

// UnmarshalText reads average or worst.
func (s *Scope) UnmarshalText(text []byte) (err error) {
	*s, err = quoin.Word(string(text), Average, Worst)
	return err
}

// GrossMargin allows prices that leave revenue, and at least a share of it as
// gross.
type GrossMargin struct {
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	In      Scope      `json:"in,omitempty"`
}

// NetMargin allows prices that leave revenue, and at least a share of it as
// net.
type NetMargin struct {
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	In      Scope      `json:"in,omitempty"`
}

// Contribution allows prices that leave at least an amount as contribution,
// per item.
type Contribution struct {
	AtLeast quoin.Amount `json:"at_least" need:"yes" range:"[0,"`
	In      Scope        `json:"in,omitempty"`
}

// String returns gross_margin.
func (GrossMargin) String() string { return "gross_margin" }

// String returns net_margin.
func (NetMargin) String() string { return "net_margin" }

// String returns contribution.
func (Contribution) String() string { return "contribution" }

func (k GrossMargin) allowed(it Item, offers []Offer) (Set, error) { return solve(it, offers, k.In, k) }
func (k NetMargin) allowed(it Item, offers []Offer) (Set, error)   { return solve(it, offers, k.In, k) }
func (k Contribution) allowed(it Item, offers []Offer) (Set, error) {
	return solve(it, offers, k.In, k)
}

// demand is a kind that asks something of a statement.
type demand interface {
	// met reports whether the statement gives what is asked.
	met(margin.Statement) bool
	// figures returns what is asked and what the statement gives.
	figures(margin.Statement) (asked, got quoin.Figure)
	// claims returns what has to hold, all of it, for the demand to be met.
	claims(margin.Sale) []claim
}

func (k GrossMargin) met(s margin.Statement) bool {
	return s.Revenue.Sign() > 0 && s.Gross.Sub(s.Revenue.Part(k.AtLeast)).Sign() >= 0
}

func (k NetMargin) met(s margin.Statement) bool {
	return s.Revenue.Sign() > 0 && s.Net.Sub(s.Revenue.Part(k.AtLeast)).Sign() >= 0
}

func (k Contribution) met(s margin.Statement) bool { return s.Contribution.Cmp(k.AtLeast) >= 0 }

func (k GrossMargin) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), ratio(s.Gross, s.Revenue)
}

func (k NetMargin) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), ratio(s.Net, s.Revenue)
}

func (k Contribution) figures(s margin.Statement) (asked, got quoin.Figure) {
	return k.AtLeast.Figure(), s.Contribution.Figure()
}

// ratio is a margin, or the revenue itself where there is none to divide by.
func ratio(part, revenue quoin.Amount) quoin.Figure {
	if revenue.Sign() <= 0 {
		return revenue.Figure()
	}
	return part.Share(revenue).Figure()
}

// claim is that, of an item, revenue × Revenue − fees × Fees − costs × what it costs
// is at least Least.
type claim struct {
	revenue, fees, costs quoin.Factor
	of                   costing
	least                quoin.Amount
}

// costing says which costs a claim is about, each of them with those before it.
type costing uint8

const (
	ofNothing costing = iota
	ofGoods
	ofSpent // and sending and selling
	ofAll   // and overhead
)

// earning is the claim of some revenue. It is at the bound of what is asked, where
// there is none, and then the definition decides.
func earning() claim { return claim{revenue: quoin.FactorOf(1)} }

func (k GrossMargin) claims(margin.Sale) []claim {
	return []claim{{revenue: k.AtLeast.Complement(), costs: quoin.FactorOf(1), of: ofGoods}, earning()}
}

// claims of a net margin: what income tax leaves of operating, less the share asked.
// Where it leaves nothing, operating itself must not be below zero.
func (k NetMargin) claims(s margin.Sale) []claim {
	keeps, one := s.IncomeTax.Complement(), quoin.FactorOf(1)
	out := []claim{{revenue: keeps.Sub(k.AtLeast.Factor()), fees: keeps, costs: keeps, of: ofAll}, earning()}
	if keeps.Sign() <= 0 {
		out = append(out, claim{revenue: one, fees: one, costs: one, of: ofAll})
	}
	return out
}

func (k Contribution) claims(margin.Sale) []claim {
	one := quoin.FactorOf(1)
	return []claim{{one, one, one, ofSpent, k.AtLeast}}
}

// line is a claim on a piece of the curve: at least zero where it holds, up to its
// room.
func (c claim) line(s *margin.Sale, p channel.Piece) channel.Line {
	costs := c.amount(s, p).Times(c.costs).Add(c.least)
	return p.Revenue.Times(c.revenue).Add(p.Fees.Times(quoin.FactorOf(-1).Times(c.fees))).Add(channel.Flat(costs.Neg()))
}

func (c claim) amount(s *margin.Sale, p channel.Piece) (sum quoin.Amount) {
	if c.of >= ofGoods {
		sum = s.GoodsPerItem()
	}
	if c.of >= ofSpent {
		sum = sum.Add(p.Fulfilment).Add(s.Selling)
	}
	if c.of >= ofAll {
		sum = sum.Add(s.Overhead)
	}
	return sum
}

// scoped yields the offer itself or, in the worst case, each kind of its orders.
func (o *Offer) scoped(in Scope) iter.Seq2[int, *Offer] {
	return func(yield func(int, *Offer) bool) {
		if in != Worst {
			yield(0, o)
			return
		}
		for i := range o.Worst {
			if !yield(i, &o.Worst[i]) {
				return
			}
		}
	}
}

// solve returns the prices that meet the demand in every offer.
func solve(it Item, offers []Offer, in Scope, d demand) (Set, error) {
	all := All(it.Grid)
	left := it.left
	if left == nil {
		n := mostTried
		left = &n
	}
	for i := range offers {
		for _, o := range offers[i].scoped(in) {
			s, err := solveOne(it.Grid, o, d, left)
			if err != nil {
				return Set{}, err
			}
			if all, err = all.And(s); err != nil {
				return Set{}, err
			}
		}
	}
	return all, nil
}

// mostTried bounds the prices that are tried one by one in one decision.
const mostTried = 1 << 19

// solveOne goes over the pieces of the curve.
func solveOne(g quoin.Grid, o *Offer, d demand, left *int) (Set, error) {
	out, q := Set{grid: g}, question{offer: o, demand: d, left: left}
	q.prepare()
	for n := range o.Curve {
		if err := q.solve(&out, n); err != nil {
			return Set{}, err
		}
	}
	return out, nil
}

// question is a demand in an offer, made ready to be asked of its pieces.
type question struct {
	offer  *Offer
	demand demand
	claims []claim
	bars   []bar // in the numbers of the offer's gauge; none where it does not serve
	left   *int  // prices that may still be tried
}

func (q *question) prepare() {
	q.claims = q.demand.claims(q.offer.Sale)
	q.bars = q.offer.bars(q.claims)
}

// solve adds the prices of piece n that meet the demand. Its lines say where that is
// certain and where it may be, and only the few prices between are tried.
func (q *question) solve(out *Set, n int) error {
	var sure, maybe run
	if gauge := q.offer.gauge; len(q.bars) > 0 && gauge.spans[n].known {
		sure, maybe = gauge.spans[n].zones(q.bars)
	} else {
		sure, maybe = zones(out.grid, &q.offer.Sale, q.offer.Curve[n], q.claims)
	}
	try := maybe.last - maybe.first + 1 - max(0, sure.last-sure.first+1)
	if try > int64(*q.left) {
		return tooFlat(q.demand, *q.offer, try)
	}
	*q.left -= int(try)
	for i := maybe.first; i <= maybe.last; i++ {
		if i == sure.first && sure.first <= sure.last {
			out.add(sure)
			i = sure.last
			continue
		}
		if q.meets(i, out.grid) {
			out.add(run{i, i})
		}
	}
	return nil
}

// meets reports whether a price meets the demand: by the bars, where there are any
// and they can tell, else by the statement, which is the definition.
func (q *question) meets(i int64, g quoin.Grid) bool {
	v := unsure
	if len(q.bars) > 0 {
		v = q.offer.gauge.weigh(q.bars, i)
	}
	return v == met || v == unsure && q.demand.met(q.offer.Sale.At(g.Price(i)))
}

// bars are the claims in the numbers of the offer's gauge; none where it has no gauge
// that serves.
func (o *Offer) bars(claims []claim) []bar {
	if o.gauge == nil {
		return nil
	}
	out := make([]bar, len(claims))
	for i, c := range claims {
		var ok bool
		if out[i], ok = o.gauge.bar(c, o.costs); !ok {
			return nil
		}
	}
	return out
}

// zones returns the prices of a piece on which every claim certainly holds, and the
// run around them on which every claim may.
func zones(g quoin.Grid, sale *margin.Sale, p channel.Piece, claims []claim) (sure, maybe run) {
	sure, maybe = run{p.First, p.Last}, run{p.First, p.Last}
	for _, c := range claims {
		s, m := zone(g, c.line(sale, p), p)
		sure = run{max(sure.first, s.first), min(sure.last, s.last)}
		maybe = run{max(maybe.first, m.first), min(maybe.last, m.last)}
	}
	return settled(sure, maybe)
}

// settled writes runs that may be empty so that they can be gone through.
func settled(sure, maybe run) (run, run) {
	if maybe.first > maybe.last {
		return run{1, 0}, run{1, 0}
	}
	if sure.first > sure.last {
		sure = run{maybe.first, maybe.first - 1}
	}
	return sure, maybe
}

func zone(g quoin.Grid, l channel.Line, p channel.Piece) (sure, maybe run) {
	whole, none := run{p.First, p.Last}, run{p.Last + 1, p.Last}
	switch l.Slope.Sign() {
	case 0:
		switch {
		case l.Above():
			return whole, whole
		case l.Below():
			return none, none
		}
		return none, whole
	case 1:
		from, to := l.Crossing(g, p.First, p.Last)
		return run{to + 1, p.Last}, run{from, p.Last}
	default:
		from, to := l.Crossing(g, p.First, p.Last)
		return run{p.First, from - 1}, run{p.First, to}
	}
}

func tooFlat(d demand, o Offer, tried int64) error {
	return quoin.Problem{
		Code: TooFine, Severity: quoin.Fault,
		Found:  fmt.Sprintf("%d prices in %q on which rounding alone decides %v", tried, o.Channel, d),
		Wanted: fmt.Sprintf("at most %d of them", mostTried), Remedy: "lower price_limit, or move the rule's figure a little",
	}
}

// AsksWorst reports whether a kind asks about every kind of order by itself.
func AsksWorst(k Kind) bool {
	switch k := k.(type) {
	case GrossMargin:
		return k.In == Worst
	case NetMargin:
		return k.In == Worst
	case Contribution:
		return k.In == Worst
	}
	return false
}
