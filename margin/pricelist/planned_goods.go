package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
)

// plannedLine is a line of a bill or of a packing list, with what it refers to looked up.
type plannedLine struct {
	unit     quoin.Amount // what one unit of its supply costs
	number   quoin.Factor // of them
	times    quoin.Factor // as of cost.Charge
	over     quoin.Factor
	once     bool // times and over are 1
	perOrder bool
	tested   bool // a test print uses it
	labour   cost.Labour
}

// billSums is what lines come to, added up as margin.Making and Making.Pack do: for an item, for an
// order, and what a test print uses. Lines is how many there are.
type billSums struct {
	item, order, test quoin.Amount
	lines             int
}

// sum adds up lines: those that are working time of a kind, or all.
func sum(lines []plannedLine, labour cost.Labour) (s billSums) {
	for i := range lines {
		l := &lines[i]
		if labour != "" && l.labour != labour {
			continue
		}
		s.lines++
		amount := l.unit.Times(l.number)
		if l.tested {
			s.test = s.test.Add(amount)
		}
		if !l.once {
			amount = amount.Times(l.times).Over(l.over)
		}
		if l.perOrder {
			s.order = s.order.Add(amount)
		} else {
			s.item = s.item.Add(amount)
		}
	}
	return s
}

// packedSums is what an item and an order cost packed in one way, and the part of an item that is
// making; for all of it, and for the working time in it.
type packedSums struct{ all, own, paid margin.Labour }

// goods works out what the goods of a product cost in each channel, as margin.NewPackedSale does.
func (p *goodsPlan) goods(m *plannedProduct) {
	bill := sum(m.bill, "")
	made := bill.item.Sub(m.recovered).Add(runPerItem(m.run, bill.test, m.run.Setup))
	var own, paid margin.Labour
	if p.labour {
		own, paid = labourOf(m, cost.OwnTime), labourOf(m, cost.PaidTime)
	}
	for i := range m.lists {
		packing := sum(m.lists[i], "")
		m.packed[i].all = margin.Labour{PerItem: made.Add(packing.item), PerOrder: bill.order.Add(packing.order), Made: made}
		if p.labour {
			m.packed[i].own, m.packed[i].paid = packedTime(own, m.lists[i], cost.OwnTime), packedTime(paid, m.lists[i], cost.PaidTime)
		}
	}
	for i := range p.packs {
		k := &p.packs[i]
		of := &m.packed[k.packing]
		m.packs[i].Cost = k.of(&of.all)
		if p.labour {
			m.packs[i].OwnTime, m.packs[i].PaidTime = k.time(&of.own), k.time(&of.paid)
		}
	}
	for j := range m.Goods {
		if m.Goods[j].Sold {
			p.goodsIn(m, j)
		}
	}
}

// goodsIn fills in what goods cost in a channel.
func (p *goodsPlan) goodsIn(m *plannedProduct, j int) {
	g, c, terms := &m.Goods[j], &p.channels[j], &p.sales[j].Terms
	for k, pack := range c.packs {
		g.Orders[k] = m.packs[pack]
	}
	g.PerItem = terms.Average(func(k int) quoin.Amount { return g.Orders[k].Cost })
	m.items[j] = c.idle
	m.items[j].Cost = g.PerItem
	if p.labour {
		m.items[j].OwnTime = terms.Average(func(k int) quoin.Amount { return g.Orders[k].OwnTime })
		m.items[j].PaidTime = terms.Average(func(k int) quoin.Amount { return g.Orders[k].PaidTime })
	}
}

// runPerItem follows cost.Run.PerItem, where a test print costs so much.
func runPerItem(r cost.Run, test, setup quoin.Amount) quoin.Amount {
	if r.Good <= 0 {
		return quoin.Amount{}
	}
	return test.Times(quoin.FactorOf(r.Tests)).Add(setup).Over(quoin.FactorOf(r.Good))
}

// labourOf is the working time of a kind in the bill, and in its tests.
func labourOf(m *plannedProduct, labour cost.Labour) margin.Labour {
	s := sum(m.bill, labour)
	if s.lines == 0 {
		return margin.Labour{}
	}
	made := s.item.Add(runPerItem(m.run, s.test, quoin.Amount{}))
	return margin.Labour{PerItem: made, PerOrder: s.order, Made: made}
}

// packedTime adds the working time of packing.
func packedTime(l margin.Labour, lines []plannedLine, labour cost.Labour) margin.Labour {
	if s := sum(lines, labour); s.lines > 0 {
		l.PerItem, l.PerOrder = l.PerItem.Add(s.item), l.PerOrder.Add(s.order)
	}
	return l
}

// of follows margin.Goods.OrderOf.
func (k *plannedPack) of(l *margin.Labour) quoin.Amount {
	sum := l.PerItem.Times(k.items).Add(l.PerOrder)
	if !k.back.IsZero() {
		sum = sum.Sub(l.Made.Times(k.items).Part(k.back))
	}
	return sum.Times(k.uplift).Over(k.arrives)
}

// time is of for working time, of which there mostly is none.
func (k *plannedPack) time(l *margin.Labour) quoin.Amount {
	if l.PerItem.IsZero() && l.PerOrder.IsZero() {
		return quoin.Amount{}
	}
	return k.of(l)
}
