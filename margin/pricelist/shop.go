package pricelist

import (
	"bytes"
	"reflect"
	"slices"
	"sync"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// Shop is a document without its products, checked and compiled once. It decides any number of
// products, lot by lot. The zero value cannot be used; Open makes a Shop. It is safe for
// concurrent use.
type Shop struct {
	*sharedCosts                 // without what it remembers of products
	doc          derivedDocument // its rules stand before those of a lot
	ids          map[string]ids
	each         lengths   // of what there is to say of a product
	memories     sync.Pool // of *memory: of layouts and chances, for one lot after the other
	warnings     quoin.Problems
}

// Lot is products that are decided together, with what belongs to them alone. One print in four
// sizes, with a rule between the sizes, is a lot.
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

// Equal reports whether both lots have the same JSON.
func (l Lot) Equal(m Lot) bool { return sameJSON(l, m) }

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

// Open makes a shop from a document. Products in it are ignored, so it may have none. The error
// is quoin.Problems: what Check would find, and anything that concerns several products,
// because these may be in different lots. Later changes of the document do not change the shop.
func Open(doc Document) (*Shop, error) {
	doc.Products = nil // which are not to be checked
	doc = form.Copy(doc)
	c := openCollector()
	c.Walk(nil, reflect.ValueOf(&doc).Elem())
	return open(doc, c)
}

// openCollector is that of a shop, which may leave out its products.
func openCollector() *form.Collector { return &form.Collector{Spare: "products"} }

// DecodeShop reads a shop from JSON: a document that may omit products. The error is
// quoin.Problems, with the line and column of each.
func DecodeShop(data []byte) (*Shop, error) {
	c := openCollector()
	var doc Document
	if !c.Read(data, &doc) {
		return nil, located(data, c.All())
	}
	s, err := open(doc, c)
	return s, located(data, err)
}

// DecodeLot reads a lot from JSON. The error is quoin.Problems about the lot by itself. Its
// place in a shop is checked when it is decided. The lot keeps a copy of the text, so that
// these later problems have a line and a column too. A lot that was changed in between has
// none.
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

func open(doc Document, c *form.Collector) (*Shop, error) {
	doc.Products = nil
	k := newChecker(doc, c, newMemory())
	k.open = true
	k.check()
	if err := c.All().Err(); err != nil {
		return nil, err
	}
	m, err := k.doc.open()
	if err != nil {
		return nil, problems(err)
	}
	for j, terms := range m.terms {
		m.kinds[j] = terms.Worst()
	}
	s := &Shop{sharedCosts: m, doc: k.doc, ids: k.ids, each: lengthsOf(k.doc.Document, 0)}
	if s.each.product+s.each.all < anyLength/2 && len(s.doc.Rules)*len(s.doc.Channels) < mostAsked/2 {
		m.plan = m.planned(s.doc)
	}
	s.warnings = (&decidedList{derivedDocument: s.doc, sharedCosts: m}).shopWarnings()
	return s, nil
}

// severalProducts refuses what speaks of products that may stand in several lots.
func (k *checker) severalProducts() {
	refuse := func(at *path, what string) {
		k.Add(at, quoin.Problem{
			Code: SeveralProducts, Found: what + ", while products come in lots", Wanted: "nothing that speaks of several products",
			Remedy: "put a ladder of sizes into the lot of its products, and decide a whole document for sets, fairs and editions",
		})
	}
	root := (*path)(nil)
	for i, r := range k.doc.Rules {
		if _, step := r.Kind.(rule.SizeRatio); step && len(r.Products) > 0 {
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

// Warnings returns the warnings about the shop itself. Those of answers are about products.
func (s *Shop) Warnings() quoin.Problems {
	if s == nil {
		return nil
	}
	return slices.Clone(s.warnings)
}

// unopened is the problem that a shop is not one of Open; nil of one that is.
func (s *Shop) unopened() error {
	if s == nil || s.sharedCosts == nil {
		return absent("a shop that was not opened", "a shop of Open or DecodeShop")
	}
	return nil
}

// Decide decides the products of a lot, as the function Decide does in a document with the
// fields of the shop and the lot. What a document says about all products together is left out:
// sets, fairs, editions, line sheets, machines and ranges. Preferences are kept or dropped lot
// by lot. Paths are those of that document. Detail says how much the answer holds. The error is
// quoin.Problems about the lot alone, with line and column if it comes from DecodeLot.
func (s *Shop) Decide(lot Lot, detail Detail) (Answer, error) {
	if err := s.unopened(); err != nil {
		return Answer{}, err
	}
	if detail != Brief && detail != Figures {
		lot = form.Copy(lot) // reasons are computed of it later
	}
	var c form.Collector
	c.Walk(nil, reflect.ValueOf(&lot).Elem())
	a, err := s.decide(lot, &c, detail)
	return a, lot.located(err)
}

// decide decides a lot whose values were checked.
func (s *Shop) decide(lot Lot, c *form.Collector, detail Detail) (Answer, error) {
	w, err := s.check(lot, c, detail == Figures)
	if err != nil {
		return Answer{}, err
	}
	if detail == Figures && len(lot.Products) == 1 && len(lot.Rules) == 0 {
		if a, ok := s.figures(&w.Products[0], lot.Comparables); ok {
			a.Key = lot.Key
			return a, nil
		}
	}
	m := s.of(w.Document, lot.Comparables)
	d, err := m.decide(w, rule.Likely)
	if err != nil {
		return Answer{}, problems(err)
	}
	a, err := d.detailed(detail, len(s.doc.Rules))
	if err != nil {
		return Answer{}, problems(err)
	}
	a.Key = lot.Key
	return a, nil
}

// figures prices a product that was worked out by the plan of the shop, where that can.
func (s *Shop) figures(p *Product, seen []comparables.Record) (a Answer, ok bool) {
	if s.plan == nil {
		return a, false
	}
	m := s.plan.memory()
	defer s.plan.memories.Put(m)
	if !m.product(s.sharedCosts, p, seen) {
		return a, false
	}
	return s.plan.price(m)
}

// check checks a lot as a part of its shop, and works it out; quietly, where nobody asks how. The
// error is quoin.Problems.
func (s *Shop) check(lot Lot, c *form.Collector, quiet bool) (derivedDocument, error) {
	doc := s.doc.Document
	doc.Products, doc.Comparables = lot.Products, lot.Comparables
	if len(lot.Rules) > 0 {
		doc.Rules = slices.Concat(doc.Rules, lot.Rules)
	}
	memory := s.memory()
	defer s.memories.Put(memory)
	k := checker{Collector: c, memory: memory, doc: derivedDocument{Document: doc}, supplies: s.supplies, ids: make(map[string]ids, 2), shop: s, quiet: quiet}
	k.check()
	if err := c.All().Err(); err != nil {
		return derivedDocument{}, err
	}
	k.doc.memory = nil // which is for the next lot
	return k.doc, nil
}

// memory is what is remembered of the lots before, which does not pile up.
func (s *Shop) memory() *memory {
	m, ok := s.memories.Get().(*memory)
	if !ok {
		return newMemory()
	}
	m.layouts.next()
	if len(m.chances) > mostLayouts {
		clear(m.chances)
	}
	return m
}

// Detail says how much the answer to a lot holds. The zero value is Full, and so is any value
// without a name.
type Detail uint8

const (
	// Full is all that an answer to a document says of its products.
	Full Detail = iota
	// Brief is what was decided, and what deserves a look: of each product its price, the
	// least and the greatest one allowed, its statements and kinds of order; warnings; what
	// was dropped; of a conflict, what each rule allows and how far apart they are. Runs of
	// allowed prices, steps and all other reasons, dead zones, what is said of the public
	// price, of parcels, layouts and quotes, and remedies are left out.
	Brief
	// Figures is Brief without warnings and kinds of order, which makes it cheaper still.
	// Nothing in it says that a price loses money: it is for prices that are only tried.
	Figures
)

// detailed is the answer to a lot, whose rules follow after so many of its shop.
func (d *decidedList) detailed(detail Detail, rules int) (a Answer, err error) {
	switch detail {
	case Figures:
		a = d.outcome()
		return a, d.products(&a, d.figures)
	case Brief:
		a = d.outcome()
		err = d.products(&a, d.selling)
	default:
		a, err = d.reasoned()
	}
	if err != nil {
		return a, err
	}
	a.Warnings = d.lotWarnings(a, rules)
	a.Places = d.warningPlaces(a.Warnings)
	if detail == Brief {
		for _, p := range a.Products {
			for j := range p.Channels {
				p.Channels[j].DeadZones = nil
			}
		}
	}
	return a, nil
}

// selling is a product's figures with what warnings look at beside them.
func (d *decidedList) selling(i int, p *ProductResult) error {
	if err := d.figures(i, p); err != nil {
		return err
	}
	for n, j := range d.soldIn(&d.Products[i]) {
		if _, err := d.inChannel(i, n, j, p); err != nil {
			return err
		}
	}
	return nil
}
