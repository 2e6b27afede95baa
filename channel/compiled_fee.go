package channel

import (
	"slices"

	"example.com/quoin"
)

// compiledFee is a fee as it is charged: one of the channel's list, or one that follows
// from the way in which it sells.
type compiledFee struct {
	Fee
	index   int              // in the list of fees
	way, in string           // the object that it follows from, and the one in that
	only    func(*kind) bool // the kinds that it is charged on; nil means as Orders say
	// owes says that the tax in its base is owed by whoever takes the fee: it is
	// paid out of the fee, as far as that goes.
	owes bool
	// asTaxed says that the tax in its base is the tax of the order, which may be of the full price.
	asTaxed bool
	// stays is the share of it that no refund brings back; none means all.
	stays quoin.Optional[quoin.Factor]
	// These explain what the fee is made of; nil where the fee itself gives it.
	rate, fixed, most, share, feeTax, tier reason
}

// reason explains a figure of a way of selling, which stands at a path.
type reason func(e *order, at quoin.Path) quoin.Operand

// at is where the fee stands in a channel at a path.
func (l *compiledFee) at(channel quoin.Path) quoin.Path {
	if l.way == "" {
		return channel.Sub("fees", l.index)
	}
	at := channel.Sub(l.way, -1)
	if l.in != "" {
		at = at.Inside(l.in)
	}
	return at
}

// on reports whether the fee is charged on a kind of order.
func (l *compiledFee) on(k *kind) bool {
	if l.only != nil {
		return l.only(k)
	}
	return len(l.Orders) == 0 || slices.Contains(l.Orders, k.ID)
}

// owed reports whether the fee owes a tax on a kind of order.
func (l *compiledFee) owed(k *kind) bool { return l.owes && !k.tax.IsZero() }

// leaves returns the base from which a fee leaves anything beside the tax that it
// owes on a kind of order; false where none does.
func (l *compiledFee) leaves(k *kind) (quoin.Amount, bool) {
	rate, from := l.Rate.Factor(), quoin.Amount{}
	if n := len(l.Tiers); n > 0 {
		rate, from = l.Tiers[n-1].Rate.Factor(), l.each(l.Tiers[n-1].From, k.AllItems())
	}
	left := rate.Sub(k.onGoods) // the house sells at prices that hold the tax
	if left.Sign() <= 0 {
		return quoin.Amount{}, false
	}
	return from.Times(rate).Over(left), true
}

// compiledFees are all fees of the channel, first those of its list.
func (c Channel) compiledFees(kinds []kind, places int) []compiledFee {
	out := make([]compiledFee, 0, len(c.Fees)+2)
	for i, f := range c.Fees {
		out = append(out, compiledFee{Fee: f, index: i})
	}
	if c.Trade != nil {
		out = append(out, c.Trade.fees(kinds, c.Home(), places)...)
	}
	if c.Consignment != nil {
		out = append(out, c.Consignment.fees(c.Tax.Rate)...)
	}
	if c.OnDemand != nil {
		out = append(out, c.OnDemand.fees(c.Product, c.Tax.InPrice)...)
	}
	if f := c.ForeignCurrency; f != nil && !f.Conversion.IsZero() {
		conversion := Fee{Name: "conversion", Rate: f.Conversion, Of: []Part{Items, Shipping, Surcharged, SalesTax}}
		out = append(out, compiledFee{Fee: conversion, way: "foreign_currency", rate: given("conversion", f.Conversion.Figure())})
	}
	if c.Returns == nil {
		return out
	}
	c.refunding(out)
	return append(out, c.afterwards()...)
}

// withPrice reports whether a fee goes back with the price where that is given
// back: what a shop on consignment, or a house that prints on demand, keeps.
func (l *compiledFee) withPrice() bool {
	return !l.Expected && (l.way == "consignment" || l.way == "on_demand")
}
