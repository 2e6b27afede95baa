package rule

import (
	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
)

// PlannedItem is a product that a Plan decides, with what was decided. It can be used for one
// product after the other, and keeps the memory that takes.
type PlannedItem struct {
	ID, Design string
	Size       quoin.Size                   // as of an Item
	Today      quoin.Optional[quoin.Amount] // today's price
	// Comparables are those of the product.
	Comparables []comparables.Record
	Goods       []PlannedGoods // one for each channel of the plan

	// Price, Least and Greatest are those of a Decision, Dropped too.
	Price, Least, Greatest quoin.Amount
	Dropped                []string

	search search
}

// PlannedGoods is what the goods of a product cost in one channel.
type PlannedGoods struct {
	Sold    bool         // whether the channel sells it; else the rest is of no account
	PerItem quoin.Amount // as Sale.GoodsPerItem
	Orders  []margin.OrderGoods
}

// Decide decides a product by itself and fills in its results. It returns false where Decide,
// the function, has to: if no price is left, or the plan is not sure of one. Then the results
// are of no use.
func (p *Plan) Decide(it *PlannedItem) bool {
	if p == nil || it == nil || len(it.Goods) != p.channels {
		return false
	}
	s := &it.search
	s.begin(p, it)
	for r := range p.rules[:p.prefers] {
		if !s.add(r) {
			return false
		}
	}
	least, v := s.next(s.first)
	if v != met {
		return false
	}
	for r := p.prefers; r < len(p.rules); r++ {
		kept := s.passage
		if !s.add(r) {
			return false
		}
		at, v := s.next(least)
		switch v {
		case unsure:
			return false
		case missed:
			s.passage = kept
			it.Dropped = append(it.Dropped, p.rules[r].id)
		default:
			least = at
		}
	}
	greatest, v := s.prev(s.last)
	if v != met {
		return false
	}
	price, sure := s.chosen(it, least, greatest)
	it.Price, it.Least, it.Greatest = p.grid.Price(price), p.grid.Price(least), p.grid.Price(greatest)
	return sure
}

// chosen is the price that is taken, as remains.choose takes it.
func (s *search) chosen(it *PlannedItem, least, greatest int64) (int64, bool) {
	today, given := it.Today.Get()
	switch {
	case s.plan.choose == Greatest:
		return greatest, true
	case s.plan.choose == Least || !given:
		return least, true
	}
	g := s.plan.grid
	at := g.Ceil(today)
	if at > greatest {
		return greatest, true
	}
	above, v := s.next(max(at, least))
	if v != met || above == at && g.Price(at).Equal(today) || at <= least {
		return above, v == met
	}
	below, v := s.prev(at - 1)
	if v == met && today.Sub(g.Price(below)).Cmp(g.Price(above).Sub(today)) <= 0 {
		return below, true
	}
	return above, v == met
}

// passage is the rules that are asked so far: prices from first to last that fit endings and
// pass gates.
type passage struct {
	first, last int64
	endings     []*comb
	gates       []gate
	bars        []bar
}

// search looks for prices that rules allow one product.
type search struct {
	plan *Plan
	item *PlannedItem
	passage
	costs []costs // by unit, once they were asked for
	known []bool
	list  *comparables.List // of the product's, once it was asked for
}

func (s *search) begin(p *Plan, it *PlannedItem) {
	s.plan, s.item, s.list, it.Dropped = p, it, nil, nil
	s.first, s.last = 1, p.grid.Len()
	s.endings, s.gates, s.bars = s.endings[:0], s.gates[:0], s.bars[:0]
	if cap(s.bars) < p.marks { // so that none of them moves
		s.bars = make([]bar, 0, p.marks)
	}
	if len(s.costs) != len(p.units) {
		s.costs, s.known = make([]costs, len(p.units)), make([]bool, len(p.units))
	}
	clear(s.known)
}

// add adds a rule of the plan; false where it cannot be weighed.
func (s *search) add(at int) bool {
	r := &s.plan.rules[at]
	if !r.speaksOf(s.item) {
		return true
	}
	s.first, s.last = max(s.first, r.first), min(s.last, r.last)
	if r.endings != nil {
		s.endings = append(s.endings, r.endings)
	}
	if multiple, given := r.multiple.Get(); given {
		s.multiple(r, multiple)
	}
	if share, given := r.change.Get(); given {
		s.change(share)
	}
	if r.market != nil && len(s.item.Comparables) > 0 {
		s.market(r.market)
	}
	for i := range r.demands {
		if d := &r.demands[i]; s.item.Goods[s.plan.units[d.unit].channel].Sold && !s.demand(d) {
			return false
		}
	}
	return true
}

// multiple follows CostMultiple.
func (s *search) multiple(r *plannedRule, multiple quoin.Factor) {
	for j := range s.item.Goods {
		if g := &s.item.Goods[j]; g.Sold && r.channels[j] {
			s.first = max(s.first, s.plan.grid.Ceil(g.PerItem.Times(multiple)))
		}
	}
}

// change follows MaxChange.
func (s *search) change(share quoin.Rate) {
	today, given := s.item.Today.Get()
	if !given {
		return
	}
	room := today.Part(share)
	s.first, s.last = max(s.first, s.plan.grid.Ceil(today.Sub(room))), min(s.last, s.plan.grid.Floor(today.Add(room)))
}

// market follows Market.
func (s *search) market(k *Market) {
	if s.list == nil {
		s.list = comparables.NewList(s.item.Comparables, s.item.Size)
	}
	if c := k.compare(s.list); c.ok {
		s.first, s.last = max(s.first, s.plan.grid.Ceil(c.from)), min(s.last, s.plan.grid.Floor(c.to))
	}
}

// demand adds a gate for a demand.
func (s *search) demand(d *plannedDemand) bool {
	c := s.costsOf(d.unit)
	if !c.ok {
		return false
	}
	from := len(s.bars)
	for i := range d.marks {
		s.bars = append(s.bars, d.marks[i].with(c))
	}
	s.gates = append(s.gates, gate{gauge: s.plan.units[d.unit].gauge, bars: s.bars[from:], sure: run{1, 0}})
	return true
}

func (s *search) costsOf(unit int) *costs {
	if !s.known[unit] {
		u := &s.plan.units[unit]
		goods := &s.item.Goods[u.channel]
		if u.kind < 0 {
			s.costs[unit] = u.beside.with(u.gauge, goods.PerItem)
		} else if u.kind < len(goods.Orders) {
			s.costs[unit] = u.beside.withOrder(u.gauge, goods.Orders[u.kind].Cost)
		} else {
			s.costs[unit] = costs{}
		}
		s.known[unit] = true
	}
	return &s.costs[unit]
}

// mostRounds bounds how often all rules are asked for one price.
const mostRounds = 100

// next returns the least price that all rules allow from one on, and prev the greatest up to one.
func (s *search) next(from int64) (int64, verdict) {
	return s.nearest(max(from, s.first), s.last, 1, (*comb).next)
}

func (s *search) prev(from int64) (int64, verdict) {
	return s.nearest(min(from, s.last), s.first, -1, (*comb).prev)
}

// nearest returns the price nearest to one that all rules allow, the way a step goes. Each rule
// moves on to the nearest that it allows, until none has to.
func (s *search) nearest(at, end, step int64, ending func(*comb, int64) int64) (int64, verdict) {
	for range mostRounds {
		was := at
		for _, c := range s.endings {
			at = ending(c, at)
		}
		for i := range s.gates {
			var v verdict
			if at, v = s.gates[i].nearest(at, end, step); v != met {
				return at, v
			}
		}
		switch {
		case (at-end)*step > 0:
			return at, missed
		case at == was:
			return at, met
		}
	}
	return at, unsure
}
