package pricelist

import (
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/internal/prose"
)

// selling checks what is spent whatever is sold, channels by themselves, and comparables: those of
// a lot alone, which has no others.
func (k *checker) selling() {
	if k.shop == nil {
		k.doc.Overhead.CheckIn(k.Collector, (*path)(nil).Field("overhead"))
		for i, c := range k.doc.Channels {
			c.CheckIn(k.Collector, (*path)(nil).Field("channels").At(i), k.doc.Currency)
		}
	}
	for i, c := range k.doc.Comparables {
		at := (*path)(nil).Field("comparables").At(i)
		if c.Product != "" {
			k.known(at.Field("product"), "products", c.Product)
		}
		c.CheckIn(k.Collector, at)
	}
}

// Codes of ways of selling that cannot be meant as they are written.
const (
	NotPrinted           quoin.Code = "not_printed_on_demand"  // a product that a house has no entry for
	NotSoldThere         quoin.Code = "not_sold_there"         // a product named beside a channel that does not sell it
	SmallSet             quoin.Code = "small_set"              // fewer than two products
	NotWeighed           quoin.Code = "not_weighed"            // a product without a mass, in a parcel
	AlternativesAboveOne quoin.Code = "alternatives_above_one" // buyers of a set that are more than all
)

// ways checks what channels name, and what stands beside them.
func (k *checker) ways() {
	for i, c := range k.doc.Channels {
		if k.shop != nil && c.OnDemand == nil {
			continue // looked at when the shop was opened
		}
		at := (*path)(nil).Field("channels").At(i)
		if k.Under(at) {
			continue
		}
		if k.shop == nil {
			k.namedIn(at, c)
		}
		if c.OnDemand != nil {
			k.entered(at.Field("on_demand"), c.ID, c.OnDemand)
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
func (k *checker) namedIn(at *path, c channel.Channel) {
	for i, o := range c.Promotions {
		for j, p := range o.Products {
			k.known(at.Field("promotions").At(i).Field("products").At(j), "products", p)
			k.sells(at.Field("promotions").At(i).Field("products").At(j), c.ID, p)
		}
	}
	if c.OnDemand != nil {
		for i, s := range c.OnDemand.Sizes {
			k.known(at.Field("on_demand").Field("sizes").At(i).Field("product"), "products", s.Product)
			k.sells(at.Field("on_demand").Field("sizes").At(i).Field("product"), c.ID, s.Product)
		}
	}
}

// fewSought is up to how many names a list is looked through for each.
const fewSought = 8

// entered checks that a house that prints on demand has an entry for every product that it
// sells, where what is paid follows from one.
func (k *checker) entered(at *path, channelID string, w *channel.OnDemand) {
	if w.Pays == channel.Royalty {
		return
	}
	has := func(product string) bool {
		return slices.ContainsFunc(w.Sizes, func(s channel.OnDemandProduct) bool { return s.Product == product })
	}
	if len(k.doc.Products) > fewSought {
		sizes := make(map[string]bool, len(w.Sizes))
		for _, s := range w.Sizes {
			sizes[s.Product] = true
		}
		has = func(product string) bool { return sizes[product] }
	}
	for _, p := range k.doc.Products {
		if p.ID != "" && p.sellsIn(channelID) && !has(p.ID) {
			k.Add(at.Field("sizes"), quoin.Problem{Code: NotPrinted, Found: "no entry for " + prose.Quoted(p.ID), Wanted: "what the house asks for printing it, or pays for it"})
		}
	}
}

// sent checks packings and tariffs, and what channels with a tariff say.
func (k *checker) sent() {
	root := (*path)(nil)
	for i, p := range k.doc.Packings {
		if at := root.Field("packings").At(i); !k.Under(at) {
			k.AddAll(at, p.Check())
		}
	}
	for i, t := range k.doc.Tariffs {
		if at := root.Field("tariffs").At(i); !k.Under(at) {
			k.AddAll(at, t.Check())
		}
	}
	for i, c := range k.doc.Channels {
		at := root.Field("channels").At(i)
		if c.Tariff == "" {
			continue
		}
		k.known(at.Field("tariff"), "tariffs", c.Tariff)
		k.zones(at, c)
		if c.OnDemand != nil {
			k.Stray(at.Field("tariff"), "a tariff where a house prints on demand and sends", "no tariff")
		}
	}
}

// shippable checks that every product can be sent in every order of a channel with a tariff.
func (k *checker) shippable() {
	if len(k.Problems) > 0 || !slices.ContainsFunc(k.doc.Channels, func(c channel.Channel) bool { return c.Tariff != "" }) {
		return
	}
	m, err := k.maker()
	if err != nil || !k.sendable(m) { // an error has been said
		return
	}
	for i := range k.doc.Products {
		k.shipped((*path)(nil).Field("products").At(i), &k.doc.Products[i], m)
	}
}

// zones checks that orders say where they go, and nothing that follows from it.
func (k *checker) zones(at *path, c channel.Channel) {
	for i, o := range c.Orders {
		at := at.Field("orders").At(i)
		if !o.Postage.IsZero() {
			k.Add(at.Field("postage"), quoin.Problem{Code: quoin.RivalFields, Found: "postage beside a tariff", Wanted: "one of them", Remedy: "leave one out: each says what the other would"})
		}
		if o.Zone == "" {
			k.Missing(at.Field("zone"), "zone")
		}
	}
	if len(c.Orders) == 0 {
		k.Missing(at.Field("orders"), "orders, which say where they go")
	}
	if c.Packing != "" {
		k.Add(at.Field("packing"), quoin.Problem{Code: quoin.RivalFields, Found: "packing beside a tariff", Wanted: "one of them", Remedy: "leave one out: which packing is taken follows from the tariff"})
	}
}

// shipped checks that a product can be sent in every order of the channels that sell it.
func (k *checker) shipped(at *path, p *Product, m *sharedCosts) {
	if !slices.ContainsFunc(k.doc.Channels, func(c channel.Channel) bool { return c.Tariff != "" && p.sellsIn(c.ID) }) {
		return
	}
	if m.mass(p).Sign() <= 0 {
		k.Add(at.Field("mass"), quoin.Problem{Code: NotWeighed, Found: "nothing that weighs anything", Wanted: "its mass, or the mass or grammage of what it is made of"})
		return
	}
	if p.outermost().IsZero() {
		k.Missing(at.Field("sheet"), "sheet, or another size")
		return
	}
	for j, c := range k.doc.Channels {
		if c.Tariff == "" || !p.sellsIn(c.ID) {
			continue
		}
		s, err := m.sender(p, c.Tariff)
		if err != nil {
			continue // which has been said
		}
		if len(s.packings) == 0 {
			k.Add(at.Field("packing"), quoin.Problem{Code: quoin.UnknownID, Found: "no packing list that is one of the packings", Wanted: "a packing list for parcels, with the id of one of the packings"})
			return
		}
		loads := s.loads()
		for i, o := range c.Orders {
			if k.Under((*path)(nil).Field("channels").At(j).Field("orders").At(i)) {
				continue
			}
			if _, err := loads.of(o).to(o.Zone); err != nil {
				k.refused(at, (*path)(nil).Field("channels").At(j).Field("orders").At(i), s.packings, err)
			}
		}
	}
}

// refused says why an order of a product cannot be sent: of several packings,
// why not in the first.
func (k *checker) refused(at, order *path, packings []int, err error) {
	ps, ok := err.(quoin.Problems)
	if !ok {
		k.AddAll(at, err)
		return
	}
	for n, p := range ps {
		if n < len(packings) && strings.HasPrefix(p.Path, "packings[") {
			p.Found += " in " + prose.Quoted(k.doc.Packings[packings[n]].ID)
		}
		if p.Code == parcel.UnknownZone {
			at = order.Field("zone")
		}
		p.Path = ""
		if !k.Under(at) {
			k.Add(at, p)
		}
	}
}

// others checks sets, fairs and editions.
func (k *checker) others() {
	root := (*path)(nil)
	for i, s := range k.doc.Sets {
		at := root.Field("sets").At(i)
		k.given(at.Field("channel"), "channels", s.Channel)
		k.of(at.Field("products"), s.Channel, s.Products)
		if len(s.Products) < 2 && !k.Under(at.Field("products")) {
			k.Add(at.Field("products"), quoin.Problem{Code: SmallSet, Found: "fewer than two products", Wanted: "what is sold together"})
		}
		k.alternatives(at, s)
		var sum quoin.Rate
		for j, a := range s.Alternatives {
			k.of(at.Field("alternatives").At(j).Field("products"), s.Channel, a.Products)
			k.filled(at.Field("alternatives").At(j).Field("products"), a.Products)
			sum = sum.Add(a.Share)
		}
		if sum.Complement().Sign() < 0 {
			k.Add(at.Field("alternatives"), quoin.Problem{Code: AlternativesAboveOne, Found: "shares that sum to " + sum.String(), Wanted: "at most 100%: buyers left buy nothing"})
		}
	}
	for i, f := range k.doc.Fairs {
		at := root.Field("fairs").At(i)
		k.given(at.Field("channel"), "channels", f.Channel)
		for j, s := range f.Mix {
			k.given(at.Field("mix").At(j).Field("product"), "products", s.Product)
			k.sells(at.Field("mix").At(j).Field("product"), f.Channel, s.Product)
		}
		if !k.Under(at) {
			k.AddAll(at, f.Check())
		}
	}
	k.stepped()
	for i, e := range k.doc.Editions {
		at := root.Field("editions").At(i)
		for j, p := range e.Products {
			k.known(at.Field("products").At(j), "products", p)
		}
		k.filled(at.Field("products"), e.Products)
		if k.Under(at) {
			continue
		}
		k.AddAll(at, e.Check())
		_, audit := e.Audit()
		for _, p := range audit {
			if p.Severity == quoin.Fault {
				k.AddAll(at, p)
			}
		}
	}
}

// given checks a reference that has to be given; that it is not has been said.
func (k *checker) given(at *path, list, id string) {
	if id != "" {
		k.known(at, list, id)
	}
}

// filled checks that a list of products names any.
func (k *checker) filled(at *path, products []string) {
	if len(products) == 0 && !k.Under(at) {
		k.Add(at, quoin.Problem{Code: quoin.EmptyList, Found: "no products", Wanted: "at least one"})
	}
}

// apart checks that a set is sold where one order can be put together of several
// products: not by a house that prints each, nor by a tariff that weighs each.
func (k *checker) alternatives(at *path, s Set) {
	for i, c := range k.doc.Channels {
		switch {
		case c.ID != s.Channel || k.Under((*path)(nil).Field("channels").At(i)):
		case c.OnDemand != nil:
			k.Stray(at.Field("channel"), "a set where a house prints on demand", "a channel in which the shop sends orders itself")
		case c.Tariff != "":
			k.Stray(at.Field("channel"), "a set in a channel that goes by a tariff", "a channel whose orders give their postage")
		}
	}
}

// of checks a list of products that a channel sells, each once.
func (k *checker) of(at *path, channel string, products []string) {
	for i, p := range products {
		k.known(at.At(i), "products", p)
		k.sells(at.At(i), channel, p)
		if slices.Contains(products[:i], p) {
			k.Add(at.At(i), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(p) + " again", Wanted: "each product once"})
		}
	}
}
