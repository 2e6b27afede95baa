package pricelist

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/cost/buy"
)

// Codes of ways of selling that cannot be meant as they are written.
const (
	DoesNotStack quoin.Code = "does_not_stack"        // a code that stands alone, with others
	NotPrinted   quoin.Code = "not_printed_on_demand" // a product that a house has no entry for
	PaysTooMuch  quoin.Code = "pays_more_than_left"   // a house that pays more than tax leaves it of any price
	StrayFreight quoin.Code = "stray_freight"         // an order that charges freight which the trade terms charge
	SmallSet     quoin.Code = "small_set"             // fewer than two products
	NotWeighed   quoin.Code = "not_weighed"           // a product without a mass, in a parcel
	ApartNotOne  quoin.Code = "apart_above_one"       // buyers of a set that are more than all
)

// ways checks how each channel sells, and what stands beside the channels.
func (k checker) ways() {
	for i, c := range k.doc.Channels {
		at := (*path)(nil).Field("channels").At(i)
		if k.Under(at) {
			continue
		}
		k.named(at, c)
		k.offered(at, c)
		k.tagged(at, c)
		k.traded(at, c)
		k.consigned(at, c)
		k.printed(at, c)
		k.strays(at, c)
		if c.After != nil {
			k.AddAll(at.Field("after"), c.After.Check())
		}
	}
	k.sent()
	k.others()
}

// named checks that the kinds of order are told apart, and that fees name them.
func (k checker) named(at *path, c channel.Channel) {
	ids := make(map[string]bool)
	var names []string
	for i, o := range c.Orders {
		if o.ID == "" {
			continue
		}
		if ids[o.ID] {
			k.Add(at.Field("orders").At(i).Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: quoin.Quoted(o.ID) + " again", Wanted: "an id of its own in the channel"})
		}
		ids[o.ID], names = true, append(names, o.ID)
	}
	for i, f := range c.Fees {
		for j, id := range f.Orders {
			if !ids[id] {
				k.Add(at.Field("fees").At(i).Field("orders").At(j), quoin.Problem{
					Code: quoin.UnknownID, Found: quoin.Quoted(id), Wanted: "the id of one of the channel's orders", Near: k.Near(id, names),
				})
			}
		}
	}
}

// offered checks promotions and the codes of orders.
func (k checker) offered(at *path, c channel.Channel) {
	offers := make(map[string]promo.Offer)
	var names []string
	for i, o := range c.Promotions {
		at := at.Field("promotions").At(i)
		k.AddAll(at, o.Check())
		if _, twice := offers[o.ID]; twice {
			k.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: quoin.Quoted(o.ID) + " again", Wanted: "an id of its own in the channel"})
		}
		offers[o.ID], names = o, append(names, o.ID)
		for j, p := range o.Products {
			k.known(at.Field("products").At(j), "products", p)
		}
	}
	for i, o := range c.Orders {
		for j, id := range o.Codes {
			at := at.Field("orders").At(i).Field("codes").At(j)
			offer, ok := offers[id]
			switch {
			case !ok:
				k.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: quoin.Quoted(id), Wanted: "the id of one of the channel's promotions", Near: k.Near(id, names)})
			case slices.Contains(o.Codes[:j], id):
				k.Add(at, quoin.Problem{Code: quoin.DuplicateID, Found: quoin.Quoted(id) + " again", Wanted: "each code once"})
			case offer.Alone && len(o.Codes) > 1:
				k.Add(at, quoin.Problem{Code: DoesNotStack, Found: fmt.Sprintf("%s beside other codes", quoin.Quoted(id)), Wanted: "it alone: it does not stack"})
			}
		}
	}
}

// tagged checks which prices can be asked, and in what money.
func (k checker) tagged(at *path, c channel.Channel) {
	places := k.doc.Currency.Digits()
	if c.Abroad != nil {
		places = c.Abroad.Currency.Digits()
		if _, err := buy.ParseDate(c.Abroad.Date); err != nil && c.Abroad.Date != "" {
			k.AddAll(at.Field("abroad").Field("date"), err)
		}
	}
	if c.Tag == nil {
		return
	}
	at = at.Field("tag")
	k.AddAll(at, c.Tag.Check())
	whole := func(at *path, a quoin.Amount) {
		if !a.Round(places, quoin.Down).Equal(a) && !k.Under(at) {
			k.Add(at, quoin.Problem{Code: quoin.StepOffMinor, Found: a.String(), Wanted: fmt.Sprintf("a whole number of minor units, with %d digits", places)})
		}
	}
	whole(at.Field("step"), c.Tag.Step)
	whole(at.Field("modulus"), c.Tag.Modulus)
	for i, e := range c.Tag.Of {
		whole(at.Field("of").At(i), e)
	}
}

// strays checks that orders say nothing that only another way of selling is asked.
func (k checker) strays(at *path, c channel.Channel) {
	for i, o := range c.Orders {
		at := at.Field("orders").At(i)
		if o.Zone != "" && c.Tariff == "" {
			k.Stray(at.Field("zone"), "a zone, and no tariff in the channel", "a tariff that has zones, or no zone")
		}
		if o.Reorder && c.Trade == nil {
			k.Stray(at.Field("reorder"), "a reorder, and no trade terms in the channel", "trade terms, or no reorder")
		}
	}
}

func (k checker) traded(at *path, c channel.Channel) {
	if c.Trade == nil {
		return
	}
	t, terms := c.Trade, at.Field("trade")
	if t.Freight != "" {
		for i, o := range c.Orders {
			at := at.Field("orders").At(i)
			if !o.Shipping.IsZero() {
				k.Add(at.Field("shipping"), quoin.Problem{Code: StrayFreight, Found: "shipping beside freight in the trade terms", Wanted: "postage alone: what the shop is charged follows"})
			}
			if !o.FreeFrom.IsZero() {
				k.Add(at.Field("free_from"), quoin.Problem{Code: StrayFreight, Found: "free_from beside freight in the trade terms", Wanted: "free_from in the trade terms"})
			}
		}
	}
	if !t.FreeFrom.IsZero() && t.Freight != channel.Added {
		k.Stray(terms.Field("free_from"), "freight that is not added", "freight added, which is free from there")
	}
	if !t.Allowance.IsZero() != (t.Freight == channel.Allowance) {
		k.Stray(terms.Field("allowance"), "an allowance or freight by allowance, one without the other", "both or none")
	}
	k.terms(terms.Field("credit"), t.Credit)
}

// terms checks that the terms of credit hang together.
func (k checker) terms(at *path, c channel.Credit) {
	if (c.EarlyDays != 0 || !c.Taken.IsZero()) && c.Early.IsZero() {
		k.Stray(at.Field("early"), "no discount for paying early", "the discount that early_days and taken are about")
	}
	if !c.Early.IsZero() && c.EarlyDays == 0 {
		k.Stray(at.Field("early_days"), "nothing", "within how many days the early discount is given")
	}
	if c.EarlyDays > 0 && c.Days > 0 && c.EarlyDays > c.Days {
		k.Add(at.Field("early_days"), quoin.Problem{Code: quoin.OutOfRange, Found: fmt.Sprint(c.EarlyDays), Wanted: fmt.Sprintf("at most the %d days of the net amount", c.Days)})
	}
	if (!c.Money.IsZero() || !c.Early.IsZero()) && c.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

func (k checker) consigned(at *path, c channel.Channel) {
	if c.Consignment == nil {
		return
	}
	w := c.Consignment
	at = at.Field("consignment")
	if w.Discount.Rate.IsZero() && (!w.Discount.Share.IsZero() || w.Discount.Borne != "" && w.Discount.Borne != channel.Forbidden) {
		k.Stray(at.Field("discount").Field("rate"), "no discount", "the discount that is borne")
	}
	if !w.Discount.Rate.IsZero() && w.Discount.Borne == channel.Forbidden {
		k.Stray(at.Field("discount").Field("rate"), w.Discount.Rate.String()+", and discounts are forbidden", "no discount")
	}
	for i, p := range w.Registered {
		if slices.Contains(w.Registered[:i], p) {
			k.Add(at.Field("registered").At(i), quoin.Problem{Code: RepeatedPart, Found: quoin.Quoted(string(p)) + " again", Wanted: "each side once"})
		}
	}
	if !w.Money.IsZero() && w.Days == 0 {
		k.Stray(at.Field("days"), "nothing", "after how many days the money comes in")
	}
}

// printed checks that a house that prints on demand says what it asks, or pays,
// for every product.
func (k checker) printed(at *path, c channel.Channel) {
	w := c.OnDemand
	if w == nil {
		return
	}
	at = at.Field("on_demand")
	if rated := w.Pays == channel.Royalty || w.Pays == channel.ShareOfRest; rated == w.Rate.IsZero() {
		found := "no rate"
		if !rated {
			found = fmt.Sprintf("%s beside %s", w.Rate, w.Pays)
		}
		k.Stray(at.Field("rate"), found, "a rate for a royalty and for a share of the rest, and for nothing else")
	}
	if left, more := c.PaysMoreThanLeft(); more {
		k.Add(at.Field("rate"), quoin.Problem{
			Code: PaysTooMuch, Found: fmt.Sprintf("a rate of %s of the price, of which the tax in it leaves the house %s", w.Rate, left.Round(2)),
			Wanted: "a rate below that", Remedy: "lower the rate, or say net where it is of the price without the tax",
		})
	}
	if c.After != nil && !c.After.Resold.IsZero() {
		k.Stray(at.Field("pays"), "prints on demand, and returns that are sold again", "no resold: what comes back is the house's")
	}
	known := make(map[string]bool)
	for i, s := range w.Sizes {
		at := at.Field("sizes").At(i)
		k.known(at.Field("product"), "products", s.Product)
		if known[s.Product] {
			k.Add(at.Field("product"), quoin.Problem{Code: quoin.DuplicateID, Found: quoin.Quoted(s.Product) + " again", Wanted: "each product once"})
		}
		known[s.Product] = true
	}
	k.entered(at, w)
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
			k.Add(at.Field("sizes"), quoin.Problem{Code: NotPrinted, Found: "no entry for " + quoin.Quoted(p.ID), Wanted: "what the house asks for printing it, or pays for it"})
		}
	}
}
