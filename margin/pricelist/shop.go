package pricelist

import (
	"bytes"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// Shop is a document without its products, checked, worked out and compiled once:
// what it takes to decide products lot by lot, however many. Its zero value has no
// use; Open makes one. It is safe for concurrent use.
type Shop struct {
	doc      worked // its rules stand before those of a lot
	maker    maker  // without what it remembers of products
	grid     quoin.Grid
	shelves  []rule.Shelf // of each channel, none for those that go by product
	ids      map[string]ids
	supplies map[string]cost.Supply
	known    map[string][]comparables.Record // by product
	each     int64                           // the length of what there is to say of a product
	desks    sync.Pool                       // of *desk, each with what it remembers
	warnings quoin.Problems
}

// Lot is products that are decided together, with what is theirs alone. An edition
// of one print in four sizes, with the step between them, is a lot.
type Lot struct {
	// Key is any text to know the lot by. It comes back with the answer, and a batch names
	// the lot by it in paths: lots["A-17"]. That no other lot has it is not checked.
	Key string `json:"key,omitempty"`

	Products    []Product            `json:"products" need:"yes"`
	Comparables []comparables.Record `json:"comparables,omitempty"`
	// Rules come after those of the shop.
	Rules []rule.Rule `json:"rules,omitempty"`

	text []byte // that it was decoded from
}

// Equal reports whether both lots say the same, written as JSON.
func (l Lot) Equal(m Lot) bool {
	x, err := json.Marshal(l)
	y, err2 := json.Marshal(m)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

// located has problems with a lot stand where they do in the text that it was decoded from,
// as long as it still says what the text does, whatever it was called since.
func (l Lot) located(err error) error {
	if err == nil || len(l.text) == 0 {
		return err
	}
	m, fault := DecodeLot(l.text)
	if m.Key = l.Key; fault != nil || !l.Equal(m) {
		return err
	}
	return located(l.text, err)
}

// Open makes a shop of a document; products in it are passed over, so that a shop
// may come with none. The error is quoin.Problems, of what Check would find and of
// what speaks of several products, which may stand in different lots. What is changed in
// the document afterwards changes nothing in the shop.
func Open(doc Document) (*Shop, error) {
	doc.Products = nil // which are not to be checked
	doc = form.Copy(doc)
	c := openCollector()
	c.Walk(nil, reflect.ValueOf(&doc).Elem())
	return open(doc, c)
}

// openCollector is that of a shop, which may leave out its products.
func openCollector() *collector { return &collector{Collector: form.Collector{Spare: "products"}} }

// DecodeShop reads a shop from JSON: a document whose products may be left out. The
// error is quoin.Problems, with the line and column of each.
func DecodeShop(data []byte) (*Shop, error) {
	c := openCollector()
	var doc Document
	if !c.Read(data, &doc) {
		return nil, located(data, c.All())
	}
	s, err := open(doc, c)
	return s, located(data, err)
}

// DecodeLot reads a lot from JSON. The error is quoin.Problems, of what the lot is by
// itself; what it is in a shop is checked when it is decided. The lot keeps a copy of the
// text, so that problems that are found then have a line and a column too; a lot that was
// changed in between has none.
func DecodeLot(data []byte) (Lot, error) {
	var c form.Collector
	var lot Lot
	c.Read(data, &lot)
	if err := c.All().Err(); err != nil {
		return Lot{}, located(data, err)
	}
	lot.text = bytes.Clone(data)
	return lot, nil
}

func open(doc Document, c *collector) (*Shop, error) {
	doc.Products = nil
	k := checker{collector: c, doc: worked{Document: doc}, supplies: make(map[string]cost.Supply), ids: make(map[string]ids), open: true}
	k.document()
	k.severalProducts()
	if err := c.All().Err(); err != nil {
		return nil, err
	}
	s := &Shop{doc: k.doc, ids: k.ids, supplies: k.supplies, known: byProduct(k.doc.Comparables), each: productLength(k.doc.Document, 0)}
	m, err := s.doc.maker()
	if err != nil {
		return nil, problems(err)
	}
	if s.grid, err = s.doc.Grid(); err != nil {
		return nil, problems(err)
	}
	m.allTerms()
	for j, terms := range m.terms {
		m.kinds[j] = terms.Worst()
	}
	s.maker, s.shelves = *m, m.shelves(s.grid)
	s.warnings = (&decided{worked: s.doc, maker: m}).shopWarnings()
	return s, nil
}

// severalProducts refuses what speaks of products that may stand in several lots.
func (k checker) severalProducts() {
	refuse := func(at *path, what string) {
		k.Add(at, quoin.Problem{
			Code: SeveralProducts, Found: what + ", while products come in lots", Wanted: "nothing that speaks of several products",
			Remedy: "put a ladder of sizes into the lot of its products, and decide a whole document for sets, fairs and editions",
		})
	}
	root := (*path)(nil)
	for i, r := range k.doc.Rules {
		if _, step := r.Kind.(rule.Step); step && len(r.Products) > 0 {
			refuse(root.Field("rules").At(i), "a ladder of sizes")
		}
	}
	for _, list := range []struct {
		name string
		n    int
	}{{"sets", len(k.doc.Sets)}, {"fairs", len(k.doc.Fairs)}, {"editions", len(k.doc.Editions)}} {
		if list.n > 0 {
			refuse(root.Field(list.name), list.name)
		}
	}
}

// Warnings returns what deserves a look in the shop, whatever its products are.
// Those of answers are about products.
func (s *Shop) Warnings() quoin.Problems {
	if s == nil {
		return nil
	}
	return slices.Clone(s.warnings)
}

// unopened is the problem that a shop is not one of Open; nil of one that is.
func (s *Shop) unopened() error {
	if s == nil || s.maker.course == nil {
		return absent("a shop that was not opened", "a shop of Open or DecodeShop")
	}
	return nil
}

// Decide decides the products of a lot: each as Decide of the package does in a
// document that has the shop's fields and this lot. What stands in a document for
// all products together is left out: sets, fairs, editions, line sheets, machines,
// what ranges come to; and preferences are kept or dropped lot by lot. Paths are
// those of that document. The answer holds as much as detail says. The error is
// quoin.Problems, of the lot alone, with line and column where it comes from DecodeLot.
func (s *Shop) Decide(lot Lot, detail Detail) (Answer, error) {
	if err := s.unopened(); err != nil {
		return Answer{}, err
	}
	if detail != Brief && detail != Figures {
		lot = form.Copy(lot) // reasons are computed of it later
	}
	d := s.desk()
	c := d.collector()
	c.Walk(nil, reflect.ValueOf(&lot).Elem())
	a, err := d.decide(lot, c, detail)
	s.desks.Put(d)
	return a, lot.located(err)
}

// desk is where lots are decided one after the other: it remembers layouts and chances.
type desk struct {
	*Shop
	layouts *layouts
	chances chances
}

func (s *Shop) desk() *desk {
	if d, ok := s.desks.Get().(*desk); ok {
		return d
	}
	return &desk{s, newLayouts(), make(chances)}
}

// collector begins with what the desk remembers, which does not pile up.
func (d *desk) collector() *collector {
	d.layouts.next()
	if len(d.chances) > mostLayouts {
		clear(d.chances)
	}
	return &collector{layouts: d.layouts, chances: d.chances}
}

// decide decides a lot whose values were checked.
func (d *desk) decide(lot Lot, c *collector, detail Detail) (Answer, error) {
	w, m := d.check(lot, c)
	if err := c.All().Err(); err != nil {
		return Answer{}, err
	}
	items, err := m.items(d.grid, d.shelves, d.comparables(lot))
	if err != nil {
		return Answer{}, problems(err)
	}
	dec, err := rule.Checked{Items: items, Rules: w.Rules}.Decide(w.Choose)
	if err != nil {
		return Answer{}, problems(err)
	}
	all := &decided{worked: w, maker: m, items: items, dec: dec}
	a, err := all.detailed(detail, len(d.doc.Rules))
	if err != nil {
		return Answer{}, problems(err)
	}
	a.Key = lot.Key
	return a, nil
}

// check checks a lot as a part of its shop, and works it out.
func (d *desk) check(lot Lot, c *collector) (worked, *maker) {
	doc := d.doc.Document
	doc.Products, doc.Comparables = lot.Products, lot.Comparables
	if len(lot.Rules) > 0 {
		doc.Rules = slices.Concat(doc.Rules, lot.Rules)
	}
	k := checker{collector: c, doc: worked{Document: doc}, supplies: d.supplies, ids: make(map[string]ids, 2), shop: d.ids}
	k.learn("products", len(doc.Products), func(i int) string { return doc.Products[i].ID })
	if len(lot.Rules) > 0 {
		k.learn("rules", len(doc.Rules), func(i int) string { return doc.Rules[i].ID })
	}
	k.some("products", len(doc.Products))
	k.Ranges(form.Unsures(nil, reflect.ValueOf(lot)))
	given, origins := doc.logged(c)
	k.doc = d.work(given, c)
	if len(origins) > 0 {
		k.doc.origins = maps.Clone(k.doc.origins)
		maps.Copy(k.doc.origins, origins)
	}
	m := d.maker
	m.doc, m.makings, m.known = k.doc.Document, make(map[string]margin.Making, len(doc.Products)), make(map[place]sold)
	k.made(given)
	for j, c := range doc.Channels {
		if c.OnDemand != nil {
			k.entered((*path)(nil).Field("channels").At(j).Field("on_demand"), c.OnDemand)
		}
	}
	if slices.ContainsFunc(doc.Channels, func(c channel.Channel) bool { return c.Tariff != "" }) && len(c.Problems) == 0 {
		k.shippable(&m)
	}
	k.comparables(lot.Comparables)
	k.rules(len(d.doc.Rules))
	if len(k.Problems) == 0 {
		k.answerable(d.each)
	}
	return k.doc, &m
}

// work works out the products of a lot, with what the shop's supplies came to.
func (d *desk) work(doc Document, c *collector) worked {
	w := &worker{
		worked: worked{Document: doc, given: doc, origins: d.doc.origins, supplyAt: d.doc.supplyAt}, collector: c,
		supply: d.maker.places, shared: true,
	}
	w.products()
	return w.worked
}

// comparables are those of a lot and, of its products, those of the shop.
func (d *desk) comparables(lot Lot) map[string][]comparables.Record {
	if len(lot.Comparables) == 0 {
		return d.known
	}
	out := make(map[string][]comparables.Record, len(lot.Products))
	for _, p := range lot.Products {
		out[p.ID] = slices.Clone(d.known[p.ID])
	}
	for _, c := range lot.Comparables {
		out[c.Product] = append(out[c.Product], c)
	}
	return out
}
