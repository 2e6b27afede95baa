package rule

import (
	"math"
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// gauge weighs what sales in one channel leave in whole numbers, for terms that
// have a Plan. What it calls sure is what decimals would say; of the rest, some
// hair's breadth around what is asked, it says that it does not know.
type gauge struct {
	plan *channel.Plan
	step uint64 // of the grid, in minor units
	// wide is how many places the numbers have; sums of revenue and fees are raised
	// to them.
	wide               int
	raiseRev, raiseFee uint64
	perOrder           float64
	sent               quoin.Amount // what sending costs an item
	spans              []span
}

// span is a piece of the curve in floating point: good to know where to look, and
// for nothing else. It counts in the gauge's numbers, and in indexes of the grid.
type span struct {
	first, last   int64
	revenue, fees trend
}

// trend is start + slope × index, give or take room.
type trend struct{ slope, start, room float64 }

// spare is how many places a gauge has beyond those of what it weighs, so that
// costs that come out of quotients are known to a fraction of a cent.
const spare = 4

// newGauge returns nil where sales by the terms are not weighed in whole numbers.
func newGauge(terms channel.Terms, g quoin.Grid, curve []channel.Piece) *gauge {
	plan, ok := terms.Plan()
	if !ok {
		return nil
	}
	step, ok := g.Step().Units(terms.Places())
	revenue, fees := plan.SumPlaces()
	wide := max(revenue, fees) + spare
	if !ok || wide > mostWide {
		return nil
	}
	m := &gauge{plan: plan, step: uint64(step), wide: wide, raiseRev: pow10(wide - revenue), raiseFee: pow10(wide - fees), sent: curve[0].Fulfilment}
	m.perOrder, _ = plan.PerOrder().Rat().Float64()
	price, _ := g.Step().Rat().Float64()
	unit := m.perOrder * math.Pow10(wide)
	m.spans = make([]span, len(curve))
	for i, p := range curve {
		m.spans[i] = span{p.First, p.Last, trendOf(p.Revenue, price, unit), trendOf(p.Fees, price, unit)}
	}
	return m
}

// mostWide keeps powers of ten, and what they multiply, within 64 bits.
const mostWide = 14

func pow10(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}

func trendOf(l channel.Line, price, unit float64) trend {
	slope, _ := l.Slope.Rat().Float64()
	start, _ := l.Start.Rat().Float64()
	room, _ := l.Within.Rat().Float64()
	return trend{slope * price * unit, start * unit, room * unit}
}

// costs is what an item costs beside fees, in the gauge's numbers for an average
// order: its goods; with sending and selling; with overhead.
type costs struct {
	goods, spent, all int64
	ok                bool
}

func (m *gauge) costs(s margin.Sale) costs {
	if m == nil {
		return costs{}
	}
	goods := s.GoodsPerItem()
	spent := goods.Add(m.sent).Add(s.Selling)
	var c costs
	var a, b bool
	c.goods, a = m.floor(goods)
	c.spent, b = m.floor(spent)
	c.all, c.ok = m.floor(spent.Add(s.Overhead))
	c.ok = a && b && c.ok
	return c
}

// floor is an amount per item in the gauge's numbers, cut.
func (m *gauge) floor(perItem quoin.Amount) (int64, bool) {
	return perItem.Times(m.plan.PerOrder()).Round(m.wide, quoin.Down).Units(m.wide)
}

// bar is a claim in the gauge's numbers: it is met from least + guard on, and
// missed below least − guard.
type bar struct {
	revenue, fees int64
	least, guard  int64
}

// bar sets the bar of a claim; false where it does not fit.
func (m *gauge) bar(c claim, of costs) (bar, bool) {
	places := max(c.revenue.Places(), c.fees.Places(), c.costs.Places())
	if !of.ok || places+m.wide > 18 {
		return bar{}, false
	}
	revenue, a := whole(c.revenue, places)
	fees, b := whole(c.fees, places)
	times, d := whole(c.costs, places)
	least, e := c.least.Times(m.plan.PerOrder()).Round(m.wide+places, quoin.Down).Units(m.wide + places)
	cost := [...]int64{ofNothing: 0, ofGoods: of.goods, ofSpent: of.spent, ofAll: of.all}[c.of]
	asked, f := product(times, cost)
	if !(a && b && d && e && f) || least > mostWhole || least < -mostWhole {
		return bar{}, false
	}
	// What was cut is less than one of each, and twelve places of a quotient are
	// nothing beside them but where there are many places.
	guard := times + 2 + int64(m.perOrder*math.Pow10(m.wide+places-12)) + 1
	return bar{revenue, fees, asked + least, guard}, true
}

func whole(f quoin.Factor, places int) (int64, bool) {
	n, ok := quoin.AmountOf(1, 0).Times(f).Units(places)
	return n, ok && n < mostWhole && n > -mostWhole
}

// mostWhole keeps the sum of a few numbers within 64 bits.
const mostWhole = 1 << 60

func product(x, y int64) (int64, bool) {
	hi, lo := bits.Mul64(uint64(max(x, -x)), uint64(max(y, -y)))
	if hi != 0 || lo > mostWhole {
		return 0, false
	}
	if (x < 0) != (y < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}

// verdict is what a gauge says.
type verdict uint8

const (
	unsure verdict = iota
	missed
	met
)

// weigh says whether the price with an index meets all bars.
func (m *gauge) weigh(bars []bar, i int64) verdict {
	revenue, fees, ok := m.at(i)
	if !ok {
		return unsure
	}
	out := met
	for _, b := range bars {
		switch b.weigh(revenue, fees) {
		case missed:
			return missed
		case unsure:
			out = unsure
		}
	}
	return out
}

// at is what revenue and fees of an average order come to at a price.
func (m *gauge) at(i int64) (revenue, fees int64, ok bool) {
	hi, list := bits.Mul64(uint64(i), m.step)
	sums, ok := m.plan.Sums(list)
	if hi != 0 || !ok {
		return 0, 0, false
	}
	hi, rev := bits.Mul64(sums.Revenue, m.raiseRev)
	more, fee := bits.Mul64(sums.Fees, m.raiseFee)
	return int64(rev), int64(fee), hi == 0 && more == 0 && rev < mostWhole && fee < mostWhole
}

func (b bar) weigh(revenue, fees int64) verdict {
	x, ok := product(b.revenue, revenue)
	y, fine := product(b.fees, fees)
	if !ok || !fine {
		return unsure
	}
	switch over := x - y - b.least; {
	case over >= b.guard:
		return met
	case over < -b.guard:
		return missed
	}
	return unsure
}

// zones returns the prices of a span that certainly meet all bars, and those
// around them that may.
func (m *gauge) zones(s span, bars []bar) (sure, maybe run) {
	sure, maybe = run{s.first, s.last}, run{s.first, s.last}
	for _, b := range bars {
		c, d := s.zone(b)
		sure = run{max(sure.first, c.first), min(sure.last, c.last)}
		maybe = run{max(maybe.first, d.first), min(maybe.last, d.last)}
	}
	return settled(sure, maybe)
}

// zone follows the straight line of a bar over a span. Its room covers what
// floating point loses: 52 bits of the greatest number on the way, a hundred times.
func (s span) zone(b bar) (sure, maybe run) {
	whole, none := run{s.first, s.last}, run{s.last + 1, s.last}
	x, y := float64(b.revenue), float64(b.fees)
	slope := x*s.revenue.slope - y*s.fees.slope
	start := x*s.revenue.start - y*s.fees.start - float64(b.least)
	size := math.Abs(x)*s.revenue.size(s.last) + math.Abs(y)*s.fees.size(s.last) + math.Abs(float64(b.least))
	room := math.Abs(x)*s.revenue.room + math.Abs(y)*s.fees.room + float64(b.guard) + size*0x1p-44
	if math.Abs(slope)*float64(s.last) <= size*0x1p-45 { // flat, as far as can be told
		switch {
		case start-room >= 0:
			return whole, whole
		case start+room < 0:
			return none, none
		}
		return none, whole
	}
	low, high := (-start-room)/slope, (-start+room)/slope
	if slope < 0 {
		low, high = high, low
	}
	from, to := s.clamp(math.Floor(low)-1), s.clamp(math.Ceil(high)+1)
	if slope > 0 {
		return run{to + 1, s.last}, run{from, s.last}
	}
	return run{s.first, from - 1}, run{s.first, to}
}

func (t trend) size(last int64) float64 {
	return math.Abs(t.slope)*float64(last) + math.Abs(t.start) + t.room
}

// clamp is an index of the span, or the one just before or behind it.
func (s span) clamp(i float64) int64 {
	switch {
	case i < float64(s.first):
		return s.first - 1
	case i > float64(s.last):
		return s.last + 1
	}
	return min(max(int64(i), s.first-1), s.last+1)
}
