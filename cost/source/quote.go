package source

import (
	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// RunAtHome is what a run at home costs: Fixed once, and Each for every good print.
type RunAtHome struct {
	Fixed quoin.Amount
	Each  quoin.Amount
}

// Cost returns fixed + each × good.
func (h RunAtHome) Cost(good int64) quoin.Amount {
	return h.Fixed.Add(h.Each.Times(quoin.FactorOf(good)))
}

// Quote is what a print house charges: prices by quantity, and what is charged once.
type Quote struct {
	// What the answer names it by.
	ID string `json:"id" need:"yes"`
	// Charged once.
	Setup quoin.Amount `json:"setup,omitzero" range:"[0,"`
	// Charged once.
	Proof quoin.Amount `json:"proof,omitzero" range:"[0,"`
	// Prices of the prints.
	Scale buy.Scale `json:"scale" need:"yes"`
	// How far the house may deliver, and bill, beyond the order.
	OverDelivery quoin.Rate `json:"over_delivery,omitzero" was:"over" range:"[0,1]"`
	// How far it may stay below the order; below 1.
	UnderDelivery quoin.Rate `json:"under_delivery,omitzero" was:"under" range:"[0,1)"`
}

// Ordered returns how many prints are ordered if so many are needed: the cheapest number on
// sale that covers the need. It is more than the need if a price break makes that cheaper.
// buy.Scale.Check must accept the scale.
func (q Quote) Ordered(needed int64) int64 { return q.Scale.Cover().Quantity(needed) }

// Cost returns what the prints cost if so many are needed: the ordered ones, with freight,
// set-up and proof.
func (q Quote) Cost(needed int64) quoin.Amount { return q.of(q.Ordered(needed)) }

// of is what an order of so many costs.
func (q Quote) of(ordered int64) quoin.Amount { return q.Scale.Cost(ordered).Add(q.Setup).Add(q.Proof) }

// PerPrint returns cost ÷ needed: each needed print also pays for those left over. It is 0 if
// none is needed.
func (q Quote) PerPrint(needed int64) quoin.Amount {
	if needed == 0 {
		return quoin.Amount{}
	}
	return q.Cost(needed).Over(quoin.FactorOf(needed))
}
