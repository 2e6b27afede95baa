package pricelist

import (
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// Decide turns a document into a decided price list. It checks the document, computes the costs
// of goods and the terms of every channel, finds what each rule allows, and chooses the prices.
// The error is quoin.Problems. A conflict of rules is an answer, not an error. Later changes of
// the document do not change the answer.
func Decide(doc Document) (Answer, error) {
	w, err := form.Copy(doc).checked()
	if err != nil {
		return Answer{}, err
	}
	return decide(w)
}

// Price decodes a document from JSON and decides it. The error is quoin.Problems, with line and
// column.
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
func decide(w derivedDocument) (Answer, error) {
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
	err = w.spread(&a, m)
	a.Places = d.warningPlaces(a.Warnings)
	return a, problems(err)
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
func (d derivedDocument) open() (*sharedCosts, error) {
	return d.openLike(nil)
}

// openLike is open beside a document that was opened and has the same channels, if any.
func (d derivedDocument) openLike(like *sharedCosts) (*sharedCosts, error) {
	m, err := d.maker()
	if err != nil {
		return nil, err
	}
	if like != nil {
		m.grid, m.terms, m.kinds, m.compiled, m.comparables = like.grid, like.terms, like.kinds, like.compiled, like.comparables
		m.discounts = like.discounts
		return m, nil
	}
	if m.grid, err = d.Grid(); err != nil {
		return nil, err
	}
	m.terms = make([]channel.Terms, len(d.Channels))
	m.kinds = make([][]channel.Terms, len(d.Channels))
	m.compiled = make([]*rule.CompiledChannel, len(d.Channels))
	for j, c := range d.Channels {
		m.terms[j] = c.Terms(d.Currency)
		if !c.ByProduct() {
			m.compiled[j] = rule.CompileChannel(m.terms[j], m.grid)
		}
	}
	m.comparables = byProduct(d.Comparables)
	return m, nil
}

// of is what the products of a lot share: what they share in the shop, and the comparables of
// the lot.
func (m sharedCosts) of(doc Document, seen []comparables.Record) *sharedCosts {
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
func (m *sharedCosts) decide(w derivedDocument, end rule.RangeEnd) (*decidedList, error) {
	items, err := m.items(end)
	if err != nil {
		return nil, err
	}
	dec, err := rule.CheckedItems{Items: items, Rules: w.Rules}.Decide(w.Choose)
	return &decidedList{derivedDocument: w, sharedCosts: m, items: items, dec: dec}, err
}

// items are the products as rules see them, at an end of their ranges.
func (m *sharedCosts) items(end rule.RangeEnd) ([]rule.Item, error) {
	d := &m.doc
	items := make([]rule.Item, len(d.Products))
	for i := range d.Products {
		p := &d.Products[i]
		items[i] = rule.Item{ID: p.ID, Design: p.Design, Grid: m.grid, Today: p.Price, Size: p.paper(), Comparables: m.comparables[p.ID], End: end}
		places := m.soldIn(p)
		items[i].Offers = make([]rule.Offer, 0, len(places))
		for _, j := range places {
			sale, err := m.sale(p, j)
			if err != nil {
				return nil, err
			}
			shelf := m.compiled[j]
			if d.Channels[j].ByProduct() {
				shelf = rule.CompileChannel(sale.Terms, m.grid)
			}
			items[i].Offers = append(items[i].Offers, shelf.Offer(sale))
		}
	}
	return items, nil
}

// paper is the size of a print without mat and frame: its sheet, or else its image.
func (p *Product) paper() quoin.Size {
	if p.Sheet.IsZero() {
		return p.Image
	}
	return p.Sheet
}

// Items checks and computes the document and returns its products as rules see them. Each has
// an offer in each channel that sells it: the sale, its curve on the grid, and each kind of order by itself.
// From there one gets the statement at any price (Sale.At), points to draw (Sale.Points), the
// verdicts of each rule on any price (Rule.Judge, for the document's Rules), and dead zones
// (rule.DeadZones).
//
// End says whether they have the given values or those at one end of all ranges; the items keep
// it. The error is quoin.Problems, as from Check.
func (d Document) Items(end rule.RangeEnd) ([]rule.Item, error) {
	if _, err := form.Word(string(end), rule.Likely, rule.Cheapest, rule.Dearest); err != nil {
		return nil, problems(err)
	}
	w, err := form.Copy(d).checked()
	if err != nil {
		return nil, err
	}
	switch {
	case end == rule.Cheapest && w.cheap != nil:
		w = *w.cheap
	case end == rule.Dearest && w.dear != nil:
		w = *w.dear
	}
	m, err := w.open()
	if err != nil {
		return nil, problems(err)
	}
	items, err := m.items(end)
	return items, problems(err)
}

// Sale returns a product in a channel, by their ids: everything that a statement needs except
// the price. Items has all of them. The error is quoin.Problems: what Check finds, that there is
// no such product or channel, or that the channel does not sell the product.
func (d Document) Sale(product, channel string) (margin.Sale, error) {
	items, err := d.Items(rule.Likely)
	if err != nil {
		return margin.Sale{}, err
	}
	names := make([]string, len(items))
	for i, it := range items {
		if names[i] = it.ID; it.ID != product {
			continue
		}
		if o, ok := it.Offer(channel); ok {
			return o.Sale, nil
		}
		if j := d.channelIndex(channel); j >= 0 {
			return margin.Sale{}, quoin.Problems{notSold(d.Products[i], channel)}
		}
		return margin.Sale{}, notFound(channel, "the id of an entry in channels", d.channelIDs())
	}
	return margin.Sale{}, notFound(product, "the id of an entry in products", names)
}

func (d Document) channelIDs() []string {
	out := make([]string, len(d.Channels))
	for j, c := range d.Channels {
		out[j] = c.ID
	}
	return out
}

func notFound(id, wanted string, names []string) error {
	return quoin.Problems{{Code: quoin.UnknownID, Severity: quoin.Fault, Found: prose.Quoted(id), Wanted: wanted, Near: prose.Near(id, names)}}
}

// Items checks and computes a lot in the shop, as Document.Items does, with the given values.
// The error is quoin.Problems, about the lot alone.
func (s *Shop) Items(lot Lot) ([]rule.Item, error) {
	if err := s.unopened(); err != nil {
		return nil, err
	}
	lot = form.Copy(lot) // which items are made of
	var c form.Collector
	c.Walk(nil, reflect.ValueOf(&lot).Elem())
	w, err := s.check(lot, &c, true)
	if err != nil {
		return nil, lot.located(err)
	}
	items, err := s.of(w.Document, lot.Comparables).items(rule.Likely)
	return items, problems(err)
}
