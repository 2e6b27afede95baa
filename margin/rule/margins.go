package rule

import (
	"iter"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin"
)

// Scope says which orders a margin or contribution rule tests: their average, or every kind by
// itself.
type Scope string

const (
	Average Scope = "average" // over the kinds of order; also when empty
	// Worst asks every kind of order by itself, with every fee that is charged
	// only sometimes charged in full.
	Worst Scope = "worst"
)

// UnmarshalText reads average or worst.
func (s *Scope) UnmarshalText(text []byte) error { return form.SetWord(s, text, Average, Worst) }

// GrossMargin allows prices with revenue above 0, of which at least a share is gross income.
// 50% of a print with goods of 1.24 is 2.48 or more, without fees and tax.
type GrossMargin struct {
	// The share of revenue.
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	// Which orders the rule speaks of.
	AskedOf Scope `json:"asked_of,omitempty" was:"in"`
}

// NetMargin allows prices with revenue above 0, of which at least a share is net income.
type NetMargin struct {
	// The share of revenue.
	AtLeast quoin.Rate `json:"at_least" need:"yes" range:"[0,1]"`
	// Which orders the rule speaks of.
	AskedOf Scope `json:"asked_of,omitempty" was:"in"`
}

// Contribution allows prices with at least this contribution per item.
type Contribution struct {
	// The amount.
	AtLeast quoin.Amount `json:"at_least" need:"yes" range:"[0,"`
	// Which orders the rule speaks of.
	AskedOf Scope `json:"asked_of,omitempty" was:"in"`
}

// String returns gross_margin.
func (GrossMargin) String() string { return "gross_margin" }

func (GrossMargin) about() subject { return channels }

// String returns net_margin.
func (NetMargin) String() string { return "net_margin" }

func (NetMargin) about() subject { return channels }

// String returns contribution.
func (Contribution) String() string { return "contribution" }

func (Contribution) about() subject { return channels }

func (k GrossMargin) asks(Item, []Offer) asker  { return new(demandOf(k)) }
func (k NetMargin) asks(Item, []Offer) asker    { return new(demandOf(k)) }
func (k Contribution) asks(Item, []Offer) asker { return new(demandOf(k)) }

// demandOf is what a kind of rule demands of sales; of no kind where that demands nothing.
func demandOf(kind Kind) demand {
	switch k := kind.(type) {
	case GrossMargin:
		return demand{kind, k.AskedOf, ofGoods, k.AtLeast, quoin.Amount{}}
	case NetMargin:
		return demand{kind, k.AskedOf, ofAll, k.AtLeast, quoin.Amount{}}
	case Contribution:
		return demand{kind, k.AskedOf, ofSpent, quoin.Rate{}, k.AtLeast}
	}
	return demand{}
}

// demand is that, of a sale, what is left after some of its costs is at least a share of
// revenue, of which there is some; of the contribution, that it is at least an amount.
type demand struct {
	kind  Kind
	in    Scope
	after costing // gross, contribution or net
	share quoin.Rate
	least quoin.Amount
}

// costing says which costs are taken off, each of them with those before it.
type costing uint8

const (
	ofNothing costing = iota
	ofGoods
	ofSpent // and sending and selling
	ofAll   // and overhead
)

// left is what a statement leaves.
func (d *demand) left(s *margin.Statement) quoin.Amount {
	switch d.after {
	case ofGoods:
		return s.Gross
	case ofSpent:
		return s.Contribution
	}
	return s.Net
}

// met reports whether the statement gives what is asked.
func (d *demand) met(s margin.Statement) bool {
	if d.after == ofSpent {
		return s.Contribution.Cmp(d.least) >= 0
	}
	return s.Revenue.Sign() > 0 && d.left(&s).Sub(s.Revenue.Part(d.share)).Sign() >= 0
}

// figures returns what is asked and what the statement gives: a margin, or the revenue
// itself where there is none to divide by.
func (d *demand) figures(s margin.Statement) (asked, got quoin.Figure) {
	switch left := d.left(&s); {
	case d.after == ofSpent:
		return d.least.Figure(), left.Figure()
	case s.Revenue.Sign() <= 0:
		return d.share.Figure(), s.Revenue.Figure()
	default:
		return d.share.Figure(), left.Share(s.Revenue).Figure()
	}
}

// claim is that, of an item, revenue × Revenue − fees × Fees − costs × what it costs
// is at least Least.
type claim struct {
	revenue, fees, costs quoin.Factor
	of                   costing
	least                quoin.Amount
}

// claims returns what has to hold of a sale, all of it, for the demand to be met. Of net it
// is what income tax leaves of operating, less the share asked; where tax leaves nothing,
// operating itself must not be below zero.
func (d *demand) claims(s *margin.Sale) []claim {
	var none quoin.Factor
	one := quoin.FactorOf(1)
	keeps, fees := one, none
	if d.after == ofAll {
		keeps = s.IncomeTax.Complement()
	}
	if d.after >= ofSpent {
		fees = keeps
	}
	out := []claim{{keeps.Sub(d.share.Factor()), fees, keeps, d.after, d.least}}
	if d.after != ofSpent {
		// At the bound of what is asked, where there is no revenue, the definition decides.
		out = append(out, claim{revenue: one})
	}
	if keeps.Sign() <= 0 {
		out = append(out, claim{revenue: one, fees: one, costs: one, of: d.after})
	}
	return out
}

// line is a claim on a piece of the curve: at least zero where it holds, up to its
// room. What rounding does to revenue and fees alike is not counted twice.
func (c claim) line(s *margin.Sale, p *channel.Piece) channel.StraightLine {
	costs := channel.Flat(c.amount(s, p).Times(c.costs).Add(c.least).Neg())
	return p.Kept.Times(c.fees).Add(p.Revenue.Times(c.revenue.Sub(c.fees))).Add(costs)
}

func (c claim) amount(s *margin.Sale, p *channel.Piece) (sum quoin.Amount) {
	if c.of >= ofGoods {
		sum = s.GoodsPerItem()
	}
	if c.of >= ofSpent {
		sum = sum.Add(p.Fulfilment).Add(s.FixedCost)
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
		worst := o.worst()
		for i := range worst {
			if !yield(i, &worst[i]) {
				return
			}
		}
	}
}

// allowed returns the prices that meet the demand in every offer.
func (d *demand) allowed(it Item, offers []Offer) (Set, error) {
	all := All(it.Grid)
	for i := range offers {
		for _, o := range offers[i].scoped(d.in) {
			s, err := d.solveOne(it.Grid, o)
			if err != nil {
				return Set{}, err
			}
			if all, err = all.and(s); err != nil {
				return Set{}, err
			}
		}
	}
	return all, nil
}

// judge says what the demand asks of a price in every offer, and what that gives.
func (d *demand) judge(_ Item, offers []Offer, p quoin.Amount) []Verdict {
	var out []Verdict
	for k := range offers {
		o := &offers[k]
		for i, one := range o.scoped(d.in) {
			s := one.Sale.At(p)
			v := Verdict{OK: d.met(s), Channel: o.Channel, Bound: AtLeast}
			v.Asked, v.Got = d.figures(s)
			if d.in == Worst {
				v.Order = i + 1
			}
			out = append(out, v)
		}
	}
	return out
}
