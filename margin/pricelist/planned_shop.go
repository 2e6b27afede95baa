package pricelist

import (
	"bytes"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/version"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// plannedShop is a shop whose products can be priced in whole numbers, one by one, where only
// figures are asked for: its plan of rules, and what goods cost besides lines. What it prices
// comes out as the general way has it, which it leaves all to that it cannot be sure of.
type plannedShop struct {
	*goodsPlan
	plan     *rule.Plan
	answer   Answer
	places   int       // of money
	memories sync.Pool // of *plannedProduct
}

// goodsPlan is channels compiled for what the goods of any product cost in them.
type goodsPlan struct {
	sales                []margin.Sale // by channel, without goods
	channels             []plannedChannel
	packings             []string // names of packing lists that channels use
	packs                []plannedPack
	labour               bool // some supplies are working time
	channelAt, packingAt map[string]int
}

// plannedChannel is what its kinds of order take.
type plannedChannel struct {
	id, name string
	packing  int   // its list, by place
	packs    []int // by kind of order
	idle     margin.ItemGoods
}

// plannedPack is one way of packing an order: so many items of a list, with what is lost and
// comes back. Kinds of order of all channels share it.
type plannedPack struct {
	packing int
	items   quoin.Factor
	uplift  quoin.Factor // 1 + contingency
	arrives quoin.Factor // 1 − loss
	back    quoin.Rate
}

// planned compiles a shop; nil where it has what the plan has not: terms that differ from product
// to product, or rules that the plan leaves to the general way.
func (m *sharedCosts) planned(d derivedDocument) *plannedShop {
	p := &plannedShop{goodsPlan: m.goodsPlan(d.Document), places: d.Currency.Digits()}
	if p.goodsPlan == nil {
		return nil
	}
	var ok bool
	if p.plan, ok = rule.NewPlan(d.Rules, m.compiled, p.sales, m.grid, d.Choose); !ok {
		return nil
	}
	g := m.grid
	p.answer = Answer{
		Engine: version.Engine, Currency: d.Currency, PriceStep: d.Currency.Round(g.Step(), quoin.HalfUp), PriceLimit: d.Currency.Round(g.Price(g.Len()), quoin.HalfUp),
		Dropped: []string{}, Choose: d.Choose, Cautions: d.Cautions(),
	}
	return p
}

// goodsPlan compiles channels; nil where the terms of one differ from product to product.
func (m *sharedCosts) goodsPlan(d Document) *goodsPlan {
	p := &goodsPlan{sales: make([]margin.Sale, len(d.Channels)), channels: make([]plannedChannel, len(d.Channels)), channelAt: make(map[string]int, len(d.Channels))}
	for j := range d.Channels {
		c := &d.Channels[j]
		fixed, err := c.FixedCost.PerItem()
		if err != nil || m.compiled[j] == nil || c.OnDemand != nil {
			return nil
		}
		p.sales[j] = margin.Sale{Terms: m.terms[j], Overhead: m.overhead, IncomeTax: d.IncomeTax, FixedCost: fixed}
		p.channels[j] = plannedChannel{id: c.ID, name: c.Name, packing: p.packing(c.Packing)}
		p.channelAt[c.ID] = j
		arrives := c.Lost().Complement()
		for k := range m.terms[j].Orders() {
			o, _ := m.terms[j].Order(k)
			if o.Others != nil {
				return nil
			}
			p.channels[j].packs = append(p.channels[j].packs, p.pack(plannedPack{
				packing: p.channels[j].packing, items: quoin.FactorOf(m.terms[j].Items(k)), uplift: d.Contingency.OnePlus(), arrives: arrives, back: c.Back(),
			}))
		}
		s := p.sales[j]
		s.Goods = make([]margin.OrderGoods, m.terms[j].Orders())
		p.channels[j].idle = s.ItemGoods()
	}
	p.packingAt = make(map[string]int, len(p.packings))
	for i, name := range p.packings {
		if name != "" {
			p.packingAt[name] = i
		}
	}
	p.labour = slices.ContainsFunc(d.Supplies, func(s cost.Supply) bool { return s.Labour != "" })
	return p
}

// packing is the place of a packing list by its name.
func (p *goodsPlan) packing(name string) int {
	at := slices.Index(p.packings, name)
	if at < 0 {
		at = len(p.packings)
		p.packings = append(p.packings, name)
	}
	return at
}

// pack is the place of a way of packing. Shares that are written with other digits are kept
// apart: the last digits of quotients by them may differ.
func (p *goodsPlan) pack(one plannedPack) int {
	at := slices.IndexFunc(p.packs, func(q plannedPack) bool {
		return q.packing == one.packing && alike(q.items, one.items) && alike(q.arrives, one.arrives) && alike(q.back.Factor(), one.back.Factor())
	})
	if at < 0 {
		at = len(p.packs)
		p.packs = append(p.packs, one)
	}
	return at
}

// alike reports whether numbers have the same digits, zeros too.
func alike(a, b quoin.Factor) bool {
	x, err := a.MarshalBinary()
	y, err2 := b.MarshalBinary()
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

// plannedProduct is a product as a plan prices it, in memory that one product after the other
// uses.
type plannedProduct struct {
	name  string
	bill  []plannedLine
	lists [][]plannedLine // by packing list
	has   []bool          // of the lists, those that it has
	run   cost.Run
	// recovered is what stages give back.
	recovered quoin.Amount

	packed []packedSums // by packing list
	packs  []margin.OrderGoods
	items  []margin.ItemGoods // by channel
	rule.PlannedItem
}

// memory is that of a product, to be given back.
func (p *plannedShop) memory() *plannedProduct {
	if m, ok := p.memories.Get().(*plannedProduct); ok {
		return m
	}
	return new(plannedProduct)
}

// begin makes room for a product.
func (m *plannedProduct) begin(p *goodsPlan) {
	if len(m.Goods) != len(p.channels) || len(m.lists) != len(p.packings) || len(m.packs) != len(p.packs) {
		*m = plannedProduct{
			lists: make([][]plannedLine, len(p.packings)), has: make([]bool, len(p.packings)), packed: make([]packedSums, len(p.packings)),
			packs: make([]margin.OrderGoods, len(p.packs)), items: make([]margin.ItemGoods, len(p.channels)),
		}
		m.Goods = make([]rule.PlannedGoods, len(p.channels))
		for j := range m.Goods {
			m.Goods[j].Orders = make([]margin.OrderGoods, len(p.channels[j].packs))
		}
	}
	m.bill = m.bill[:0]
	for i := range m.lists {
		m.lists[i], m.has[i] = m.lists[i][:0], false
	}
}

// plannedAnswer is what an answer has for itself, since whoever gets it may change it.
type plannedAnswer struct {
	products [1]ProductResult
	cautions [4]string
}

// price prices a product and returns the answer about it; false where the general way has to.
func (p *plannedShop) price(m *plannedProduct) (Answer, bool) {
	p.goods(m)
	if !p.plan.Decide(&m.PlannedItem) {
		return Answer{}, false
	}
	a, own := p.answer, new(plannedAnswer)
	a.Products, a.Cautions = own.products[:], append(own.cautions[:0], a.Cautions...)
	if len(m.Dropped) > 0 {
		a.Dropped = m.Dropped
		a.Emptied = slices.Repeat([]string{m.ID}, len(m.Dropped))
	}
	sold := 0
	for j := range m.Goods {
		if m.Goods[j].Sold {
			sold++
		}
	}
	out := &a.Products[0]
	out.ID, out.Name = m.ID, m.name
	out.decided(p.places, m.Today, m.Price, m.Least, m.Greatest)
	out.Channels = make([]ChannelResult, sold)
	n := 0
	for j := range m.Goods {
		if m.Goods[j].Sold {
			c := &out.Channels[n]
			c.ID, c.Name = p.channels[j].id, p.channels[j].name
			c.Statement = p.sales[j].Statement(m.Price, m.items[j])
			n++
		}
	}
	return a, true
}
