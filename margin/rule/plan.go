package rule

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// Plan is rules compiled to whole numbers, for the channels of one shop. It decides products
// one by one, each by itself and in no order, without sets and without allocating: from each
// rule it asks only for the nearest price that it allows. Where it is not sure, or no price is
// left, it says so, and the function Decide, which is the definition, decides. NewPlan makes a
// Plan; it is safe for concurrent use.
type Plan struct {
	grid    quoin.Grid
	choose  Choice
	rules   []plannedRule // musts first
	prefers int           // the place of the first preference
	units   []plannedUnit
	marks   int // of all rules

	channels int
}

// plannedUnit is what demands are asked of: a channel on average, or one kind of its orders.
type plannedUnit struct {
	channel, kind int // kind is −1 on average
	gauge         *gauge
	beside        costs
}

// plannedRule is a rule with what does not depend on the product.
type plannedRule struct {
	id                string
	all               bool            // it speaks of all products
	products, designs map[string]bool // else of these
	channels          []bool          // that it speaks of, by place
	first, last       int64           // prices that it allows all products
	multiple          quoin.Optional[quoin.Factor]
	change            quoin.Optional[quoin.Rate]
	endings           *comb
	market            *Market
	demands           []plannedDemand
}

// plannedDemand is what a rule asks of one unit.
type plannedDemand struct {
	unit  int
	marks []mark
}

// NewPlan compiles rules for sales in channels: each sale has all but its goods. The grid is
// that of the channels. It returns false if the rules or the terms have what only Decide can
// handle: a Custom rule, several rules on endings with long patterns, terms without a plan, or
// demands that rounding alone decides over many prices. Rules between sizes are left out, so an
// item that they may move is not one for the plan.
func NewPlan(rules []Rule, channels []*CompiledChannel, sales []margin.Sale, g quoin.Grid, choose Choice) (*Plan, bool) {
	if len(sales) != len(channels) {
		return nil, false
	}
	p := &Plan{grid: g, choose: choose, channels: len(channels)}
	for j, c := range channels {
		if c == nil || c.gauge == nil {
			return nil, false
		}
		p.units = append(p.units, plannedUnit{j, -1, c.gauge, c.gauge.beside(&sales[j])})
	}
	musts, prefers := byStrength(rules)
	p.prefers = len(musts)
	patterns := int64(1)
	for _, r := range slices.Concat(musts, prefers) {
		planned, ok := p.rule(&rules[r], channels, sales)
		if !ok {
			return nil, false
		}
		if planned.endings != nil {
			patterns *= min(planned.endings.period, mostRepeated)
		}
		p.rules = append(p.rules, planned)
	}
	return p, patterns < mostRepeated
}

// mostRepeated bounds after how many prices all endings together come round again.
const mostRepeated = 1 << 20

func (p *Plan) rule(r *Rule, channels []*CompiledChannel, sales []margin.Sale) (plannedRule, bool) {
	out := plannedRule{id: r.ID, all: r.speaksOfAll(), products: setOf(r.Products), designs: setOf(r.Designs), first: 1, last: p.grid.Len()}
	out.channels = each(channels, func(c *CompiledChannel) bool {
		return len(r.Channels) == 0 || slices.Contains(r.Channels, c.terms.Channel())
	})
	switch k := r.Kind.(type) {
	case Price:
		if least, given := k.AtLeast.Get(); given {
			out.first = p.grid.Ceil(least)
		}
		if most, given := k.AtMost.Get(); given {
			out.last = p.grid.Floor(most)
		}
	case CostMultiple:
		out.multiple = quoin.Some(k.AtLeast)
	case MaxChange:
		out.change = quoin.Some(k.AtMost)
	case Ending:
		set, err := k.allowed(Item{Grid: p.grid}, nil)
		if out.endings = set.comb; err != nil || set.IsEmpty() {
			return out, false
		}
	case Market:
		out.market = &k
	case SizeRatio:
	case GrossMargin, NetMargin, Contribution:
		d := demandOf(k)
		for j, c := range channels {
			if out.channels[j] && !p.demand(&out, &d, j, c, &sales[j]) {
				return out, false
			}
		}
	default:
		return out, false
	}
	return out, true
}

func setOf(names []string) map[string]bool {
	out := make(map[string]bool, len(names))
	for _, name := range names {
		out[name] = true
	}
	return out
}

// demand adds what a rule demands of a channel.
func (p *Plan) demand(r *plannedRule, d *demand, j int, c *CompiledChannel, sale *margin.Sale) bool {
	claims := d.claims(sale)
	if d.in != Worst {
		return p.marked(r, j, claims)
	}
	kinds, apart := c.byKind()
	for k := range apart {
		u := slices.IndexFunc(p.units, func(u plannedUnit) bool { return u.channel == j && u.kind == k })
		if u < 0 {
			if apart[k].gauge == nil {
				return false
			}
			u = len(p.units)
			p.units = append(p.units, plannedUnit{j, k, apart[k].gauge, apart[k].gauge.beside(withTerms(*sale, kinds[k]))})
		}
		if !p.marked(r, u, claims) {
			return false
		}
	}
	return true
}

func withTerms(s margin.Sale, terms channel.Terms) *margin.Sale {
	s.Terms = terms
	return &s
}

// marked adds what claims come to in a unit; false where they cannot be weighed there.
func (p *Plan) marked(r *plannedRule, unit int, claims []claim) bool {
	gauge, d := p.units[unit].gauge, plannedDemand{unit: unit}
	for _, c := range claims {
		m, ok := gauge.mark(c)
		if !ok || !gauge.steep(m.bar) {
			return false
		}
		d.marks = append(d.marks, m)
	}
	p.marks += len(d.marks)
	r.demands = append(r.demands, d)
	return true
}

// mostFlat is how many prices of a span rounding alone may decide.
const mostFlat = 1000

// steep reports whether a bar, wherever it is set, leaves few prices of each span for rounding
// alone to decide.
func (m *gauge) steep(b bar) bool {
	for i := range m.spans {
		s := &m.spans[i]
		rise, band, n := b.over(s.to).Minus(b.over(s.from)), s.band(b), s.last-s.first
		if negative(rise) {
			rise = minus(rise)
		}
		switch {
		case !s.known:
			return false
		case n < mostFlat || rise == i128{} && s.room(b) == i128{}:
		case rise == i128{} || along(band.Plus(band), n, rise, up) > mostFlat:
			return false
		}
	}
	return len(m.spans)*mostFlat < mostTried
}

// speaksOf reports whether the rule applies to a product.
func (r *plannedRule) speaksOf(it *PlannedItem) bool {
	return r.all || r.products[it.ID] || it.Design != "" && r.designs[it.Design]
}
