package review

import (
	"errors"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// floors are the least prices of products; a product that no rule asks anything of,
// or that no price is allowed, has none.
type floors map[string]quoin.Amount

// floorsOf decides what is left of a document by asking, to the minor unit. Where lines
// run so flat that too many of these prices would have to be told apart up to the limit,
// floors are looked for below a tenth of it, and so on: what is found there is the least.
//
// What is decided counts as work.
func (w *work) floorsOf(doc object) (floors, error) {
	f, long := w.leastOf(doc)
	if !tooManyRuns(long) {
		return f, long
	}
	low := limitOf(doc)
	for {
		low = low.Times(quoin.MustFactor("0.1"))
		f, err := w.leastOf(with(doc, "price_limit", low.String()))
		if tooManyRuns(err) {
			continue
		}
		if err != nil || len(f) < len(listOf(onlyOf(doc, "products", func(p object) bool { return spokenOf(doc, p) }), "products")) {
			return nil, long
		}
		return f, nil
	}
}

// limitOf is the highest price that a document considers.
func limitOf(doc object) quoin.Amount {
	if limit, err := quoin.ParseAmount(textOf(doc["price_limit"])); err == nil {
		return limit
	}
	currency, _ := quoin.ParseCurrency(word(doc, "currency"))
	grid, _ := pricelist.Document{Currency: currency}.Grid() // in a currency that was checked
	return grid.Price(grid.Len())
}

func tooManyRuns(err error) bool {
	var p quoin.Problems
	return errors.As(err, &p) && slices.ContainsFunc(p, func(p quoin.Problem) bool { return p.Code == rule.TooManyRuns })
}

// spokenOf reports whether some rule speaks of a product.
func spokenOf(doc object, product any) bool {
	return slices.ContainsFunc(listOf(doc, "rules"), func(r any) bool { return speaksOf(r.(object), product) })
}

// speaksOf reports whether a rule speaks of a product, of all, by its id, or by its design, in a
// channel that sells it.
func speaksOf(rule object, product any) bool {
	p, _ := product.(object)
	if in, sold := listOf(rule, "channels"), listOf(p, "channels"); len(in) > 0 && len(sold) > 0 &&
		!slices.ContainsFunc(sold, func(c any) bool { return slices.Contains(in, c) }) {
		return false
	}
	products, designs := listOf(rule, "products"), listOf(rule, "designs")
	if len(products)+len(designs) == 0 {
		return true
	}
	return slices.Contains(products, any(word(product, "id"))) || slices.Contains(designs, any(word(product, "design")))
}

// leastOf decides a document. Where rules leave a product no price, each product is
// decided by itself, with those it is based on.
func (w *work) leastOf(doc object) (floors, error) {
	out := make(floors)
	if len(listOf(doc, "rules")) == 0 {
		_, _, err := shopOf(doc)
		return out, err
	}
	a, err := w.decided(doc)
	if err != nil {
		return nil, err
	}
	if len(a.Conflict) == 0 {
		out.take(doc, a)
		return out, nil
	}
	f := familyOf(doc)
	for _, p := range f.products {
		one := alone(doc, f, p)
		a, err := w.decided(one)
		if err != nil {
			return nil, err
		}
		out.take(one, a)
	}
	return out, nil
}

// take takes the least prices of the products that rules speak of.
func (f floors) take(doc object, a pricelist.Answer) {
	for i, p := range listOf(doc, "products") {
		if i < len(a.Products) && spokenOf(doc, p) {
			f[a.Products[i].ID] = a.Products[i].Least
		}
	}
}

// alone is the document with one product, those it is based on, and the rules that
// speak of it, which then speak of nothing else.
func alone(doc object, f family, product any) object {
	id := word(product, "id")
	return withOf(with(doc, "products", f.based(id)), "rules", func(r object) object {
		if !speaksOf(r, product) {
			return nil
		}
		return with(with(r, "designs", nil), "products", []any{id})
	})
}

// family is the products of a document, by their ids.
type family struct {
	products []any
	at       map[string]int
}

func familyOf(doc object) family {
	f := family{listOf(doc, "products"), make(map[string]int)}
	for i, p := range f.products {
		f.at[word(p, "id")] = i
	}
	return f
}

// based is a product and all that it is, by way of others, based on, in their order.
func (f family) based(product string) []any {
	var places []int
	for i, ok := f.at[product]; ok && !slices.Contains(places, i); i, ok = f.at[word(f.products[i], "extends")] {
		places = append(places, i)
	}
	slices.Sort(places)
	out := make([]any, len(places))
	for k, i := range places {
		out[k] = f.products[i]
	}
	return out
}

// inChannel is the document as if everything that a channel sells were sold there alone. Where
// some products are not, which others may extend, the other channels stay, and no rule speaks
// of them.
func inChannel(doc object, channel string) object {
	elsewhere := func(p any) bool {
		sold := listOf(p.(object), "channels")
		return len(sold) > 0 && !slices.Contains(sold, any(channel))
	}
	if !slices.ContainsFunc(listOf(doc, "products"), elsewhere) {
		doc = onlyOf(doc, "channels", func(c object) bool { return word(c, "id") == channel })
		doc = withOf(doc, "products", func(p object) object { return with(p, "channels", nil) })
	}
	return withOf(doc, "rules", func(r object) object {
		if names := listOf(r, "channels"); len(names) > 0 && !slices.Contains(names, any(channel)) {
			return nil
		}
		return with(r, "channels", []any{channel})
	})
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
func (w *work) decided(doc object) (pricelist.Answer, error) {
	if err := w.take(doc); err != nil {
		return pricelist.Answer{}, err
	}
	shop, lot, err := shopOf(doc)
	if err != nil {
		return pricelist.Answer{}, err
	}
	return shop.Decide(lot, pricelist.Figures)
}
