package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/prose"
)

// Codes of ways of selling that cannot be meant as they are written.
const (
	NotPrinted  quoin.Code = "not_printed_on_demand" // a product that a house has no entry for
	SmallSet    quoin.Code = "small_set"             // fewer than two products
	NotWeighed  quoin.Code = "not_weighed"           // a product without a mass, in a parcel
	ApartNotOne quoin.Code = "apart_above_one"       // buyers of a set that are more than all
)

// ways checks what channels name, and what stands beside them.
func (k checker) ways() {
	for i, c := range k.doc.Channels {
		at := (*path)(nil).Field("channels").At(i)
		if k.Under(at) {
			continue
		}
		if k.shop == nil {
			k.namedIn(at, c)
		}
		if c.OnDemand != nil {
			k.entered(at.Field("on_demand"), c.OnDemand)
		}
	}
	if k.shop == nil {
		k.sent()
	}
	k.shippable()
	if k.shop == nil {
		k.others()
	}
}

// namedIn checks which products a channel names.
func (k checker) namedIn(at *path, c channel.Channel) {
	for i, o := range c.Promotions {
		for j, p := range o.Products {
			k.known(at.Field("promotions").At(i).Field("products").At(j), "products", p)
		}
	}
	if c.OnDemand == nil {
		return
	}
	at = at.Field("on_demand")
	for i, s := range c.OnDemand.Sizes {
		k.known(at.Field("sizes").At(i).Field("product"), "products", s.Product)
	}
}

// fewSought is up to how many names a list is looked through for each.
const fewSought = 8

// entered checks that a house that prints on demand has an entry for every product,
// where what is paid follows from one.
func (k checker) entered(at *path, w *channel.OnDemand) {
	if w.Pays == channel.Royalty {
		return
	}
	has := func(product string) bool {
		return slices.ContainsFunc(w.Sizes, func(s channel.Printed) bool { return s.Product == product })
	}
	if len(k.doc.Products) > fewSought {
		sizes := make(map[string]bool, len(w.Sizes))
		for _, s := range w.Sizes {
			sizes[s.Product] = true
		}
		has = func(product string) bool { return sizes[product] }
	}
	for _, p := range k.doc.Products {
		if p.ID != "" && !has(p.ID) {
			k.Add(at.Field("sizes"), quoin.Problem{Code: NotPrinted, Found: "no entry for " + prose.Quoted(p.ID), Wanted: "what the house asks for printing it, or pays for it"})
		}
	}
}
