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
	Charges  []cost.Charge // the bill's lines, then the packing list's
	Salvage  []waste.Salvage
	Run      quoin.Amount // what the print run adds to each item
	PerItem  quoin.Amount // charges of an item − salvage + run
	PerOrder quoin.Amount
	// Own and Paid are the parts of PerItem and PerOrder that are working time.
	Own, Paid Labour
	Allowance waste.Allowance
}

// Labour is working time as a part of goods.
type Labour struct{ PerItem, PerOrder quoin.Amount }

func (l Labour) none() bool { return l.PerItem.IsZero() && l.PerOrder.IsZero() }

// Goods costs the recipe. It errs, with a Problem, where a line names an
// unknown supply or stage or has a quantity of another dimension.
func (r Recipe) Goods() (Goods, error) {
	bill, err := r.Bill.Charges(r.Costs, r.Route.Starts, r.Run)
	if err != nil {
		return Goods{}, err
	}
	packing, err := r.Packing.Charges(r.Costs, r.Route.Starts, r.Run)
	if err != nil {
		return Goods{}, err
	}
	g := Goods{Salvage: r.Route.Salvage(), Allowance: r.Allowance}
	g.Run = r.Run.PerItem(bill, r.Route.First())
	g.Own, g.Paid = r.labour(cost.OwnTime, bill, packing), r.labour(cost.PaidTime, bill, packing)
	g.Charges = append(bill, packing...)
	g.PerItem = cost.PerItem(g.Charges).Sub(r.Route.Recovered()).Add(g.Run)
	g.PerOrder = cost.PerOrder(g.Charges)
	return g, nil
}

// labour is the working time of one kind in the charges, and in the tests of
// the run.
func (r Recipe) labour(kind cost.Labour, bill, packing []cost.Charge) Labour {
	bill, packing = kind.Of(bill), kind.Of(packing)
	tests := cost.Run{Good: r.Run.Good, Tests: r.Run.Tests}.PerItem(bill, r.Route.First())
	return Labour{
		PerItem:  cost.PerItem(bill).Add(cost.PerItem(packing)).Add(tests),
		PerOrder: cost.PerOrder(bill).Add(cost.PerOrder(packing)),
	}
}

// Order returns what the goods of an order of so many items cost:
// (items × per item + per order) × (1 + contingency) ÷ (1 − loss).
func (g Goods) Order(items int64) quoin.Amount {
	return g.whole(Labour{g.PerItem, g.PerOrder}, items)
}

func (g Goods) whole(of Labour, items int64) quoin.Amount {
	return g.Allowance.Apply(of.PerItem.Times(quoin.FactorOf(items)).Add(of.PerOrder))
}
