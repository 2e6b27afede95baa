package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// Decide turns a document into a decided price list: it is Check, then the
// costs of goods, the terms of every channel, what each rule allows, and the
// choice. The error is quoin.Problems; a conflict of rules is no error but an
// answer. What is changed in the document afterwards changes nothing in it.
func Decide(doc Document) (Answer, error) {
	w, err := form.Copy(doc).checked()
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
	return a, located(data, err)
}

// decide decides a document that was checked: its products as those of a lot, and then what
// speaks of several together. What can still go wrong is rules whose prices break into too
// many runs.
func decide(w worked) (Answer, error) {
	m, err := w.open()
	if err != nil {
		return Answer{}, problems(err)
	}
	d, err := m.decide(w, rule.Likely)
	if err != nil {
		return Answer{}, problems(err)
	}
	a, err := d.answer()
	if err != nil {
		return Answer{}, problems(err)
	}
	return a, problems(w.spread(&a, m))
}

// problems makes every error of this package the same type.
func problems(err error) error {
	if p, ok := err.(quoin.Problem); ok {
		return quoin.Problems{p}
	}
	return err
}

// open compiles what the products of a document share: what supplies cost, the terms of
// every channel, the prices that are considered.
func (d worked) open() (*maker, error) {
	m, err := d.maker()
	if err != nil {
		return nil, err
	}
	if m.grid, err = d.Grid(); err != nil {
		return nil, err
	}
	m.terms = make([]channel.Terms, len(d.Channels))
	m.kinds = make([][]channel.Terms, len(d.Channels))
	m.shelves = make([]rule.Shelf, len(d.Channels))
	for j, c := range d.Channels {
		m.terms[j] = c.Terms(d.Currency)
		if !c.ByProduct() {
			m.shelves[j] = rule.NewShelf(m.terms[j], m.grid)
		}
	}
	m.comparables = byProduct(d.Comparables)
	return m, nil
}

// of is what the products of a lot share: what they share in the shop, and the comparables of
// the lot.
func (m maker) of(doc Document, seen []comparables.Record) *maker {
	m.doc, m.makings, m.known = doc, make(map[string]margin.Making, len(doc.Products)), make(map[place]sold)
	if len(seen) > 0 {
		own := make(map[string][]comparables.Record, len(doc.Products))
		for _, p := range doc.Products {
			own[p.ID] = slices.Clone(m.comparables[p.ID])
		}
		for _, c := range seen {
			own[c.Product] = append(own[c.Product], c)
		}
		m.comparables = own
	}
	return &m
}

func byProduct(all []comparables.Record) map[string][]comparables.Record {
	out := make(map[string][]comparables.Record)
	for _, c := range all {
		out[c.Product] = append(out[c.Product], c)
	}
	return out
}

// decide decides products that were checked and worked out, at an end of their ranges.
func (m *maker) decide(w worked, end rule.End) (*decided, error) {
	items, err := m.items(end)
	if err != nil {
		return nil, err
	}
	dec, err := rule.Checked{Items: items, Rules: w.Rules}.Decide(w.Choose)
	return &decided{worked: w, maker: m, items: items, dec: dec}, err
}

// items are the products as rules see them, at an end of their ranges.
func (m *maker) items(end rule.End) ([]rule.Item, error) {
	d := m.doc
	items := make([]rule.Item, len(d.Products))
	for i, p := range d.Products {
		items[i] = rule.Item{ID: p.ID, Design: p.Design, Grid: m.grid, Today: p.Price, Size: p.paper(), Comparables: m.comparables[p.ID], End: end}
		for j := range d.Channels {
			sale, err := m.sale(p, j)
			if err != nil {
				return nil, err
			}
			shelf := m.shelves[j]
			if d.Channels[j].ByProduct() {
				shelf = rule.NewShelf(sale.Terms, m.grid)
			}
			items[i].Offers = append(items[i].Offers, shelf.Offer(sale))
		}
	}
	return items, nil
}

// paper is the size of a print without mat and frame: its sheet, or else its image.
func (p Product) paper() quoin.Size {
	if p.Sheet.IsZero() {
		return p.Image
	}
	return p.Sheet
}

// maker holds what the products of a document share.
type maker struct {
	doc         Document
	grid        quoin.Grid
	costs       map[string]cost.UnitCost
	supplies    map[string]cost.Supply
	terms       []channel.Terms                 // of each channel, for all products
	kinds       [][]channel.Terms               // of each of their kinds by itself, where they were asked for
	shelves     []rule.Shelf                    // of each channel, none for those that go by product
	comparables map[string][]comparables.Record // by product
	places      map[string]int                  // of the supplies, by id
	overhead    quoin.Amount
	course      *waste.Course            // of the stages
	makings     map[string]margin.Making // of the products so far, by id
	known       map[place]sold           // channels for products so far
	posts       posts
}

// place is a product in a channel.
type place struct {
	product string
	channel int
}

// worst is a sale in channel j by each kind of order.
func (m *maker) worst(j int, s margin.Sale) []margin.Sale {
	if m.doc.Channels[j].ByProduct() {
		return s.Worst()
	}
	if m.kinds[j] == nil {
		m.kinds[j] = s.Terms.Worst()
	}
	return s.WorstBy(m.kinds[j])
}

func (d Document) maker() (*maker, error) {
	costs := make(map[string]cost.UnitCost, len(d.Supplies))
	for i, s := range d.Supplies { // whose ids were checked, and which were worked out
		u, err := s.UnitCost()
		if err != nil {
			return nil, quoin.InList("supplies", i).Locate(err)
		}
		costs[s.ID] = u
	}
	overhead, err := d.Overhead.PerItem()
	if err != nil {
		return nil, err
	}
	m := &maker{doc: d, course: waste.Route(d.Stages).Course(), costs: costs, overhead: overhead, places: d.supplyIndex(), supplies: make(map[string]cost.Supply, len(d.Supplies)), makings: make(map[string]margin.Making), known: make(map[place]sold)}
	for _, s := range d.Supplies {
		m.supplies[s.ID] = s
	}
	return m, nil
}

// maker is that of the document, with tariffs that are measured once for all that is
// worked out of it.
func (d worked) maker() (*maker, error) {
	m, err := d.Document.maker()
	if err != nil {
		return nil, err
	}
	if d.memory == nil {
		m.posts = d.Document.posts()
		return m, nil
	}
	if len(d.memory.posts) == 0 {
		d.memory.posts = d.Document.posts()
	}
	m.posts = d.memory.posts
	return m, nil
}

// sale is a product in the channel with index j.
func (m *maker) sale(p Product, j int) (margin.Sale, error) {
	c, err := m.sold(p, j)
	if err != nil {
		return margin.Sale{}, err
	}
	terms := m.terms[j]
	if c.ByProduct() {
		terms = c.Terms(m.doc.Currency)
	}
	goods := make([]margin.Goods, max(len(c.packed), 1))
	for k := range goods {
		how := margin.Packed{Bill: p.Packing[c.Packing]}
		if len(c.packed) > 0 {
			how = c.packed[k]
		}
		if goods[k], err = m.goods(p, c.Channel, how); err != nil {
			return margin.Sale{}, err
		}
	}
	sale := margin.NewPackedSale(terms, func(kind int) margin.Goods {
		_, order := terms.Order(kind)
		return goods[min(max(order, 0), len(goods)-1)]
	})
	sale.Overhead, sale.IncomeTax = m.overhead, m.doc.IncomeTax
	sale.Selling, err = c.Period.PerItem()
	return sale, err
}

// sold is a channel as it is for one product: with what a house asks for printing
// it and, by a tariff, the postage of its orders and how each is packed and sent.
type sold struct {
	channel.Channel
	packed    []margin.Packed
	sender    sender
	shipments []parcel.Shipment
}

// sold is the channel with index j for a product, worked out once.
func (m *maker) sold(p Product, j int) (sold, error) {
	c := sold{Channel: m.doc.Channels[j]}
	if !c.ByProduct() {
		return c, nil
	}
	if known, ok := m.known[place{p.ID, j}]; ok {
		return known, nil
	}
	c.Channel = c.For(p.ID)
	if c.Tariff != "" {
		if err := m.send(p, &c); err != nil {
			return c, err
		}
	}
	m.known[place{p.ID, j}] = c
	return c, nil
}

// goods is what making a product for a channel takes, packed in one way.
func (m *maker) goods(p Product, c channel.Channel, packed margin.Packed) (margin.Goods, error) {
	if base, printed := c.Prints(); printed {
		return margin.Printed(base), nil
	}
	making, known := m.makings[p.ID]
	if !known {
		var err error
		if making, err = (margin.Recipe{Costs: m.costs, Course: m.course, Bill: p.Bill, Run: p.Run}).Making(); err != nil {
			return margin.Goods{}, err
		}
		m.makings[p.ID] = making
	}
	return making.Pack(packed, waste.Allowance{Contingency: m.doc.Contingency, Loss: c.Lost()}, c.Back())
}
