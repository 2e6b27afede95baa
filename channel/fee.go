package channel

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Fee is one fee of a channel: a rate of a base, or tiers by the size of the base, plus a fixed
// amount, within bounds. It is charged always, or on a share of the sales.
//
// It is data; Charge computes it.
type Fee struct {
	// What people call it.
	Name string `json:"name,omitempty"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// Share of the base that is taken; tiers stand in its place.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// Parts of what the buyer pays that are added up as the base: items after discounts,
	// shipping charged, a surcharge, tax added on top, what promotions took off. Items alone
	// where it is not given.
	Of []Part `json:"of,omitempty" most:"5"`
	// Whether the tax that prices hold is taken out of the base first.
	WithoutTax bool `json:"without_tax,omitzero" was:"net"`
	// Added to what is taken of the base.
	Fixed quoin.Amount `json:"fixed,omitzero" range:"[0,"`
	// Whether the fixed amount and the tiers apply to each order (also where it is not given) or
	// to each item. For each item, tiers go by the base divided by the items, and what they come
	// to is charged once for each item.
	Per quoin.Per `json:"per,omitempty"`
	// The fee, rate and fixed amount together, is not less than this.
	AtLeast quoin.Amount `json:"at_least,omitzero" range:"[0,"`
	// The fee is not more than this; without bound where it is not given.
	AtMost quoin.Optional[quoin.Amount] `json:"at_most,omitzero" range:"[0,"`
	// The number of orders that one charge covers; 1 where it is not given. A subscription of
	// 20.00 a month over 40 orders costs each order 0.50. Fixed amounts, bounds and tiers apply
	// to the whole charge.
	OrdersTogether quoin.Factor `json:"orders_together,omitzero" was:"over" range:"(0,"`
	// Whether it is what is expected on average and changes hands in no single order, so that it
	// is not rounded.
	Expected bool `json:"expected,omitzero"`
	// Ids of the kinds of order that it is charged on; all of them where there are none.
	Orders []string `json:"orders,omitempty" most:"100"`
	// Share of the sales on which the fee is charged; all of them where it is not given.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Rate of tax on the fee itself, which cannot be reclaimed.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Rates and fixed amounts by the size of the base, in rising order.
	Tiers []Tier `json:"tiers,omitempty" most:"100"`
	// marginal, also where it is not given: every tier reached is charged, its rate on the slice
	// of the base from there to the next tier, and its fixed amount. whole: only the highest
	// tier reached is charged, its rate on all of the base, and its fixed amount.
	TierMode TierMode `json:"tier_mode,omitempty"`
	// How the fee, and the tax on it, are rounded to money; half_up where it is not given.
	Rounding quoin.Rounding `json:"rounding,omitzero"`
}

// Tier is what is charged if the base is at least from: a rate, a fixed amount, or both. One of
// them must be given, and each may be 0. A fee of 1.50 below 10.00 and 3.00 from 10.00 on has
// two tiers with fixed amounts, from 0 and from 10.00, and the tier_mode whole.
type Tier struct {
	// The base from which on it is charged.
	From quoin.Amount `json:"from" need:"yes" range:"[0,"`
	// Share of the base that is taken there, as tier_mode says.
	Rate quoin.Rate `json:"rate" range:"[0,1]"`
	// Amount that is charged there, once an order or for each item, as per says.
	Fixed quoin.Amount `json:"fixed,omitzero" range:"[0,"`
}

// MarshalJSON writes the given fields of the tier. A rate or a fixed amount of 0 is written
// too, if it was given.
func (t Tier) MarshalJSON() ([]byte, error) {
	out := struct {
		From  quoin.Amount                 `json:"from"`
		Rate  quoin.Optional[quoin.Rate]   `json:"rate,omitzero"`
		Fixed quoin.Optional[quoin.Amount] `json:"fixed,omitzero"`
	}{From: t.From}
	if t.Rate.IsGiven() {
		out.Rate = quoin.Some(t.Rate)
	}
	if t.Fixed.IsGiven() {
		out.Fixed = quoin.Some(t.Fixed)
	}
	return json.Marshal(out)
}

// TierMode says which tiers are charged, and what their rates are taken of.
type TierMode string

const (
	// Marginal charges every tier that the base reaches: its rate on the slice of
	// the base from there to the next tier, and its fixed amount. It is also meant
	// when empty.
	Marginal TierMode = "marginal"
	// Whole charges only the highest tier that the base reaches: its rate on all of
	// the base, and its fixed amount.
	Whole TierMode = "whole"
)

// UnmarshalText reads marginal or whole.
func (m *TierMode) UnmarshalText(text []byte) error { return form.SetWord(m, text, Marginal, Whole) }

// Part is a part of what the buyer pays that a fee may be a share of.
type Part string

const (
	Items      Part = "items"     // the items after discounts
	Shipping   Part = "shipping"  // the shipping charged
	Surcharged Part = "surcharge" // what the buyer pays extra for how the order is paid
	SalesTax   Part = "tax"       // tax added on top; 0 where prices hold it
	Discount   Part = "discount"  // what promotions took off the items
)

// unreduced is what the items came to before a shop on consignment took its discount
// off: after all that the maker gave. No document names it.
const unreduced = "before the shop's discount"

// UnmarshalText reads items, shipping, surcharge, tax or discount.
func (p *Part) UnmarshalText(text []byte) error {
	return form.SetWord(p, text, Items, Shipping, Surcharged, SalesTax, Discount)
}
