package pricelist

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost"
)

// worked is a document in which all that follows from other fields has been
// worked out: it says what its prices are decided from in quantities, prices
// and yields alone.
type worked struct {
	Document
	given  Document
	inputs []unsure // of the document as it was given
	// cheap and dear are the document with everything unsure at the end at which
	// goods cost less, or more; none where nothing is unsure.
	cheap, dear *worked
	// origins explain what was worked out, by where it stands.
	origins map[quoin.Path]quoin.Origin
	// billAt is where each line of each product's bill stands, and runAt its
	// run: some are another product's.
	billAt [][]quoin.Path
	runAt  []quoin.Path
}

// work works the document out. What stands in its way is added to the problems
// of the collector; then the result is of no use.
func (d Document) work(c *collector) worked {
	w := &worker{worked: worked{Document: d, given: d, origins: make(map[quoin.Path]quoin.Origin)}, collector: c}
	w.supply = w.supplyIndex()
	w.products()
	return w.worked
}

type worker struct {
	worked
	*collector
	index  map[string]int // of products, by id
	supply map[string]int // of supplies, by id
	made   []progress     // of each product
	// shared is how many lines products have from their bases so far.
	shared int
}

// mostShared bounds how many lines products have from their bases, all
// together: a short document must not stand for a long one.
const mostShared = 20_000

// products gives each product the bill, run and packing of its base.
func (w *worker) products() {
	w.Products = make([]Product, len(w.given.Products))
	w.billAt, w.runAt = make([][]quoin.Path, len(w.Products)), make([]quoin.Path, len(w.Products))
	w.index = make(map[string]int, len(w.Products))
	for i, p := range w.given.Products {
		if _, twice := w.index[p.ID]; !twice {
			w.index[p.ID] = i
		}
	}
	w.made = make([]progress, len(w.Products))
	for i := range w.Products {
		w.product(i)
	}
}

// progress says how far a product has been worked out.
type progress uint8

const (
	begun progress = iota + 1
	done
)

func (w *worker) product(i int) {
	w.made[i] = begun
	p, at := w.given.Products[i], quoin.InList("products", i)
	w.runAt[i] = at.Sub("run", -1)
	for j := range p.Bill {
		w.billAt[i] = append(w.billAt[i], at.Sub("bill", j))
	}
	own := len(p.Bill)
	if p.Base != "" {
		p = w.based(i, p)
	}
	p.Bill = w.lines(p.Bill, len(p.Bill)-own, p, func(j int) quoin.Path { return w.billAt[i][j] })
	p.Packing = w.packing(at, p, w.given.Products[i].Packing)
	w.Products[i], w.made[i] = p, done
}

// lines works out the quantities of a bill's lines from one on, which stand at
// paths of their own.
func (w *worker) lines(bill cost.Bill, from int, p Product, at func(int) quoin.Path) cost.Bill {
	sizes := cost.Sizes{Image: p.Image, Sheet: p.Sheet, Mat: p.Mat, Frame: p.Frame}
	var out cost.Bill
	for j := from; j < len(bill); j++ {
		if !bill[j].Follows() {
			continue
		}
		k, known := w.supply[bill[j].Supply]
		if !known {
			continue // which is said where references are checked
		}
		worked, err := bill[j].Work(w.Supplies[k], sizes)
		if err != nil {
			w.problem(at(j), err)
			continue
		}
		if out == nil {
			out = slices.Clone(bill)
		}
		out[j].Quantity = worked.Quantity
		w.origins[at(j).Field("quantity")] = func(t *quoin.Trail) quoin.Operand { return worked.Explain(t.On(bill[j].Supply), at(j)) }
	}
	if out == nil {
		return bill
	}
	return out
}

// packing works out the packing lists that a product gives itself.
func (w *worker) packing(at quoin.Path, p Product, own map[string]cost.Bill) map[string]cost.Bill {
	if own == nil {
		return p.Packing
	}
	out := make(map[string]cost.Bill, len(own))
	for name, list := range own {
		out[name] = w.lines(list, 0, p, func(j int) quoin.Path { return at.Named("packing", name, j) })
	}
	return out
}

// problem adds what is wrong with something that stands at a path.
func (w *worker) problem(at quoin.Path, err error) {
	if p, ok := err.(quoin.Problem); ok {
		w.addAt(at.String()+"."+p.Path, p)
	}
}

// based lays a product over its base, which is worked out first.
func (w *worker) based(i int, p Product) Product {
	at := (*path)(nil).field("products").at(i)
	b, ok := w.index[p.Base]
	if !ok {
		return p // which is said where references are checked
	}
	if w.made[b] == 0 {
		w.product(b)
	}
	if w.made[b] == begun {
		w.add(at.field("base"), quoin.Problem{Code: CircularBase, Found: quoin.Quoted(p.Base), Wanted: "a base that is not, by way of others, based on this product"})
		return p
	}
	base := w.Products[b]
	if w.shared += len(base.Bill); w.shared > mostShared {
		w.add(at.field("base"), quoin.Problem{
			Code: TooMany, Found: fmt.Sprintf("%d lines shared by bases so far", w.shared), Wanted: fmt.Sprintf("at most %d in the document", mostShared),
		})
		return p
	}
	p.Bill = append(append(cost.Bill{}, base.Bill...), p.Bill...)
	w.billAt[i] = append(append([]quoin.Path{}, w.billAt[b]...), w.billAt[i]...)
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
	if p.Run == (cost.Run{}) {
		p.Run, w.runAt[i] = base.Run, w.runAt[b]
	}
	return p
}
