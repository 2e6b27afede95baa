package pricelist

import (
	"fmt"
	"reflect"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// bought checks what is bought.
func (k *checker) bought(given Document) {
	if k.shop != nil {
		return
	}
	root := (*path)(nil)
	for i := range k.doc.Supplies {
		s := &k.doc.Supplies[i]
		if _, twice := k.supplies[s.ID]; !twice {
			k.supplies[s.ID] = s
		}
	}
	for i := range given.Supplies {
		at, s := root.Field("supplies").At(i), k.doc.Supplies[i]
		if k.Under(at) || k.Under(root.Field("date")) && s.Stock != nil {
			continue
		}
		if s.Quantity.IsZero() {
			k.Missing(at.Field("quantity"), "quantity")
			continue
		}
		_, err := s.UnitCost()
		k.AddAll(at, err)
	}
}

// made checks what products are made of, of lines those that they add to those of their base,
// and how they are packed.
func (k *checker) derivedLines(given Document) {
	root, names := (*path)(nil), named{k}
	for i := range k.doc.Products {
		p, own := &k.doc.Products[i], &given.Products[i]
		at := root.Field("products").At(i)
		k.nested(at, p)
		if !k.Under(at) {
			k.quotes(at, own)
		}
		if p.Extends != "" {
			k.known(at.Field("extends"), "products", p.Extends)
		}
		p.Bill[len(p.Bill)-len(own.Bill):].CheckIn(k.Collector, at.Field("bill"), p.Run, names)
		for _, name := range form.SortedNames(reflect.ValueOf(own.Packing)) {
			p.Packing[name].CheckIn(k.Collector, at.Field("packing").Field(name), p.Run, names)
		}
	}
	k.packed()
	k.quotedProducts()
}

// named is what bills of the document may name.
type named struct{ *checker }

// Supply returns the unit that a supply is bought by.
func (n named) Supply(id string) (quoin.Unit, bool) {
	_, ok := n.list("supplies").at[id]
	if s := n.supplies[id]; s != nil {
		return s.Quantity.Unit(), ok
	}
	return "", ok
}

// Stage reports whether there is a stage.
func (n named) Stage(id string) bool {
	_, ok := n.list("stages").at[id]
	return ok
}

// Unknown reports an id that is in neither list.
func (n named) Unknown(at *path, list, id string) { n.known(at, list, id) }

// nested checks that a print fits what is around it, upright or turned.
func (k *checker) nested(at *path, p *Product) {
	names := []string{"image", "sheet", "mat", "frame"}
	inside := ""
	var inner quoin.Size
	for i, outer := range []quoin.Size{p.Image, p.Sheet, p.Mat, p.Frame} {
		if outer.IsZero() {
			continue
		}
		if !inner.IsZero() && !inner.Fits(outer) && !inner.Turned().Fits(outer) {
			k.Add(at.Field(names[i]), quoin.Problem{
				Code: SizeNesting, Found: outer.String(), Wanted: fmt.Sprintf("a %s that holds the %s of %s", names[i], inside, inner),
			})
			return
		}
		inner, inside = outer, names[i]
	}
}

// packed checks that products have each packing list that a channel uses: one
// that none has is the channel's fault.
func (k *checker) packed() {
	var names []string
	for i, c := range k.doc.Channels {
		if c.Packing == "" || k.open {
			continue
		}
		missing, sold := k.without(c)
		wanted := "the packing list that channel " + prose.Quoted(c.ID) + " names"
		if len(missing) == sold && sold > 0 {
			missing, wanted = []*path{(*path)(nil).Field("channels").At(i).Field("packing")}, "the name of a packing list of the products"
		}
		if len(missing) == 0 {
			continue
		}
		if names == nil {
			names = k.packingLists()
		}
		others := slices.DeleteFunc(slices.Clone(names), func(name string) bool { return name == c.Packing })
		near := k.Near(c.Packing, others)
		for _, at := range missing {
			k.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: "no packing list " + prose.Quoted(c.Packing), Wanted: wanted, Near: near})
		}
	}
}

// without returns where products that a channel sells have no packing list of its, and how many
// products it sells.
func (k *checker) without(c channel.Channel) (missing []*path, sold int) {
	for i, p := range k.doc.Products {
		if !p.sellsIn(c.ID) || k.Under((*path)(nil).Field("products").At(i).Field("channels")) {
			continue
		}
		sold++
		if _, ok := p.Packing[c.Packing]; !ok && p.ID != "" {
			missing = append(missing, (*path)(nil).Field("products").At(i).Field("packing"))
		}
	}
	return missing, sold
}

// packingLists returns the first names that packing lists have.
func (k *checker) packingLists() []string {
	var names []string
	for _, p := range k.doc.Products {
		names = append(names, form.SortedNames(reflect.ValueOf(p.Packing))...)
		if len(names) >= form.MostNames {
			break
		}
	}
	return names
}
