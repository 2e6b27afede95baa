package pricelist

import (
	"fmt"
	"maps"
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns everything that is wrong with a document made in Go, at once. Decode does this
// itself. The error is quoin.Problems.
func (d Document) Check() error {
	_, err := form.Copy(d).checked()
	return err
}

// checked checks and works out a document that nobody else holds.
func (d Document) checked() (derivedDocument, error) {
	var c form.Collector
	c.Walk(nil, reflect.ValueOf(&d).Elem())
	w := check(d, &c)
	return w, c.All().Err()
}

// checker looks at what fields mean together: those of a document; of a shop, whose products
// are still to come; or of a lot in its shop, which has been checked.
type checker struct {
	*form.Collector
	*memory
	doc      derivedDocument
	supplies map[string]*cost.Supply
	ids      map[string]ids // by list
	open     bool           // of a shop
	shop     *Shop          // that a lot is in
	quiet    bool           // nobody asks what was worked out, or how
}

// ids is the names of one list and where each stands. Where some have none,
// other entries may mean them.
type ids struct {
	names   []string
	at      map[string]int
	missing bool
}

func newChecker(doc Document, c *form.Collector, m *memory) checker {
	return checker{Collector: c, memory: m, doc: derivedDocument{Document: doc}, supplies: make(map[string]*cost.Supply), ids: make(map[string]ids)}
}

// maker is that of the document, or of the lot in its shop.
func (k *checker) maker() (*sharedCosts, error) {
	if k.shop != nil {
		return k.shop.of(k.doc.Document, nil), nil
	}
	return k.doc.maker()
}

// check checks a document whose values were checked, and works it out, at the ends of its
// ranges too.
func check(doc Document, c *form.Collector) derivedDocument {
	k := newChecker(doc, c, newMemory())
	given := k.check()
	if len(k.doc.inputs) > 0 && len(c.Problems) == 0 {
		k.doc.cheap, k.doc.dear = k.end(given, Document.cheapest), k.end(given, Document.dearest)
	}
	return k.doc
}

// check checks the document as it is given, works it out, and checks what came of that. It
// returns the document as it is given, with what logs came to. Of a lot it checks what its shop
// has not.
func (k *checker) check() Document {
	k.lists()
	if k.shop == nil {
		k.grid()
	}
	given, origins := k.doc.logged(k.Collector)
	var inputs []form.Unsure
	if k.Ranged || len(origins) > 0 { // a log comes to a range
		inputs = form.Unsures(nil, k.ranged(given))
	}
	k.Ranges(inputs)
	if k.shop == nil {
		k.yields()
	}
	k.doc = given.worked(&worker{Collector: k.Collector, quiet: k.quiet}, k.memory, k.shop)
	k.doc.inputs = inputs
	if len(origins) > 0 {
		k.doc.origins = maps.Clone(k.doc.origins)
		maps.Copy(k.doc.origins, origins)
	}
	k.bought(given)
	k.derivedLines(given)
	k.channelsNamed()
	k.taxed()
	k.ways()
	k.selling()
	k.rules()
	if k.open {
		k.severalProducts()
	}
	if len(k.Problems) == 0 { // and nothing divides by zero
		k.answerable()
	}
	return given
}

// ranged is what may have ranges: the document, or the products of a lot.
func (k *checker) ranged(given Document) reflect.Value {
	if k.shop != nil {
		return reflect.ValueOf(Lot{Products: given.Products})
	}
	return reflect.ValueOf(given)
}

// end works out a document that has ranges at one end of them all, and checks
// what that can make of it: all else is as it was.
func (k *checker) end(doc Document, at func(Document) Document) *derivedDocument {
	var c form.Collector
	w := at(doc).work(&c, k.memory, nil)
	for i, s := range w.Supplies {
		if _, err := s.UnitCost(); err != nil && len(c.Problems) == 0 {
			addOnce(&c, w.supplyAt[i], err)
		}
	}
	for _, p := range c.Problems {
		if !slices.ContainsFunc(k.Problems, func(q quoin.Problem) bool { return p.Path == q.Path && p.Code == q.Code }) {
			p.Remedy = "this is so at one end of the ranges; narrow them"
			k.Problems = append(k.Problems, p)
		}
	}
	return &w
}

// lists checks that ids are given once, and learns them.
func (k *checker) lists() {
	d := &k.doc.Document
	if k.shop == nil {
		k.learn("supplies", len(d.Supplies), func(i int) string { return d.Supplies[i].ID })
		k.learn("machines", len(d.Machines), func(i int) string { return d.Machines[i].ID })
		k.machines()
		k.learn("stages", len(d.Stages), func(i int) string { return d.Stages[i].ID })
	}
	k.learn("products", len(d.Products), func(i int) string { return d.Products[i].ID })
	if k.shop == nil {
		k.learn("channels", len(d.Channels), func(i int) string { return d.Channels[i].ID })
		k.learn("packings", len(d.Packings), func(i int) string { return d.Packings[i].ID })
		k.learn("tariffs", len(d.Tariffs), func(i int) string { return d.Tariffs[i].ID })
		k.learn("sets", len(d.Sets), func(i int) string { return d.Sets[i].ID })
		k.learn("fairs", len(d.Fairs), func(i int) string { return d.Fairs[i].ID })
		k.learn("editions", len(d.Editions), func(i int) string { return d.Editions[i].ID })
	}
	if k.firstRule() < len(d.Rules) || k.shop == nil {
		k.learn("rules", len(d.Rules), func(i int) string { return d.Rules[i].ID })
	}
	if k.shop == nil && d.Currency.IsZero() {
		k.Missing((*path)(nil).Field("currency"), "currency")
	}
	if !k.open {
		k.some("products", len(d.Products))
	}
	if k.shop == nil {
		k.some("channels", len(d.Channels))
	}
}

// firstRule is the place of the first rule that is to be checked: those of the shop were.
func (k *checker) firstRule() int {
	if k.shop == nil {
		return 0
	}
	return len(k.shop.doc.Rules)
}

// some checks that a list has entries.
func (k *checker) some(list string, n int) {
	at := (*path)(nil).Field(list)
	if n == 0 && !k.Under(at) {
		k.Add(at, quoin.Problem{Code: quoin.EmptyList, Found: "no " + list, Wanted: "at least one"})
	}
}

func (k *checker) learn(list string, n int, id func(int) string) {
	all := ids{at: make(map[string]int, n)}
	for i := range n {
		name := id(i)
		if name == "" {
			all.missing = true // which has been said
			continue
		}
		if j, twice := all.at[name]; twice {
			k.Add((*path)(nil).Field(list).At(i).Field("id"), quoin.Problem{
				Code: quoin.DuplicateID, Found: prose.Quoted(name) + " again", Wanted: fmt.Sprintf("an id other than that of %s[%d]", list, j),
			})
			continue
		}
		all.at[name] = i
		all.names = append(all.names, name)
	}
	k.ids[list] = all
}

// machines lets bills name machines as they name supplies, each name one thing.
func (k *checker) machines() {
	all := k.ids["supplies"]
	for i, m := range k.doc.Machines {
		if j, twice := all.at[m.ID]; twice && m.ID != "" {
			k.Add((*path)(nil).Field("machines").At(i).Field("id"), quoin.Problem{
				Code: quoin.DuplicateID, Found: prose.Quoted(m.ID) + " again", Wanted: fmt.Sprintf("an id other than that of supplies[%d]", j),
			})
			continue
		}
		all.at[m.ID] = len(k.doc.Supplies) + i
		all.names = append(all.names, m.ID)
	}
	all.missing = all.missing || k.ids["machines"].missing
	k.ids["supplies"] = all
}

// list is the names of a list: those of a lot's own, or of its shop's.
func (k *checker) list(name string) ids {
	if own, ok := k.ids[name]; ok {
		return own
	}
	if k.shop == nil {
		return ids{}
	}
	return k.shop.ids[name]
}

// known checks that a reference names an entry of a list.
func (k *checker) known(at *path, list, id string) bool {
	all := k.list(list)
	if _, ok := all.at[id]; ok || k.open && list == "products" {
		return true
	}
	if all.missing {
		return false
	}
	k.Add(at, quoin.Problem{
		Code: quoin.UnknownID, Found: prose.Quoted(id), Wanted: "the id of an entry in " + list, Near: k.Near(id, all.names),
	})
	return false
}

func (k *checker) grid() {
	root := (*path)(nil)
	if k.Under(root.Field("price_step")) || k.Under(root.Field("price_limit")) || k.doc.Currency.IsZero() {
		return
	}
	if step, given := k.doc.PriceStep.Get(); given {
		if !k.doc.Currency.Round(step, quoin.Down).Equal(step) {
			k.Add(root.Field("price_step"), quoin.Problem{
				Code: quoin.StepOffMinor, Found: step.String(), Wanted: fmt.Sprintf("a multiple of %s, the minor unit of %s", k.doc.Currency.Minor(), k.doc.Currency),
			})
			return
		}
	}
	if _, err := k.doc.Grid(); err != nil {
		k.Add(root.Field("price_limit"), err.(quoin.Problem))
	}
}

// Codes of what can be wrong with a document, beside those of values that
// cannot be read.
const (
	ShortLadder quoin.Code = "short_ladder"
	// RangeWithRecovery is a yield with a range beside something recovered.
	RangeWithRecovery quoin.Code = "range_with_recovery"
	// MissingDate is a stock in a document without a date.
	MissingDate quoin.Code = "missing_date"
	// TooManyQuoted is more quotes, with more steps, than are compared.
	TooManyQuoted quoin.Code = "too_many_quoted"
	// SizeNesting is an image, sheet or mat that does not fit what is around it.
	SizeNesting quoin.Code = "size_nesting"
	// CircularBase is a product that is, by way of others, its own base.
	CircularBase quoin.Code = "circular_base"
	// SameSize is two prints of a design that are to follow each other by size, and are
	// of the same.
	SameSize quoin.Code = "same_size"
	// DesignApart is products of one design that do not stand one after the other, where
	// products are decided as they come.
	DesignApart quoin.Code = "design_apart"
	// SeveralProducts is what speaks of several products, in a shop whose products come in
	// lots: a ladder of sizes, sets, fairs, editions.
	SeveralProducts quoin.Code = "several_products"
	// AnswerTooLong is a document that says little of much: many products in many channels,
	// with many kinds of order, come to an answer far longer than what was asked.
	AnswerTooLong quoin.Code = "answer_too_long"
)

// path is where something stands in a document.
type path = form.Path
