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
	m.begin(s.plan.goodsPlan)
	m.ID, m.Design, m.name, m.Today = p.ID, p.Design, p.Name, p.Price
	m.Size, m.Comparables = p.paper(), s.comparables[p.ID]
	if len(seen) > 0 {
		m.Comparables = slices.Concat(m.Comparables, seen)
	}
	return m.made(s, s.plan.goodsPlan, p)
}

// made fills in what a product is made of, how it is packed and where it is sold.
func (m *plannedProduct) made(s *sharedCosts, in *goodsPlan, p *Product) (ok bool) {
	m.run, m.recovered = p.Run, s.course.Recovered()
	m.bill, ok = s.plannedLines(m.bill, p.Bill, p.Run)
	for i, name := range in.packings {
		if list, has := p.Packing[name]; has && ok {
			m.lists[i], ok = s.plannedLines(m.lists[i], list, p.Run)
		}
	}
	for j := range m.Goods {
		m.Goods[j].Sold = p.sellsIn(in.channels[j].id)
	}
	return ok
}

// plannedLines looks up what the lines of a bill refer to, and puts them behind others.
func (m *sharedCosts) plannedLines(to []plannedLine, bill cost.Bill, run cost.Run) ([]plannedLine, bool) {
	for i := range bill {
		l := &bill[i]
		unit, known := m.costs[l.Supply]
		in, err := l.Quantity.In(unit.Unit)
		if !known || err != nil {
			return to, false
		}
		starts := quoin.FactorOf(1)
		if l.Stage != "" {
			if starts, known = m.course.Starts(l.Stage); !known {
				return to, false
			}
		}
		line := plannedLine{unit: unit.Amount, number: in.Number(), perOrder: l.ForOrder(), tested: l.UsedByTest(m.course.First()), labour: unit.Labour}
		line.times, line.over = l.Spread(starts, run)
		to = append(to, line)
	}
	return to, true
}
