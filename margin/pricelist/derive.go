package pricelist

import (
	"fmt"
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// derivedDocument is a document in which all that follows from other fields has been
// worked out: it says what its prices are decided from in quantities, prices
// and yields alone.
type derivedDocument struct {
	Document
	given  Document
	inputs []form.Unsure  // of the document as it was given
	index  map[string]int // of products, by id
	// cheap and dear are the document with everything unsure at the end at which
	// goods cost less, or more; none where nothing is unsure.
	cheap, dear *derivedDocument
	memory      *memory
	// origins explain what was worked out, by where it stands.
	origins map[quoin.Path]quoin.Origin
	// supplyAt is where each supply stands: machines follow after the supplies.
	supplyAt []quoin.Path
	// byLine is what was worked out for lines of each product.
	byLine [][]DerivedLine
	// runs is the run of each product that asks to be sure.
	runs []*RunStarts
	// machines is what each machine adds to a print, bought what offers and stocks
	// come to.
	machines []machine.Cost
	bought   []SupplyCost
	// billAt is where each line of each product's bill stands, and runAt its
	// run: some are another product's.
	billAt [][]quoin.Path
	runAt  []quoin.Path
}

// memory is what is worked out once, however often a document is worked out, at the ends of
// its ranges or with a change, or lots are in their shop.
type memory struct {
	layouts  *layouts // of what is cut
	chances  chances  // of runs
	posts    posts    // of the tariffs
	supplied supplied // what offers and stocks came to; nil until it is known
}

func newMemory() *memory {
	return &memory{layouts: newLayouts(), chances: make(chances), posts: make(posts)}
}

// work works the document out, or a lot in its shop, whose supplies were worked out before.
// What stands in its way is added to the problems of the collector; then the result is of no
// use.
func (d Document) work(c *form.Collector, m *memory, in *Shop) derivedDocument {
	return d.worked(&worker{Collector: c}, m, in)
}

// worked is work by a worker that is still to begin.
func (d Document) worked(w *worker, m *memory, in *Shop) derivedDocument {
	w.derivedDocument, w.again = derivedDocument{Document: d, given: d, memory: m}, m.supplied != nil
	if in != nil {
		w.origins, w.shared, w.supplyAt, w.supply = in.doc.origins, true, in.doc.supplyAt, in.places
	} else {
		w.origins = make(map[quoin.Path]quoin.Origin)
		w.supplyList()
		w.supply = w.supplyIndex()
	}
	w.products()
	return w.derivedDocument
}

// explains notes where a figure comes from. The origins may be those of a shop,
// which stay as they are.
func (w *worker) explains(at quoin.Path, from quoin.Origin) {
	if w.shared {
		w.origins, w.shared = maps.Clone(w.origins), false
	}
	w.origins[at] = from
}

type worker struct {
	derivedDocument
	*form.Collector
	supply map[string]int // of supplies, by id
	state  []progress     // of each product
	// lent is how many lines products have from their bases so far.
	lent   int
	shared bool // the origins are another's
	again  bool // the document was worked out before, with other values in its ranges
	quiet  bool // nobody asks how anything came about, or what was worked out
	// allStages is the yield of all stages, where it was asked for.
	allStages quoin.Rate
}

// mostLent bounds how many lines products have from their bases, beside so many for each
// product: a short document must not stand for a long one.
const (
	mostLent   = 20_000
	lentByEach = 30
)

// products gives each product the bill, run and packing of its base.
func (w *worker) products() {
	w.Products = make([]Product, len(w.given.Products))
	w.billAt, w.runAt = make([][]quoin.Path, len(w.Products)), make([]quoin.Path, len(w.Products))
	w.byLine, w.runs = make([][]DerivedLine, len(w.Products)), make([]*RunStarts, len(w.Products))
	w.index = make(map[string]int, len(w.Products))
	for i, p := range w.given.Products {
		if _, twice := w.index[p.ID]; !twice {
			w.index[p.ID] = i
		}
	}
	w.state = make([]progress, len(w.Products))
	for i := range w.Products {
		if w.state[i] != done {
			w.product(i)
		}
	}
}

// progress says how far a product has been worked out.
type progress uint8

const (
	begun progress = iota + 1
	done
)

func (w *worker) product(i int) {
	w.state[i] = begun
	p, at := w.given.Products[i], quoin.InList("products", i)
	w.runAt[i] = at.Sub("run", -1)
	for j := range p.Bill {
		w.billAt[i] = append(w.billAt[i], at.Sub("bill", j))
	}
	own := len(p.Bill)
	if p.Extends != "" {
		p = w.based(i, p)
	}
	p.Bill = w.lines(p.Bill, len(p.Bill)-own, i, p, func(j int) quoin.Path { return w.billAt[i][j] })
	p.Packing = w.packing(i, p, w.given.Products[i].Packing)
	if len(w.Problems) == 0 {
		w.runs[i] = w.runStarts(i, p)
	}
	w.Products[i], w.state[i] = p, done
}

// lines works out the quantities of a bill's lines from one on, which stand at
// paths of their own.
func (w *worker) lines(bill cost.Bill, from, i int, p Product, at func(int) quoin.Path) cost.Bill {
	out := bill
	sizes := p.sizes()
	sizes.At = quoin.InList("products", i)
	for j := from; j < len(bill); j++ {
		k, known := w.supply[bill[j].Supply] // what is not is said where references are checked
		if !known || !bill[j].Follows() || w.unsound(i, k, at(j)) {
			continue
		}
		worked, err := w.work(bill[j], w.Supplies[k], sizes)
		if err != nil {
			addOnce(w.Collector, at(j), err)
			continue
		}
		if &out[0] == &bill[0] {
			out = slices.Clone(bill)
		}
		out[j].Quantity = worked.Quantity
		if cut := bill[j].Cut; cut != nil {
			piece := *cut
			piece.Piece = worked.Piece // of this product's sizes, whoever has the line of it
			out[j].Cut = &piece
		}
		if w.quiet {
			continue
		}
		w.explains(at(j).Field("quantity"), func(t *quoin.Trail) quoin.Operand { return worked.Explain(t.On(bill[j].Supply), at(j)) })
		w.byLine[i] = append(w.byLine[i], w.shown(at(j), bill[j], w.Supplies[k], sizes, worked))
	}
	return out
}

// unsound reports whether something is wrong with what a line is worked out
// from: it itself, its supply, or its product.
func (w *worker) unsound(product, supply int, line quoin.Path) bool {
	if len(w.Problems) == 0 {
		return false
	}
	return w.UnderText(line.String()) || w.UnderText(w.supplyAt[supply].String()) || w.UnderText(quoin.InList("products", product).String())
}

// packing works out the packing lists that a product gives itself.
func (w *worker) packing(i int, p Product, own map[string]cost.Bill) map[string]cost.Bill {
	if own == nil {
		return p.Packing
	}
	out := make(map[string]cost.Bill, len(own))
	for _, name := range slices.Sorted(maps.Keys(own)) {
		out[name] = w.lines(own[name], 0, i, p, func(j int) quoin.Path { return quoin.InList("products", i).Named("packing", name, j) })
	}
	return out
}

// addOnce adds what is wrong with something that stands at a path, but where something is
// said already.
func addOnce(c *form.Collector, at quoin.Path, err error) {
	found, _ := problems(at.Locate(err)).(quoin.Problems)
	for _, p := range found {
		if !c.UnderText(p.Path) {
			c.AddAt(p.Path, p)
		}
	}
}

// based lays a product over its base, which is worked out first.
func (w *worker) based(i int, p Product) Product {
	at := (*path)(nil).Field("products").At(i)
	b, ok := w.index[p.Extends]
	if !ok {
		return p // which is said where references are checked
	}
	if w.state[b] == 0 {
		w.product(b)
	}
	if w.state[b] == begun {
		w.Add(at.Field("extends"), quoin.Problem{Code: CircularBase, Found: prose.Quoted(p.Extends), Wanted: "a base that is not, by way of others, based on this product"})
		return p
	}
	base := w.Products[b]
	if most := mostLent + lentByEach*len(w.Products); w.lent+len(base.Bill) > most {
		w.Add(at.Field("extends"), quoin.Problem{
			Code: quoin.TooMany, Found: fmt.Sprintf("%d lines shared by bases so far", w.lent+len(base.Bill)), Wanted: fmt.Sprintf("at most %d in a document of %s", most, prose.Count(len(w.Products), "product")),
			Remedy: "give products bases with shorter bills, or decide them in several documents",
		})
		return p
	}
	w.lent += len(base.Bill)
	p.Bill = slices.Concat(base.Bill, p.Bill)
	w.billAt[i] = slices.Concat(w.billAt[b], w.billAt[i])
	for _, size := range []struct{ own, base *quoin.Size }{
		{&p.Image, &base.Image}, {&p.Sheet, &base.Sheet}, {&p.Mat, &base.Mat}, {&p.Frame, &base.Frame}, {&p.Parcel, &base.Parcel},
	} {
		if size.own.IsZero() {
			*size.own = *size.base
		}
	}
	if p.Packing == nil {
		p.Packing = base.Packing
	}
	if p.Run.IsZero() {
		p.Run, w.runAt[i] = base.Run, w.runAt[b]
	}
	return p
}
