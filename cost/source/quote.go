package source

import (
	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// HomeRun is what making a run at home costs: Fixed once, and Each for every good
// print.
type HomeRun struct {
	Fixed quoin.Amount
	Each  quoin.Amount
}

// Cost returns fixed + each × good.
func (h HomeRun) Cost(good int64) quoin.Amount {
	return h.Fixed.Add(h.Each.Times(quoin.FactorOf(good)))
}

// Quote is what a print house asks: its scale of prices, and what is charged
// once.
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

// Ordered returns how many prints are ordered where so many are needed: the
// cheapest number that is sold and covers them, which is more than the need where a
// price from a quantity on makes that cost less. The scale is one that
// buy.Scale.Check accepts.
func (q Quote) Ordered(needed int64) int64 { return q.Scale.Cover().Quantity(needed) }

// Cost returns what the prints cost where so many are needed: those ordered, with
// freight, set-up and proof.
func (q Quote) Cost(needed int64) quoin.Amount { return q.of(q.Ordered(needed)) }

// of is what an order of so many costs.
func (q Quote) of(ordered int64) quoin.Amount {
	return q.Scale.Cost(ordered).Add(q.Setup).Add(q.Proof)
}

// PerPrint returns what each print that is needed costs: cost ÷ needed, with
// what is left over paid for by those; nothing where none is needed.
func (q Quote) PerPrint(needed int64) quoin.Amount {
	if needed == 0 {
		return quoin.Amount{}
	}
	return q.Cost(needed).Over(quoin.FactorOf(needed))
}
