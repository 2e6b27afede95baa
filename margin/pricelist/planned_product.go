package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/margin/comparables"
)

// product fills in a product that was checked and worked out, with the comparables of its lot;
// false where it is not one for the plan.
func (m *plannedProduct) product(s *sharedCosts, p *Product, seen []comparables.Record) bool {
	shop := s.plan
	m.begin(shop)
	m.ID, m.Design, m.name, m.today, m.run = p.ID, p.Design, p.Name, p.Price, p.Run
	m.Size, m.Comparables = p.paper(), s.comparables[p.ID]
	if len(seen) > 0 {
		m.Comparables = slices.Concat(m.Comparables, seen)
	}
	ok := true
	m.bill, ok = s.plannedLines(m.bill, p.Bill, p.Run)
	for i, name := range shop.packings {
		if list, has := p.Packing[name]; has && ok {
			m.lists[i], ok = s.plannedLines(m.lists[i], list, p.Run)
		}
	}
	for j := range m.Goods {
		m.Goods[j].Sold = p.sellsIn(shop.channels[j].id)
	}
	return ok
}

// plannedLines looks up what the lines of a bill refer to, and puts them behind others.
func (s *sharedCosts) plannedLines(to []plannedLine, bill cost.Bill, run cost.Run) ([]plannedLine, bool) {
	for i := range bill {
		l := &bill[i]
		unit, known := s.costs[l.Supply]
		in, err := l.Quantity.In(unit.Unit)
		if !known || err != nil {
			return to, false
		}
		starts := quoin.FactorOf(1)
		if l.Stage != "" {
			if starts, known = s.course.Starts(l.Stage); !known {
				return to, false
			}
		}
		line := plannedLine{unit: unit.Amount, number: in.Number(), perOrder: l.ForOrder(), tested: l.UsedByTest(s.course.First()), labour: unit.Labour}
		line.times, line.over = l.Spread(starts, run)
		to = append(to, line)
	}
	return to, true
}
