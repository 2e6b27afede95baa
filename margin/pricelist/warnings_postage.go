package pricelist

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/prose"
)

// Codes of postage that buyers do not pay, or not all of it.
const (
	PostageShort    quoin.Code = "postage_partly_covered"
	PostageAbsorbed quoin.Code = "postage_absorbed"
	PostageFree     quoin.Code = "postage_free_at_price"
)

// postedOrder is a kind of order as it is sent, and what the shop keeps of the shipping that is charged
// on it.
type postedOrder struct {
	channel.Order
	terms   channel.Terms
	kind    int
	kept    quoin.Amount
	product int // of which it is, where parcels differ by product; else none, -1
}

// short is what the price carries of the postage: of an order with others, the part of own items.
func (p postedOrder) short() quoin.Amount { return p.OfOrder(p.Postage.Sub(p.kept)) }

// enough is the least shipping that covers the postage. What is kept of much says how much that is,
// up to the rounding of the tax.
func (p postedOrder) enough() quoin.Amount {
	much, cent := quoin.AmountOf(1_000_000, 0), quoin.AmountOf(1, p.terms.Places())
	charge := p.Postage.Times(much.Ratio(p.terms.ShippingKept(p.kind, much))).Round(p.terms.Places(), quoin.Down)
	for range 2 {
		if p.terms.ShippingKept(p.kind, charge).Cmp(p.Postage) >= 0 {
			break
		}
		charge = charge.Add(cent)
	}
	return charge
}

// postage warns of kinds of order whose shipping, as far as it is the shop's, is less than their
// postage. Of none of it, terms of trade say who pays.
func (w *warner) postage() {
	for j, c := range w.doc.Channels {
		for i := range c.Orders {
			p, sent := w.posted(j, i)
			switch {
			case !sent || p.short().Sign() <= 0:
			case !p.Shipping.IsZero():
				w.partlyCovered(j, i, p)
			case c.Trade == nil:
				w.absorbed(j, i, p)
			}
		}
	}
}

// posted is order i of channel j. Where products differ in postage or tax, it is of the one whose
// price carries most, and named.
func (w *warner) posted(j, i int) (postedOrder, bool) {
	if !w.doc.Channels[j].ByProduct() || len(w.items) == 0 {
		return postedIn(w.terms[j], i)
	}
	var most postedOrder
	found := false
	for n, it := range w.items {
		o, sold := it.Offer(w.doc.Channels[j].ID)
		if !sold {
			continue
		}
		p, ok := postedIn(o.Sale.Terms, i)
		if ok && (!found || p.short().Cmp(most.short()) > 0) {
			p.product = n
			most, found = p, true
		}
	}
	return most, found
}

func postedIn(t channel.Terms, place int) (postedOrder, bool) {
	k, ok := kindAt(t, place)
	if !ok {
		return postedOrder{}, false
	}
	o, _ := t.Order(k)
	return postedOrder{Order: o, terms: t, kind: k, product: -1, kept: t.ShippingKept(k, o.Shipping)}, true
}

// kindAt is the first kind of order at a place of the channel's list.
func kindAt(t channel.Terms, place int) (int, bool) {
	for kind := range t.Orders() {
		if _, at := t.Order(kind); at == place {
			return kind, true
		}
	}
	return 0, false
}

// partlyCovered warns of postage of which buyers pay a part.
func (w *warner) partlyCovered(j, i int, p postedOrder) {
	c, buyers := w.doc.Channels[j], w.doc.Channels[j].Money(w.doc.Currency)
	charged, kept := buyers.Round(p.Shipping, quoin.HalfUp).String(), w.money(p.kept)
	paid, short, enough := w.money(p.Postage), w.cents(p.short()), p.enough().String()
	about := []string{"channel", c.ID, "order", strconv.Itoa(i), "charged", charged, "paid", paid, "kept", kept, "short", short, "enough", enough}
	said := charged
	if c.ForeignCurrency != nil {
		said, enough, kept = said+" "+buyers.String(), enough+" "+buyers.String(), kept+" "+w.doc.Currency.String()
		about = append(about, "currency", buyers.String())
	}
	if p.product >= 0 {
		about = append(about, "product", w.items[p.product].ID)
	}
	without := ""
	if p.terms.Home(p.Shipping).Cmp(p.kept) > 0 {
		without = " without tax"
	}
	if c.ForeignCurrency != nil || without != "" {
		said += ", which is " + kept + without
	}
	carries := "the price carries the other " + short
	if p.Others != nil {
		carries = fmt.Sprintf("the price carries %s, its share of the other %s", short, w.cents(p.Postage.Sub(p.kept)))
	}
	w.warn(PostageShort, quoin.InList("channels", j).Sub("orders", i).Field("shipping"),
		fmt.Sprintf("postage for %s costs %s, and buyers pay %s", w.ordered(j, p), paid, said),
		carries+": charge "+enough+", or leave it if you mean it", about...)
}

// ordered names a kind of order by what lies in it.
func (w *warner) ordered(j int, p postedOrder) string {
	text := "an order of " + prose.Count(p.ItemsOr1(), "print")
	if p.product >= 0 {
		text += " of " + w.titled(p.product)
	}
	if p.Others != nil {
		text += " and other things"
	}
	return text + " in " + w.place(j)
}

// absorbed warns of postage of which buyers pay nothing.
func (w *warner) absorbed(j, i int, p postedOrder) {
	paid, each := w.money(p.Postage), w.carried(p.Order)
	w.warn(PostageAbsorbed, quoin.InList("channels", j).Sub("orders", i).Field("shipping"),
		fmt.Sprintf("you pay %s postage for %s and buyers pay none of it: each print carries %s", paid, w.ordered(j, p), each),
		"charge shipping, or see that the price bears it", "channel", w.doc.Channels[j].ID, "order", strconv.Itoa(i), "items", strconv.FormatInt(p.ItemsOr1(), 10), "paid", paid, "each", each)
}

// carried is what each print of an order carries of its postage.
func (w *warner) carried(o channel.Order) string {
	return w.money(o.OfOrder(o.Postage).Over(quoin.FactorOf(o.ItemsOr1())))
}

// freed warns, once for each kind of order, of prices at which shipping becomes free, so that
// all its postage is absorbed.
func (w *warner) freed() {
	if len(w.dec.Prices) == 0 {
		return
	}
	for j, c := range w.doc.Channels {
		if c.Trade != nil {
			continue
		}
		for k, o := range c.Orders {
			from, given := o.FreeFrom.Get()
			if given && !o.Shipping.IsZero() {
				w.freeOrder(j, k, c, from)
			}
		}
	}
}

func (w *warner) freeOrder(j, k int, c channel.Channel, from quoin.Amount) {
	first, many := -1, 0
	for i, price := range w.dec.Prices {
		if w.shippedFree(i, j, k, price) {
			if many++; first < 0 {
				first = i
			}
		}
	}
	if many == 0 {
		return
	}
	offer, _ := w.items[first].Offer(c.ID)
	p, _ := postedIn(offer.Sale.Terms, k)
	o := p.Order
	if o.Postage.IsZero() {
		return
	}
	paid, each := w.money(o.Postage), w.carried(o)
	others := ""
	if many > 1 {
		others = fmt.Sprintf(", and so does that of %s", prose.Count(many-1, "more product"))
	}
	w.warn(PostageFree, quoin.InList("channels", j).Sub("orders", k).Field("free_from"),
		fmt.Sprintf("at %s an order of %s of %s in %s goes free%s: you pay all of its postage of %s, %s a print", w.money(w.dec.Prices[first]), prose.Count(o.ItemsOr1(), "print"), w.titled(first), w.place(j), others, paid, each),
		"see that the price bears it, or begin free postage higher", "channel", c.ID, "product", w.items[first].ID, "products", fmt.Sprint(many), "from", w.money(from), "paid", paid, "each", each)
}

// shippedFree reports whether the order at place k of channel j is charged no shipping at a price.
func (w *warner) shippedFree(i, j, k int, price quoin.Amount) bool {
	c := w.doc.Channels[j]
	if o := c.Orders[k]; c.PricePoints == nil && c.ForeignCurrency == nil && price.Times(c.Uplift.OnePlus()).Times(quoin.FactorOf(o.ItemsOr1())).Cmp(o.FreeFrom.Or(quoin.Amount{})) < 0 {
		return false // whatever is taken off
	}
	offer, sold := w.items[i].Offer(c.ID)
	if !sold {
		return false
	}
	kind, ok := kindAt(offer.Sale.Terms, k)
	return ok && offer.Sale.Terms.Settle(kind, price).Shipping.IsZero()
}
