package pricelist

import (
	"maps"

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

// decide decides a document that was checked. What can still go wrong is rules
// whose prices break into too many runs.
func decide(doc worked) (Answer, error) {
	m, err := doc.maker()
	if err != nil {
		return Answer{}, problems(err)
	}
	items, err := m.allItems()
	if err != nil {
		return Answer{}, problems(err)
	}
	d, err := rule.Checked{Items: items, Rules: doc.Rules}.Decide(doc.Choose)
	if err != nil {
		return Answer{}, problems(err)
	}
	all := &decided{worked: doc, maker: m, items: items, dec: d}
	a, err := all.answer()
	if err != nil {
		return Answer{}, problems(err)
	}
	if err := doc.spread(&a, m); err != nil {
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

// allItems compiles the terms of the channels and puts the products into them.
func (m *maker) allItems() ([]rule.Item, error) {
	grid, err := m.doc.Grid()
	if err != nil {
		return nil, err
	}
	m.allTerms()
	return m.items(grid, m.shelves(grid), byProduct(m.doc.Comparables))
}

func byProduct(all []comparables.Record) map[string][]comparables.Record {
	out := make(map[string][]comparables.Record)
	for _, c := range all {
		out[c.Product] = append(out[c.Product], c)
	}
	return out
}

// shelves are those of the channels, none where terms go by product.
func (m *maker) shelves(grid quoin.Grid) []rule.Shelf {
	out := make([]rule.Shelf, len(m.terms))
	for j, terms := range m.terms {
		if !m.doc.Channels[j].ByProduct() {
			out[j] = rule.NewShelf(terms, grid)
		}
	}
	return out
}

func (m *maker) items(grid quoin.Grid, shelves []rule.Shelf, known map[string][]comparables.Record) ([]rule.Item, error) {
	d := m.doc
	items := make([]rule.Item, len(d.Products))
	for i, p := range d.Products {
		items[i] = rule.Item{ID: p.ID, Design: p.Design, Grid: grid, Today: p.Price, Size: p.paper(), Comparables: known[p.ID]}
		for j := range d.Channels {
			sale, err := m.sale(p, j)
			if err != nil {
				return nil, err
			}
			shelf := shelves[j]
			if d.Channels[j].ByProduct() {
				shelf = rule.NewShelf(sale.Terms, grid)
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
	doc      Document
	costs    map[string]cost.UnitCost
	supplies map[string]cost.Supply
	terms    []channel.Terms   // of each channel, for all products
	kinds    [][]channel.Terms // of each of their kinds by itself, where they were asked for
	places   map[string]int    // of the supplies, by id
	overhead quoin.Amount
	course   *waste.Course            // of the stages
	makings  map[string]margin.Making // of the products so far, by id
	known    map[place]sold           // channels for products so far
	posts    posts
}

// place is a product in a channel.
type place struct {
	product string
	channel int
}

// allTerms compiles the terms of the channels.
func (m *maker) allTerms() {
	m.terms = make([]channel.Terms, len(m.doc.Channels))
	for j, c := range m.doc.Channels {
		m.terms[j] = c.Terms(m.doc.Currency)
	}
	m.kinds = make([][]channel.Terms, len(m.terms))
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
	if m.posts = d.posts; len(m.posts) > 0 {
		return m, nil
	}
	if m.posts == nil {
		m.posts = make(posts)
	}
	maps.Copy(m.posts, d.Document.posts())
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
