package pricelist

import (
	"slices"

	"example.com/quoin/cost"
	"example.com/quoin/internal/form"
)

// reach knows which products the values with a range can move, and what those products name. So a
// value is worked out in as little of a long document as it can move.
type reach struct {
	doc     derivedDocument
	supply  map[string]int   // places by id, of machines behind those of supplies
	naming  map[string][]int // products whose bill or packing lists name a supply or a machine
	named   [][]int          // of each product: the places of those
	extends [][]int          // of each product: itself, and those that follow from it
}

func (d derivedDocument) reach() *reach {
	n := len(d.Products)
	r := &reach{doc: d, supply: d.supplyIndex(), naming: make(map[string][]int), named: make([][]int, n), extends: make([][]int, n)}
	for i := range d.Products {
		p := &d.Products[i]
		r.names(i, p.Bill)
		for _, list := range p.Packing {
			r.names(i, list)
		}
		for _, base := range r.bases(i) {
			r.extends[base] = append(r.extends[base], i)
		}
	}
	return r
}

// names notes that a product's list names supplies.
func (r *reach) names(product int, list cost.Bill) {
	for k := range list {
		id := list[k].Supply
		if at := r.naming[id]; len(at) == 0 || at[len(at)-1] != product {
			r.naming[id], r.named[product] = append(at, product), append(r.named[product], r.supply[id])
		}
	}
}

// bases are a product and what it follows from.
func (r *reach) bases(i int) []int {
	out := []int{i}
	for base := r.doc.given.Products[i].Extends; base != ""; base = r.doc.given.Products[i].Extends {
		i = r.doc.index[base]
		out = append(out, i)
	}
	return out
}

// moved is the products whose goods an input may move, with their bases, and the supplies and
// machines that they name; everything, where it may move all.
func (r *reach) moved(u form.Unsure) (products, named []int) {
	var by []int
	switch list, at := u.At.Begins(); list {
	case "products":
		by = r.extends[at]
	case "supplies":
		by = r.naming[r.doc.given.Supplies[at].ID]
	case "machines":
		by = r.naming[r.doc.Machines[at].ID]
	default:
		return upTo(len(r.doc.Products)), upTo(len(r.doc.Supplies))
	}
	for _, i := range by {
		products = append(products, r.bases(i)...)
	}
	products = once(products)
	for _, i := range products {
		named = append(named, r.named[i]...)
	}
	return products, once(named)
}

func upTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// once sorts places and drops what stands there twice.
func once(places []int) []int {
	slices.Sort(places)
	return slices.Compact(places)
}

// alone is the document as it is given with some products, supplies and machines, and no others.
func (d Document) alone(products, named []int) Document {
	all := d
	d.Products, d.Supplies, d.Machines = make([]Product, 0, len(products)), make([]cost.Supply, 0, len(named)), nil
	for _, i := range products {
		d.Products = append(d.Products, all.Products[i])
	}
	for _, i := range named {
		if i < len(all.Supplies) {
			d.Supplies = append(d.Supplies, all.Supplies[i])
			continue
		}
		d.Machines = append(d.Machines, all.Machines[i-len(all.Supplies)])
	}
	return d
}
