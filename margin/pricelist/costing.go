package pricelist

import (
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// sharedCosts holds what the products of a document share.
type sharedCosts struct {
	doc         Document
	grid        quoin.Grid
	costs       map[string]cost.UnitCost
	supplies    map[string]*cost.Supply
	uses        func() map[string]use           // of the supplies, by id
	terms       []channel.Terms                 // of each channel, for all products
	all         []int                           // the places of all channels
	kinds       [][]channel.Terms               // of each of their kinds by itself, where they were asked for
	compiled    []*rule.CompiledChannel         // of each channel, none for those that go by product
	discounts   *discounts                      // of channels, as they were asked for
	comparables map[string][]comparables.Record // by product
	places      map[string]int                  // of the supplies, by id
	overhead    quoin.Amount
	course      *waste.CompiledRoute     // of the stages
	makings     map[string]margin.Making // of the products so far, by id
	known       map[place]sold           // channels for products so far
	posts       posts
	plan        *plannedShop // of a shop, where it has one
}

// place is a product in a channel.
type place struct {
	product string
	channel int
}

// worst is a sale in channel j by each kind of order.
func (m *sharedCosts) worst(j int, s margin.Sale) []margin.Sale {
	if m.doc.Channels[j].ByProduct() {
		return s.Worst()
	}
	if m.kinds[j] == nil {
		m.kinds[j] = s.Terms.Worst()
	}
	return s.WorstBy(m.kinds[j])
}

func (d Document) maker() (*sharedCosts, error) {
	costs, supplies := make(map[string]cost.UnitCost, len(d.Supplies)), make(map[string]*cost.Supply, len(d.Supplies))
	for i := range d.Supplies { // whose ids were checked, and which were worked out
		s := &d.Supplies[i]
		u, err := s.UnitCost()
		if err != nil {
			return nil, quoin.InList("supplies", i).Locate(err)
		}
		costs[s.ID], supplies[s.ID] = u, s
	}
	overhead, err := d.Overhead.PerItem()
	if err != nil {
		return nil, err
	}
	return &sharedCosts{
		doc: d, course: waste.Route(d.Stages).Compile(), costs: costs, supplies: supplies, uses: sync.OnceValue(d.uses), places: d.supplyIndex(), overhead: overhead,
		makings: make(map[string]margin.Making), known: make(map[place]sold), all: d.soldIn(&Product{}), discounts: new(discounts),
	}, nil
}

// maker is that of the document, with tariffs that are measured once for all that is
// worked out of it.
func (d derivedDocument) maker() (*sharedCosts, error) {
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
func (m *sharedCosts) sale(p *Product, j int) (margin.Sale, error) {
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
		how := margin.PackingList{Bill: p.Packing[c.Packing]}
		if len(c.packed) > 0 {
			how = c.packed[k]
		}
		if goods[k], err = m.goods(p, &c.Channel, how); err != nil {
			return margin.Sale{}, err
		}
	}
	sale := margin.NewPackedSale(terms, func(kind int) margin.Goods {
		_, order := terms.Order(kind)
		return goods[min(max(order, 0), len(goods)-1)]
	})
	sale.Overhead, sale.IncomeTax = m.overhead, m.doc.IncomeTax
	sale.FixedCost, err = c.FixedCost.PerItem()
	return sale, err
}

// sold is a channel as it is for one product: with what a house asks for printing
// it and, by a tariff, the postage of its orders and how each is packed and sent.
type sold struct {
	channel.Channel
	packed    []margin.PackingList
	sender    sender
	shipments []parcel.Shipment
}

// sold is the channel with index j for a product, worked out once.
func (m *sharedCosts) sold(p *Product, j int) (sold, error) {
	c := sold{Channel: m.doc.Channels[j]}
	if !c.ByProduct() {
		return c, nil
	}
	if known, ok := m.known[place{p.ID, j}]; ok {
		return known, nil
	}
	c.Channel = c.TaxedAs(p.TaxClass).For(p.ID)
	if c.Tariff != "" {
		if err := m.send(p, &c); err != nil {
			return c, err
		}
	}
	m.known[place{p.ID, j}] = c
	return c, nil
}

// goods is what making a product for a channel takes, packed in one way.
func (m *sharedCosts) goods(p *Product, c *channel.Channel, packed margin.PackingList) (margin.Goods, error) {
	if base, printed := c.Prints(); printed {
		return margin.GoodsOnDemand(base), nil
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

func (d Document) supplyIndex() map[string]int {
	index := make(map[string]int, len(d.Supplies))
	for i, s := range d.Supplies {
		index[s.ID] = i
	}
	return index
}

// statementInputs is product i in channel j, as it is for the product, with where they
// stand.
func (d derivedDocument) statementInputs(supplies map[string]int, i, j int, m *sharedCosts, c sold) margin.StatementInputs {
	p := d.Products[i]
	l := margin.StatementInputs{
		Currency: d.Currency, Supplies: d.Supplies, Supply: supplies, Stages: waste.Route(d.Stages), Contingency: d.Contingency,
		Bill: p.Bill, Packing: p.Packing[c.Packing], PackingName: c.Packing, Run: p.Run,
		Channel: c.Channel, Packed: c.packed, Overhead: d.Overhead, IncomeTax: d.IncomeTax,
		ProductAt: quoin.InList("products", i), ChannelAt: quoin.InList("channels", j),
		BillAt: d.billAt[i], RunAt: d.runAt[i], SupplyAt: d.supplyAt, Origins: d.origins,
	}
	if len(c.shipments) > 0 {
		l.Origins = d.sending(i, j, m, c)
	}
	return l
}
