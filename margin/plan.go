package margin

import (
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Plan is a sale compiled to whole numbers. It gives statements rounded to money, fast enough
// to show while a price is dragged or to compare in the millions. It uses the plan of the
// channel's terms. If costs are quotients that do not end, it may not know which way a figure
// rounds. Then it says so, and Sale.At computes it. Sale.Plan makes a Plan; the zero value
// knows no price.
type Plan struct {
	terms              *channel.Plan
	raiseRev, raiseFee uint64
	// Figures are in wide places for an average order: × raise ÷ order they are minor
	// units for an item.
	raise, order    uint64
	goods, sent     fixed
	fixedCost, over fixed
	tax, ofTax      int64 // income tax is tax ÷ ofTax
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
	p := &Plan{
		terms: terms, raiseRev: ten(wide - revenue), raiseFee: ten(wide - fees), raise: ten(items.Places()), order: uint64(each) * ten(spare),
		tax: tax, ofTax: int64(ten(taxed.Places())),
	}
	if over, by := bits.Mul64(p.order, uint64(p.ofTax)); over != 0 || by >= 1<<62 {
		return nil, false
	}
	for _, c := range []struct {
		to      *fixed
		perItem quoin.Amount
	}{{&p.goods, s.GoodsPerItem()}, {&p.sent, s.Terms.Sent()}, {&p.fixedCost, s.FixedCost}, {&p.over, s.Overhead}} {
		if *c.to, ok = fixedOf(c.perItem.Times(perOrder), wide); !ok {
			return nil, false
		}
	}
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
	revenue, fees, tax, ok := p.orders(list)
	if !ok {
		return RoundedStatement{}, false
	}
	gross := revenue.less(p.goods)
	contribution := gross.less(fees).less(p.sent).less(p.fixedCost)
	operating := contribution.less(p.over)
	r := rounder{order: p.order, raise: p.raise, sure: ok}
	c = RoundedStatement{
		Revenue: r.round(revenue), Tax: r.round(tax), Goods: r.round(p.goods), Gross: r.round(gross), Fees: r.round(fees),
		Fulfilment: r.round(p.sent), FixedCost: r.round(p.fixedCost), Contribution: r.round(contribution), Overhead: r.round(p.over), Operating: r.round(operating),
	}
	if c.Net = c.Operating; operating.n > 0 && p.tax > 0 {
		c.IncomeTax, c.Net = r.share(operating, p.tax, p.ofTax), r.share(operating, p.ofTax-p.tax, p.ofTax)
	}
	return c, r.sure
}

// Contribution returns the contribution of one item at a list price, both in minor units,
// rounded. It returns false as At does.
func (p *Plan) Contribution(list uint64) (int64, bool) {
	revenue, fees, _, ok := p.orders(list)
	if !ok {
		return 0, false
	}
	r := rounder{order: p.order, raise: p.raise, sure: ok}
	return r.round(revenue.less(p.goods).less(fees).less(p.sent).less(p.fixedCost)), r.sure
}

// orders is what an average order brings and takes at a price.
func (p *Plan) orders(list uint64) (revenue, fees, tax fixed, ok bool) {
	if p == nil || p.terms == nil {
		return fixed{}, fixed{}, fixed{}, false
	}
	sums, ok := p.terms.Sums(list)
	a, rev := bits.Mul64(sums.Revenue, p.raiseRev)
	b, fee := bits.Mul64(sums.Fees, p.raiseFee)
	c, due := bits.Mul64(sums.Tax, p.raiseRev)
	ok = ok && a|b|c == 0 && max(rev, fee, due) < mostFigure
	return fixed{n: int64(rev)}, fixed{n: int64(fee)}, fixed{n: int64(due)}, ok
}

// rounder rounds to minor units; sure says that all of them were certain.
type rounder struct {
	order, raise uint64
	sure         bool
}

func (r *rounder) round(f fixed) int64 { return r.share(f, 1, 1) }

// share rounds f × part ÷ of.
func (r *rounder) share(f fixed, part, of int64) int64 {
	hi, n := bits.Mul64(uint64(max(f.n, -f.n)), r.raise*uint64(part))
	by := r.order * uint64(of)
	if hi != 0 {
		r.sure = false
		return 0
	}
	q, rest := n/by, n%by
	off := uint64(f.off) * r.raise * uint64(part)
	if f.off > 0 && max(2*rest, by)-min(2*rest, by) <= 2*off {
		r.sure = false
	}
	if 2*rest >= by {
		q++
	}
	if f.n < 0 {
		return -int64(q)
	}
	return int64(q)
}
