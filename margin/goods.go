package margin

import (
	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/waste"
)

// Recipe is what making one product for one channel takes.
type Recipe struct {
	Costs   map[string]cost.UnitCost // of the supplies, by id
	Route   waste.Route
	Bill    cost.Bill
	Packing cost.Bill // the channel's packing list, if any
	Run     cost.Run
	// Allowance is the contingency and the channel's loss in the post.
	Allowance waste.Allowance
}

// Goods is what the goods of an order cost, with everything it was added up
// from. Nothing in it is rounded.
type Goods struct {
	Charges   []cost.Charge // the bill's lines, then the packing list's
	Salvage   []waste.Salvage
	Run       quoin.Amount // what the print run adds to each item
	PerItem   quoin.Amount // per-item charges − salvage + run
	PerOrder  quoin.Amount
	Allowance waste.Allowance
}

// Goods costs the recipe. It errs, with a Problem, where a line names an
// unknown supply or stage or has a quantity of another dimension.
func (r Recipe) Goods() (Goods, error) {
	bill, err := r.Bill.Charges(r.Costs, r.Route.Starts)
	if err != nil {
		return Goods{}, err
	}
	packing, err := r.Packing.Charges(r.Costs, r.Route.Starts)
	if err != nil {
		return Goods{}, err
	}
	g := Goods{Salvage: r.Route.Salvage(), Allowance: r.Allowance}
	g.Run = r.Run.PerItem(bill, r.Route.First())
	g.Charges = append(bill, packing...)
	g.PerItem = cost.Sum(g.Charges, quoin.PerItem).Sub(r.Route.Recovered()).Add(g.Run)
	g.PerOrder = cost.Sum(g.Charges, quoin.PerOrder)
	return g, nil
}

// Order returns what the goods of an order of so many items cost:
// (items × per item + per order) × (1 + contingency) ÷ (1 − loss).
func (g Goods) Order(items int64) quoin.Amount {
	return g.Allowance.Apply(g.PerItem.Times(quoin.FactorOf(items)).Add(g.PerOrder))
}
