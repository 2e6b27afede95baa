package channel

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Fee is one fee of a channel: a rate of a base, or tiers by the size of the base, plus a fixed
// amount, within bounds. It is charged always, or on a share of the sales. It is data; Charge
// computes it.
type Fee struct {
	Name string `json:"name,omitempty"`
	// Rate is taken of the base, which is the parts named by Of added up;
	// none means items alone. Tiers stand in its place.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	Of   []Part     `json:"of,omitempty" most:"4"`
	// Net takes the tax out of the base first, where prices hold it.
	WithoutTax bool `json:"without_tax,omitzero" was:"net"`
	// Fixed is added to that.
	Fixed quoin.Amount `json:"fixed,omitzero" range:"[0,"`
	// Per says what Fixed and Tiers apply to: each order, also when it is empty, or
	// each item. For each item, tiers go by the base ÷ items, and what they come to
	// is charged once for each item. Bounds apply to the order all the same.
	Per quoin.Per `json:"per,omitempty"`
	// AtLeast and AtMost bound rate and fixed amount together, in this order.
	AtLeast quoin.Amount                 `json:"at_least,omitzero" range:"[0,"`
	AtMost  quoin.Optional[quoin.Amount] `json:"at_most,omitzero" range:"[0,"`
	// Over is how many orders are charged together: what Fixed, AtLeast, AtMost
	// and Tiers say is of them all, and each bears the same part of it. Zero
	// means one. So a subscription is a fixed fee over the orders of a month, and
	// a fee for a click one over the orders that a click brings.
	OrdersTogether quoin.Factor `json:"orders_together,omitzero" was:"over" range:"(0,"`
	// Expected says that the fee is what is expected on average and changes
	// hands in no single order: it is not rounded.
	Expected bool `json:"expected,omitzero"`
	// Orders are the ids of the kinds of order that it is charged on; none means
	// all.
	Orders []string `json:"orders,omitempty" most:"100"`
	// Share is the share of sales on which the fee is charged; none means all.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Tax is charged on the fee itself and cannot be reclaimed.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Tiers are rates and amounts by the size of the base, in rising order of From.
	Tiers    []Tier   `json:"tiers,omitempty" most:"100"`
	TierMode TierMode `json:"tier_mode,omitempty"`
	// Rounding is how the fee, and the tax on it, are rounded to money.
	Rounding quoin.Rounding `json:"rounding,omitzero"`
}

// Tier is what is charged if the base is at least From: a rate, a fixed amount, or both. One of
// them must be given, and each may be 0. A fee of 1.50 below 10.00 and 3.00 from 10.00 on has
// two tiers with fixed amounts, from 0 and from 10.00, and the TierMode Whole.
type Tier struct {
	From  quoin.Amount `json:"from" need:"yes" range:"[0,"`
	Rate  quoin.Rate   `json:"rate" range:"[0,1]"`
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
	Items    Part = "items"    // the items after discounts
	Shipping Part = "shipping" // the shipping charged
	SalesTax Part = "tax"      // tax added on top; 0 where prices hold it
	Discount Part = "discount" // what promotions took off the items
)

// unreduced is what the items came to before a shop on consignment took its discount
// off: after all that the maker gave. No document names it.
const unreduced = "before the shop's discount"

// UnmarshalText reads items, shipping, tax or discount.
func (p *Part) UnmarshalText(text []byte) error {
	return form.SetWord(p, text, Items, Shipping, SalesTax, Discount)
}
