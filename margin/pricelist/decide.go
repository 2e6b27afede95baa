package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// Decide turns a document into a decided price list: it is Check, then the
// costs of goods, the terms of every channel, what each rule allows, and the
// choice. The error is quoin.Problems; a conflict of rules is no error but an
// answer.
func Decide(doc Document) (Answer, error) {
	w, err := doc.checked(nil)
	if err != nil {
		return Answer{}, err
	}
	return decide(w)
}

// Price decodes a document and decides it.
func Price(data []byte) (Answer, error) {
	_, w, err := decode(data)
	if err != nil {
		return Answer{}, err
	}
	a, err := decide(w)
	if ps, ok := err.(quoin.Problems); ok {
		locate(data, ps)
	}
	return a, err
}

// decide decides a document that was checked. What can still go wrong is rules
// whose prices break into too many runs.
func decide(doc worked) (Answer, error) {
	items, err := doc.items()
	if err != nil {
		return Answer{}, problems(err)
	}
	d, err := rule.Decide(items, doc.Rules, doc.Choose)
	if err != nil {
		return Answer{}, problems(err)
	}
	a := doc.answer(items, d)
	if err := doc.sources(&a); err != nil {
		return Answer{}, problems(err)
	}
	if err := doc.spread(&a); err != nil {
		return Answer{}, problems(err)
	}
	return a, nil
}

// problems makes every error of this package the same type.
func problems(err error) error {
	if p, ok := err.(quoin.Problem); ok {
		return quoin.Problems{p}
	}
	return err
}

// items puts each product into each channel.
func (d Document) items() ([]rule.Item, error) {
	grid, err := d.Grid()
	if err != nil {
		return nil, err
	}
	m, err := d.maker()
	if err != nil {
		return nil, err
	}
	shelves := make([]rule.Shelf, len(d.Channels))
	for i, c := range d.Channels {
		m.terms = append(m.terms, c.Terms(d.Currency))
		shelves[i] = rule.NewShelf(m.terms[i], grid, d.asksWorst())
	}
	comparables := make(map[string][]rule.Comparable)
	for _, c := range d.Comparables {
		comparables[c.Product] = append(comparables[c.Product], c)
	}
	items := make([]rule.Item, len(d.Products))
	for i, p := range d.Products {
		items[i] = rule.Item{ID: p.ID, Grid: grid, Today: p.Price, Comparables: comparables[p.ID]}
		for j := range d.Channels {
			sale, err := m.sale(p, j)
			if err != nil {
				return nil, err
			}
			items[i].Offers = append(items[i].Offers, shelves[j].Offer(sale))
		}
	}
	return items, nil
}

func (d Document) asksWorst() bool {
	for _, r := range d.Rules {
		if rule.AsksWorst(r.Kind) {
			return true
		}
	}
	return false
}

// maker holds what the products of a document share.
type maker struct {
	doc      Document
	costs    map[string]cost.UnitCost
	terms    []channel.Terms
	overhead quoin.Amount
}

func (d Document) maker() (*maker, error) {
	costs, err := cost.UnitCosts(d.Supplies)
	if err != nil {
		return nil, err
	}
	overhead, err := d.Overhead.PerItem()
	if err != nil {
		return nil, err
	}
	return &maker{doc: d, costs: costs, overhead: overhead}, nil
}

// sale is a product in the channel with index j.
func (m *maker) sale(p Product, j int) (margin.Sale, error) {
	c := m.doc.Channels[j]
	goods, err := margin.Recipe{
		Costs: m.costs, Route: waste.Route(m.doc.Stages), Bill: p.Bill, Packing: p.Packing[c.Packing], Run: p.Run,
		Allowance: waste.Allowance{Contingency: m.doc.Contingency, Loss: c.Loss},
	}.Goods()
	if err != nil {
		return margin.Sale{}, err
	}
	sale := margin.NewSale(m.terms[j], goods)
	sale.Overhead, sale.IncomeTax = m.overhead, m.doc.IncomeTax
	sale.Selling, err = c.Period.PerItem()
	return sale, err
}
