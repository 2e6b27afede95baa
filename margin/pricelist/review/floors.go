package review

import (
	"context"
	"iter"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// floors are the least prices of products; a product that no rule asks anything of,
// or that no price is allowed, has none.
type floors map[string]quoin.Amount

// floorsOf decides what is left of a document by asking. Where rules leave a product
// no price, each product is decided by itself, with those it is based on.
func floorsOf(doc object) (floors, error) {
	out := make(floors)
	if len(listOf(doc, "rules")) == 0 {
		_, _, err := shopOf(doc)
		return out, err
	}
	a, err := decided(doc)
	if err != nil {
		return nil, err
	}
	if len(a.Conflict) == 0 {
		out.take(doc, a)
		return out, nil
	}
	for _, p := range listOf(doc, "products") {
		one := alone(doc, word(p, "id"))
		a, err := decided(one)
		if err != nil {
			return nil, err
		}
		out.take(one, a)
	}
	return out, nil
}

// take takes the least prices of the products that rules speak of.
func (f floors) take(doc object, a pricelist.Answer) {
	for _, p := range a.Products {
		if slices.ContainsFunc(listOf(doc, "rules"), func(r any) bool { return speaks(r, "products", p.ID) }) {
			f[p.ID] = p.Least
		}
	}
}

// speaks reports whether a rule speaks of a product, or of a channel.
func speaks(rule any, of, id string) bool {
	o, _ := rule.(object)
	names := listOf(o, of)
	return len(names) == 0 || slices.Contains(names, any(id))
}

// alone is the document with one product, those it is based on, and the rules that
// speak of it, which then speak of nothing else.
func alone(doc object, product string) object {
	var rules []any
	for _, r := range listOf(doc, "rules") {
		if speaks(r, "products", product) {
			rules = append(rules, with(r.(object), "products", []any{product}))
		}
	}
	out := with(doc, "products", based(doc, product))
	if len(rules) == 0 {
		return with(out, "rules", nil)
	}
	return with(out, "rules", rules)
}

// based is a product and all that it is, by way of others, based on, in their order.
func based(doc object, product string) []any {
	of := make(map[string]bool)
	products := listOf(doc, "products")
	for id := product; id != "" && !of[id]; {
		of[id] = true
		i := slices.IndexFunc(products, func(p any) bool { return word(p, "id") == id })
		if i < 0 {
			break
		}
		id = word(products[i], "base")
	}
	return slices.DeleteFunc(slices.Clone(products), func(p any) bool { return !of[word(p, "id")] })
}

// inChannel is the document as if everything were sold in one channel alone.
func inChannel(doc object, channel string) object {
	var rules []any
	for _, r := range listOf(doc, "rules") {
		if speaks(r, "channels", channel) {
			rules = append(rules, with(r.(object), "channels", []any{channel}))
		}
	}
	if len(rules) == 0 {
		return with(doc, "rules", nil)
	}
	return with(doc, "rules", rules)
}

// shopOf is a document as a shop and a lot of all its products.
func shopOf(doc object) (*pricelist.Shop, pricelist.Lot, error) {
	shop, err := pricelist.DecodeShop(write(with(doc, "products", nil)))
	if err != nil {
		return nil, pricelist.Lot{}, err
	}
	lot, err := pricelist.DecodeLot(write(object{"products": doc["products"]}))
	return shop, lot, err
}

// decided is the answer to a document, without reasons.
func decided(doc object) (pricelist.Answer, error) {
	shop, lot, err := shopOf(doc)
	if err != nil {
		return pricelist.Answer{}, err
	}
	batch := pricelist.Batch{Bare: true}
	for a, err := range batch.Decide(context.Background(), shop, each([]pricelist.Lot{lot})) {
		return a, err
	}
	return pricelist.Answer{}, nil
}

func each(lots []pricelist.Lot) iter.Seq2[pricelist.Lot, error] {
	return func(yield func(pricelist.Lot, error) bool) {
		for _, l := range lots {
			if !yield(l, nil) {
				return
			}
		}
	}
}
