package pricelist

import (
	"fmt"
	"slices"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Codes of what is easily forgotten in a channel, or counted by the wrong thing.
const (
	FeeOmitsSurcharge quoin.Code = "fee_leaves_surcharge_out"
	FeeOmitsShipping  quoin.Code = "fee_leaves_shipping_out"
	NoPacking         quoin.Code = "posted_without_packing"
	NoFee             quoin.Code = "no_fee_in_channel"
	NoOverhead        quoin.Code = "no_overhead"
	OrderCostPerItem  quoin.Code = "order_cost_per_item"
	ItemCostPerOrder  quoin.Code = "item_cost_per_order"
)

// forgotten warns of what channels leave out, whatever is sold in them.
func (w *warner) forgotten() {
	for j, c := range w.doc.Channels {
		w.feesOnShipping(j, c)
		w.feesOnSurcharge(j, c)
		w.feesPer(j, c)
		w.unpaid(j, c)
	}
	w.overheads()
}

// onPayments reports whether a fee is of the kind that is taken for payments: a rate and a fixed
// amount, once for each order.
func onPayments(f channel.Fee) bool {
	return !f.Rate.IsZero() && !f.Fixed.IsZero() && f.Per != quoin.PerItem && f.OrdersTogether.IsZero()
}

// charges reports whether a fee is charged on a kind of order.
func charges(f channel.Fee, o channel.Order) bool {
	return len(f.Orders) == 0 || slices.Contains(f.Orders, o.ID)
}

// feesOnShipping warns of a fee on payments that leaves out the shipping, which is paid through it
// too.
func (w *warner) feesOnShipping(j int, c channel.Channel) {
	for i, f := range c.Fees {
		if !onPayments(f) || slices.Contains(f.Of, channel.Shipping) {
			continue
		}
		k := slices.IndexFunc(c.Orders, func(o channel.Order) bool { return o.Shipping.Sign() > 0 && charges(f, o) })
		if k < 0 {
			continue
		}
		shipping := c.Orders[k].Shipping
		short := shipping.Part(f.Rate)
		w.warn(FeeOmitsShipping, quoin.InList("channels", j).Sub("fees", i).Field("of"),
			fmt.Sprintf("%q has a rate and a fixed amount, as fees on payments have, and leaves out the shipping of %s: %s more an order in %s if it is taken of all that is paid",
				f.Name, w.money(shipping), w.cents(short), w.place(j)),
			"add \"shipping\" to what it is taken of, unless its terms leave it out",
			"fee", f.Name, "channel", c.ID, "shipping", w.money(shipping), "short", w.cents(short))
	}
}

// feesOnSurcharge warns of a fee on payments that leaves out the surcharge, which is paid through it
// too. It counts an order of 100 in whatever currency.
func (w *warner) feesOnSurcharge(j int, c channel.Channel) {
	for i, f := range c.Fees {
		if f.Rate.IsZero() || !onPayments(f) && !isPayment(f.Name) || slices.Contains(f.Of, channel.Surcharged) {
			continue
		}
		k := slices.IndexFunc(c.Orders, func(o channel.Order) bool { return o.Surcharge != nil && charges(f, o) })
		if k < 0 {
			continue
		}
		u, hundred := c.Orders[k].Surcharge, quoin.AmountOf(100, 0)
		surcharge := hundred.Part(u.Rate).Add(u.Fixed)
		short := surcharge.Part(f.Rate)
		w.warn(FeeOmitsSurcharge, quoin.InList("channels", j).Sub("fees", i).Field("of"),
			fmt.Sprintf("%q leaves out the surcharge that buyers pay in %s: on 100.00 that is %s, of which the fee takes %s more if it is taken of all that is paid",
				f.Name, w.place(j), w.cents(surcharge), w.cents(short)),
			"add \"surcharge\" to what it is taken of, unless its terms leave it out",
			"fee", f.Name, "channel", c.ID, "surcharge", w.cents(surcharge), "short", w.cents(short))
	}
}

// feesPer warns of a fee on payments that is charged for each item, and of a listing fee that is
// charged once for an order of several.
func (w *warner) feesPer(j int, c channel.Channel) {
	n := mostItems(c)
	if n < 2 {
		return
	}
	for i, f := range c.Fees {
		if f.Fixed.IsZero() || !f.OrdersTogether.IsZero() {
			continue
		}
		at, fixed := quoin.InList("channels", j).Sub("fees", i).Field("per"), w.cents(f.Fixed)
		items := strconv.FormatInt(n, 10)
		switch {
		case f.Per == quoin.PerItem && isPayment(f.Name):
			all := w.cents(f.Fixed.Times(quoin.FactorOf(n)))
			w.warn(OrderCostPerItem, at, fmt.Sprintf("%q charges its %s for each item, and a payment is made once for an order: an order of %s in %s bears %s", f.Name, fixed, items, w.place(j), all),
				"write \"per\": \"order\", unless its terms say for each item", "fee", f.Name, "channel", c.ID, "items", items, "each", fixed, "all", all)
		case f.Per != quoin.PerItem && f.Rate.IsZero() && saysOne(f.Name, "listing"):
			short := w.cents(f.Fixed.Times(quoin.FactorOf(n - 1)))
			w.warn(ItemCostPerOrder, at, fmt.Sprintf("%q charges its %s once for an order, and each item is listed by itself: an order of %s in %s lacks %s", f.Name, fixed, items, w.place(j), short),
				"write \"per\": \"item\", unless its terms say for each order", "fee", f.Name, "channel", c.ID, "items", items, "each", fixed, "short", short)
		}
	}
}

// mostItems is how many items the largest kind of order of a channel has.
func mostItems(c channel.Channel) int64 {
	most := int64(1)
	for _, o := range c.Orders {
		most = max(most, o.ItemsOr1())
	}
	return most
}

// unpaid warns of a channel in which somebody takes a share for the payment or the sale, and that
// has no fee.
func (w *warner) unpaid(j int, c channel.Channel) {
	if len(c.Fees) > 0 || c.Trade != nil || c.Consignment != nil || c.OnDemand != nil || len(c.TradeDiscount) > 0 {
		return
	}
	why := ""
	switch {
	case soldOnline(c.ID) || soldOnline(c.Name):
		why = "by its name buyers pay by card or through a marketplace there"
	case slices.ContainsFunc(c.Orders, func(o channel.Order) bool { return o.Shipping.Sign() > 0 }):
		why = "its buyers pay from afar"
	default:
		cash, ok := w.cashAt(c.ID)
		if !ok {
			return
		}
		why = fmt.Sprintf("only %s of its sales are paid in cash", cash)
	}
	percent, of := "1.00", "100.00"
	if _, price, ok := w.example(); ok {
		percent, of = w.cents(price.Part(perCent(1))), w.money(price)
	}
	w.warn(NoFee, quoin.InList("channels", j).Field("fees"), fmt.Sprintf("%s has no fee, and %s: each per cent that is taken of %s is %s that no price carries", w.place(j), why, of, percent),
		"add the fee for payments and sales there, if there is one", "channel", c.ID, "price", of, "percent", percent)
}

// cashAt is the share of cash at a fair in a channel, where it is not all.
func (w *warner) cashAt(channel string) (quoin.Rate, bool) {
	for _, f := range w.doc.Fairs {
		if cash, given := f.Cash.Get(); given && f.Channel == channel && cash.Complement().Sign() > 0 {
			return cash, true
		}
	}
	return quoin.Rate{}, false
}

// overheads warns of a shop without overhead where it knows a cost of some time.
func (w *warner) overheads() {
	if !w.doc.Overhead.Cost.IsZero() {
		return
	}
	for j, c := range w.doc.Channels {
		if c.FixedCost.Cost.IsZero() {
			continue
		}
		known := w.money(c.FixedCost.Cost)
		w.warn(NoOverhead, quoin.InField("overhead"), fmt.Sprintf("%s bears %s a period, and the shop has no overhead: a year's rent, insurance, tools and website are in no price", w.place(j), known),
			"add what the shop costs in a year to overhead, and how many items you sell in it: 600.00 over 300 items is 2.00 an item", "channel", c.ID, "known", known)
		return
	}
}

// cents writes an amount to the minor unit, or with all its digits where that is nothing.
func (w *warner) cents(a quoin.Amount) string {
	short, _ := w.distinct(a.Figure(), quoin.Amount{}.Figure())
	return short
}
