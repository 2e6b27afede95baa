package rule

import (
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// gauge weighs what sales in one channel leave in whole numbers, for terms that
// have a Plan. What it calls met or missed is what decimals would say; of prices
// within a hair's breadth of what is asked it says that it is unsure.
type gauge struct {
	plan *channel.Plan
	step uint64 // of the grid, in minor units
	// wide is how many places the numbers have; sums of revenue and fees are raised
	// to them.
	wide               int
	raiseRev, raiseFee uint64
	items              int64        // of an average order, in the currency that buyers pay in, rounded up
	sent               quoin.Amount // what sending costs an item
	spans              []span
}

// span is a piece of the curve: what revenue and fees of an average order come to at
// its ends, and how far revenue, and what is kept of it after fees, may be from their
// straight lines.
type span struct {
	known             bool
	first, last       int64
	from, to          taken
	revRoom, keptRoom int64
}

// taken is revenue and fees of an average order in the gauge's numbers.
type taken struct{ revenue, fees uint64 }

// spare is how many places a gauge has beyond those of what it weighs, so that
// costs that come out of quotients are known to a fraction of a cent. Under a high
// limit they are fewer, for prices to stay within 64 bits.
const spare = 4

// newGauge returns nil where sales by the terms are not weighed in whole numbers.
func newGauge(terms channel.Terms, g quoin.Grid, curve []channel.Piece) *gauge {
	plan, ok := terms.Plan()
	if !ok {
		return nil
	}
	step, ok := g.Step().Units(plan.ListPlaces())
	revenue, fees := plan.SumPlaces()
	items, whole := quoin.AmountOf(1, 0).Times(plan.PerOrder()).Over(plan.Home()).Round(0, quoin.Up).Units(0)
	if !ok || !whole || max(revenue, fees) > mostPlaces {
		return nil
	}
	m := &gauge{plan: plan, step: uint64(step), items: items, sent: terms.Sent()}
	for more := spare; more >= 0; more-- {
		m.wide = max(revenue, fees) + more
		m.raiseRev, m.raiseFee = pow10(m.wide-revenue), pow10(m.wide-fees)
		if _, fits := m.at(g.Len()); fits {
			break
		}
	}
	if _, fits := m.at(1); !fits {
		return nil // its fees are no whole numbers
	}
	m.spans = each(curve, m.span)
	return m
}

// mostPlaces keeps powers of ten within 64 bits.
const mostPlaces = 14

func pow10(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}

func (m *gauge) span(p channel.Piece) span {
	s := span{first: p.First, last: p.Last}
	var ok [4]bool
	s.from, ok[0] = m.at(p.First)
	s.to, ok[1] = m.at(p.Last)
	s.revRoom, ok[2] = m.whole(p.Revenue.Within, quoin.Up)
	s.keptRoom, ok[3] = m.whole(p.Kept.Within, quoin.Up)
	s.known = ok == [4]bool{true, true, true, true} && s.revRoom < mostRoom && s.keptRoom < mostRoom
	return s
}

// mostRoom is more than rounding takes of any order that is settled in 64 bits.
const mostRoom = 1 << 40

// at is what revenue and fees of an average order come to at a price.
func (m *gauge) at(i int64) (t taken, ok bool) {
	over, list := bits.Mul64(uint64(i), m.step)
	sums, ok := m.plan.Sums(list)
	rev, revenue := bits.Mul64(sums.Revenue, m.raiseRev)
	fee, fees := bits.Mul64(sums.Fees, m.raiseFee)
	return taken{revenue, fees}, ok && over|rev|fee == 0 && (revenue|fees)>>62 == 0
}

// perOrder is an amount per item in the shop's currency for an average order, in the
// currency that buyers pay in.
func (m *gauge) perOrder(a quoin.Amount) quoin.Amount { return m.abroad(a.Times(m.plan.PerOrder())) }

// abroad is an amount in the currency that buyers pay in.
func (m *gauge) abroad(a quoin.Amount) quoin.Amount { return a.Over(m.plan.Home()) }

// whole is an amount per item in the gauge's numbers, for an average order.
func (m *gauge) whole(perItem quoin.Amount, how quoin.Rounding) (int64, bool) {
	return m.perOrder(perItem).Round(m.wide, how).Units(m.wide)
}

// costs is what an item costs beside fees, in the gauge's numbers and cut: its
// goods; with sending and selling; with overhead.
type costs struct {
	of [ofAll + 1]int64
	ok bool
}

func (m *gauge) costs(s *margin.Sale) costs {
	if m == nil {
		return costs{}
	}
	return m.beside(s).with(m, s.GoodsPerItem())
}

// beside is what an item costs beside its goods, which is the same for all items of a
// channel: sending and selling; with overhead.
func (m *gauge) beside(s *margin.Sale) (c costs) {
	spent, a := m.whole(m.sent.Add(s.FixedCost), quoin.Down)
	overhead, b := m.whole(s.Overhead, quoin.Down)
	return costs{[...]int64{ofSpent: spent, ofAll: spent + overhead}, a && b && spent < mostCost && overhead < mostCost}
}

// mostCost keeps sums of costs within 64 bits.
const mostCost = 1 << 60

// with adds goods for an item.
func (c costs) with(m *gauge, goods quoin.Amount) costs {
	return c.withOrder(m, goods.Times(m.plan.PerOrder()))
}

// withOrder adds the goods of an average order.
func (c costs) withOrder(m *gauge, goods quoin.Amount) costs {
	n, ok := m.abroad(goods).UnitsDown(m.wide)
	c.ok = c.ok && ok && max(n, -n) < mostCost
	for of := ofGoods; of <= ofAll; of++ {
		c.of[of] += n
	}
	return c
}

// bar is a claim in the gauge's numbers: revenue × what it is, less fees × what they
// are, is to reach least. From guard above on it is met, from guard below missed.
type bar struct {
	revenue, fees int64
	least         i128
	guard         int64
}

// mark is a bar before it is known what an item costs.
type mark struct {
	bar
	costs int64 // how many times the costs are added to least
	of    costing
}

// mark makes the mark of a claim; false where it does not fit.
func (m *gauge) mark(c claim) (mark, bool) {
	places := max(c.revenue.Places(), c.fees.Places(), c.costs.Places())
	if places+m.wide > 18 {
		return mark{}, false
	}
	revenue, a := scaled(c.revenue, places)
	fees, b := scaled(c.fees, places)
	times, d := scaled(c.costs, places)
	least, e := m.perOrder(c.least).Round(m.wide+places, quoin.Down).Units(m.wide + places)
	if !(a && b && d && e) {
		return mark{}, false
	}
	// What was cut of costs, in three parts, and of least is below one of each, the goods as
	// they are and not as they are compared. The twelve places of a quotient are as far off
	// again only where there are many places.
	guard := 4*times + 2 + m.items*int64(pow10(max(0, m.wide+places-12)))
	return mark{bar{revenue, fees, wideOf(least), guard}, times, c.of}, guard < mostRoom
}

// with is the bar for an item of such costs.
func (k *mark) with(c *costs) bar {
	b := k.bar
	b.least = product(k.costs, c.of[k.of]).Plus(b.least)
	return b
}

func scaled(f quoin.Factor, places int) (int64, bool) {
	n, ok := quoin.AmountOf(1, 0).Times(f).Units(places)
	return n, ok && max(n, -n) < mostRoom
}

// over is by how much a price is above the bar.
func (b bar) over(t taken) i128 {
	return product(b.revenue, int64(t.revenue)).Minus(product(b.fees, int64(t.fees))).Minus(b.least)
}

// verdict is what a gauge says.
type verdict uint8

const (
	unsure verdict = iota
	missed
	met
)

func (b bar) weigh(t taken) verdict {
	switch over := narrow(b.over(t)); {
	case over >= b.guard:
		return met
	case over <= -b.guard:
		return missed
	}
	return unsure
}

// weigh says whether the price with an index meets all bars.
func (m *gauge) weigh(bars []bar, i int64) verdict {
	t, ok := m.at(i)
	if !ok {
		return unsure
	}
	out := met
	for _, b := range bars {
		switch b.weigh(t) {
		case missed:
			return missed
		case unsure:
			out = unsure
		}
	}
	return out
}

// zones is what the span's lines say of its prices.
func (s span) zones(bars []bar) zones {
	z := whole(s.first, s.last)
	for _, b := range bars {
		z.narrow(s.zone(b))
	}
	return z.settled()
}

// room is how far rounding can move what a bar weighs, revenue and what is kept of it
// told apart.
func (s span) room(b bar) i128 {
	apart := b.revenue - b.fees
	return product(max(apart, -apart), s.revRoom).Plus(product(max(b.fees, -b.fees), s.keptRoom))
}

// band is how far from the bar the line is where it tells met from missed.
func (s span) band(b bar) i128 {
	room := s.room(b)
	return room.Plus(room).Plus(wideOf(b.guard))
}

// zone follows the straight line between the ends of a span. They are off the true
// one by no more than the room each, and so is what lies between; a price is off it
// by the room too. So what is two rooms above the bar on the line is met, and what is
// as far below is missed.
func (s span) zone(b bar) zones {
	all, none := run{s.first, s.last}, run{s.last + 1, s.last}
	room, band := s.room(b), s.band(b)
	from, to, n := b.over(s.from), b.over(s.to), s.last-s.first
	rise := to.Minus(from)
	switch {
	case !negative(from.Minus(band)) && !negative(to.Minus(band)):
		return zones{all, all, false}
	case negative(from.Plus(band)) && negative(to.Plus(band)):
		return zones{none, none, false}
	case rise == i128{} && room == i128{}:
		return zones{all, all, true}
	case rise == i128{}:
		return zones{none, all, false}
	case !negative(rise):
		sure := run{s.first + along(band.Minus(from), n, rise, up), s.last}
		return zones{sure, run{s.first + along(minus(band.Plus(from)), n, rise, down), s.last}, false}
	}
	sure := run{s.first, s.first - 1}
	if above := from.Minus(band); !negative(above) {
		sure.last = s.first + along(above, n, minus(rise), down)
	}
	return zones{sure, run{s.first, min(s.last, s.first+along(from.Plus(band), n, minus(rise), up))}, false}
}
