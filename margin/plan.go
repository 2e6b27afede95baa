package margin

import (
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/halfup"
)

// Plan is a sale compiled to whole numbers. It gives statements rounded to money, fast enough
// to show while a price is dragged or to compare in the millions. It uses the plan of the
// channel's terms. If costs are quotients that do not end, it may not know which way a figure
// rounds. Then it says so, and Sale.At computes it. Sale.Plan makes a Plan; the zero value
// knows no price.
type Plan struct {
	terms              *channel.Plan
	raiseRev, raiseFee uint64
	// Figures are in wide places for an average order.
	goods, selling, over fixed // selling is what sending and fixed costs are
	unit                 part  // of figures, in minor units for an item
	taxed, kept          part  // what income tax takes of what is above zero, and leaves
	hasTax               bool
	costs                RoundedStatement // what is the same at any price
	sure                 bool             // of costs
}

// fixed is an amount in the plan's numbers, and how far it may be off.
type fixed struct{ n, off int64 }

// RoundedStatement is a statement of one item in minor units. Each line is rounded by itself,
// halves away from zero. So a line may differ by a unit from the sum of the others.
type RoundedStatement struct {
	Revenue, Tax, Goods, Gross, Fees, Fulfilment, FixedCost int64
	Contribution, Overhead, Operating, IncomeTax, Net       int64
}

// sparePlaces is how many places figures have beyond those of what orders bring, so
// that costs that were cut are known to a fraction of a minor unit.
const sparePlaces = 4

// Plan compiles the sale. It returns false if its terms have no plan, buyers pay in another
// currency, or a number does not fit in 64 bits.
func (s Sale) Plan() (*Plan, bool) {
	terms, ok := s.Terms.Plan()
	if !ok || !terms.Home().Equal(quoin.FactorOf(1)) {
		return nil, false
	}
	revenue, fees := terms.SumPlaces()
	wide, perOrder := max(revenue, fees)+sparePlaces, terms.PerOrder()
	items := quoin.AmountOf(1, 0).Times(perOrder)
	each, ok := items.Units(items.Places())
	spare := wide - s.Terms.Places()
	taxed := quoin.AmountOf(1, 0).Part(s.IncomeTax)
	tax, fits := taxed.Units(taxed.Places())
	if !ok || !fits || spare < 0 || wide > mostPlaces || items.Places() > 6 || taxed.Places() > 6 || each > mostItems {
		return nil, false
	}
	p := &Plan{terms: terms, raiseRev: ten(wide - revenue), raiseFee: ten(wide - fees), hasTax: tax > 0, sure: true}
	order, raise, ofTax := uint64(each)*ten(spare), ten(items.Places()), ten(taxed.Places())
	if over, by := bits.Mul64(order, ofTax); over != 0 || by >= 1<<62 {
		return nil, false
	}
	p.unit, p.taxed, p.kept = partOf(raise, order), partOf(raise*uint64(tax), order*ofTax), partOf(raise*(ofTax-uint64(tax)), order*ofTax)
	var sent, fixedCost fixed
	for _, c := range []struct {
		to      *fixed
		perItem quoin.Amount
		line    *int64
	}{
		{&p.goods, s.GoodsPerItem(), &p.costs.Goods},
		{&sent, s.Terms.Sent(), &p.costs.Fulfilment},
		{&fixedCost, s.FixedCost, &p.costs.FixedCost},
		{&p.over, s.Overhead, &p.costs.Overhead},
	} {
		if *c.to, ok = fixedOf(c.perItem.Times(perOrder), wide); !ok {
			return nil, false
		}
		*c.line = p.unit.round(*c.to, &p.sure)
	}
	p.selling = fixed{sent.n + fixedCost.n, sent.off + fixedCost.off}
	return p, true
}

// Bounds that keep all products within 64 bits, or the plan from being made.
const (
	mostPlaces = 12
	mostItems  = 1_000_000
	mostFigure = 1 << 56
)

func ten(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}

func fixedOf(a quoin.Amount, places int) (fixed, bool) {
	if n, ok := a.Units(places); ok {
		return fixed{n: n}, n < mostFigure && n > -mostFigure
	}
	n, ok := a.Round(places, quoin.Down).Units(places)
	return fixed{n, 1}, ok && n < mostFigure && n > -mostFigure
}

func (f fixed) less(g fixed) fixed { return fixed{f.n - g.n, f.off + g.off} }

// At returns the statement of one item at a list price in minor units. It returns false if a
// number does not fit, or if a line is so near half a minor unit that the plan does not know
// which way it rounds.
func (p *Plan) At(list uint64) (c RoundedStatement, ok bool) {
	o, ok := p.orders(list)
	if !ok {
		return RoundedStatement{}, false
	}
	gross := fixed{n: o.revenue}.less(p.goods)
	contribution := gross.less(fixed{n: o.fees}).less(p.selling)
	operating := contribution.less(p.over)
	c, ok = p.costs, p.sure
	c.Revenue, c.Tax, c.Fees = p.unit.round(fixed{n: o.revenue}, &ok), p.unit.round(fixed{n: o.tax}, &ok), p.unit.round(fixed{n: o.fees}, &ok)
	c.Gross, c.Contribution, c.Operating = p.unit.round(gross, &ok), p.unit.round(contribution, &ok), p.unit.round(operating, &ok)
	if c.Net = c.Operating; operating.n > 0 && p.hasTax {
		c.IncomeTax, c.Net = p.taxed.round(operating, &ok), p.kept.round(operating, &ok)
	}
	return c, ok
}

// Contribution returns the contribution of one item at a list price, both in minor units,
// rounded. It returns false as At does.
func (p *Plan) Contribution(list uint64) (int64, bool) {
	o, ok := p.orders(list)
	if !ok {
		return 0, false
	}
	left := fixed{n: o.revenue - o.fees}.less(p.goods).less(p.selling)
	return p.unit.round(left, &ok), ok
}

// brought is what an average order brings and takes at a price.
type brought struct{ revenue, fees, tax int64 }

func (p *Plan) orders(list uint64) (brought, bool) {
	if p == nil || p.terms == nil {
		return brought{}, false
	}
	sums, ok := p.terms.Sums(list)
	a, rev := bits.Mul64(sums.Revenue, p.raiseRev)
	b, fee := bits.Mul64(sums.Fees, p.raiseFee)
	c, due := bits.Mul64(sums.Tax, p.raiseRev)
	ok = ok && a|b|c == 0 && max(rev, fee, due) < mostFigure
	return brought{int64(rev), int64(fee), int64(due)}, ok
}

// part is n ÷ by of a figure, rounded to a whole number, halves away from zero.
type part struct {
	n, by uint64
	of    halfup.Ratio // the same without dividing, where it fits
}

func partOf(n, by uint64) part {
	of, _ := halfup.RatioOf(n, by, by/2) // by is far below the bound
	return part{n, by, of}
}

// round rounds the part of a figure. Sure becomes false where it is not known which way.
func (p *part) round(f fixed, sure *bool) int64 {
	n := uint64(max(f.n, -f.n))
	if f.off > 0 || n > p.of.UpTo() {
		return p.divided(f, sure)
	}
	if f.n < 0 {
		return -int64(p.of.Of(n))
	}
	return int64(p.of.Of(n))
}

// divided is round for every figure.
func (p *part) divided(f fixed, sure *bool) int64 {
	hi, n := bits.Mul64(uint64(max(f.n, -f.n)), p.n)
	if hi != 0 {
		*sure = false
		return 0
	}
	q, rest := n/p.by, n%p.by
	off := uint64(f.off) * p.n
	if f.off > 0 && max(2*rest, p.by)-min(2*rest, p.by) <= 2*off {
		*sure = false
	}
	if 2*rest >= p.by {
		q++
	}
	if f.n < 0 {
		return -int64(q)
	}
	return int64(q)
}
