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
	// Parcels is how many an order goes in; zero means 1. What the packing list
	// takes for each order it takes for each of them.
	Parcels int64
	Run     cost.Run
	// Allowance is the contingency and the channel's loss in the post.
	Allowance waste.Allowance
	// Back is the share of the prints sold that come back and are sold again: they
	// need not be made again, but packed.
	Back quoin.Rate
}

// Printed returns the goods of an item that a house prints on demand, and sends:
// what it asks, and nothing else.
func Printed(base quoin.Amount) Goods { return Goods{PerItem: base} }

// Goods is what the goods of an order cost, with everything it was added up
// from. Nothing in it is rounded.
type Goods struct {
	Charges  []cost.Charge // the bill's lines, then the packing list's
	Salvage  []waste.Salvage
	Run      quoin.Amount // what the print run adds to each item
	PerItem  quoin.Amount // charges of an item − salvage + run
	PerOrder quoin.Amount
	// Made is the part of PerItem that making takes: all but packing.
	Made quoin.Amount
	// Own and Paid are the parts that are working time; Hours is the maker's own, as
	// far as it is bought by a unit of time, each hour counted as one.
	Own, Paid, Hours Labour
	Allowance        waste.Allowance
	Back             quoin.Rate
}

// Labour is working time as a part of goods; Made is the part of PerItem that
// making takes.
type Labour struct{ PerItem, PerOrder, Made quoin.Amount }

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
	g := Goods{Salvage: r.Route.Salvage(), Allowance: r.Allowance, Back: r.Back}
	g.Run = r.Run.PerItem(bill, r.Route.First())
	g.Own, g.Paid = r.labour(cost.OwnTime, bill, packing), r.labour(cost.PaidTime, bill, packing)
	g.Hours = r.labour(cost.OwnTime, inHours(bill), inHours(packing))
	g.Made = cost.PerItem(bill).Sub(r.Route.Recovered()).Add(g.Run)
	g.PerItem = g.Made.Add(cost.PerItem(packing))
	g.PerOrder = cost.PerOrder(bill).Add(cost.PerOrder(packing).Times(r.parcels()))
	g.Charges = append(bill, packing...)
	return g, nil
}

// inHours is the charges as if an hour cost one, and all else nothing.
func inHours(charges []cost.Charge) []cost.Charge {
	out := make([]cost.Charge, len(charges))
	for i, c := range charges {
		c.Unit.Amount = quoin.Amount{}
		if h, err := c.Unit.Unit.Times(quoin.FactorOf(1)).In("h"); err == nil {
			c.Unit.Amount = quoin.AmountOf(1, 0).Times(h.Number())
		}
		c.Amount = c.Unit.Amount.Times(c.Number).Times(c.Times).Over(c.Over)
		out[i] = c
	}
	return out
}

// labour is the working time of one kind in the charges, and in the tests of
// the run.
func (r Recipe) labour(kind cost.Labour, bill, packing []cost.Charge) Labour {
	bill, packing = kind.Of(bill), kind.Of(packing)
	tests := cost.Run{Good: r.Run.Good, Tests: r.Run.Tests}.PerItem(bill, r.Route.First())
	made := cost.PerItem(bill).Add(tests)
	return Labour{
		Made:     made,
		PerItem:  made.Add(cost.PerItem(packing)),
		PerOrder: cost.PerOrder(bill).Add(cost.PerOrder(packing).Times(r.parcels())),
	}
}

func (r Recipe) parcels() quoin.Factor { return quoin.FactorOf(max(r.Parcels, 1)) }

// Order returns what the goods of an order of so many items cost: (items × per
// item + per order − items × made × back) × (1 + contingency) ÷ (1 − loss).
func (g Goods) Order(items int64) quoin.Amount {
	return g.whole(Labour{g.PerItem, g.PerOrder, g.Made}, items)
}

func (g Goods) whole(of Labour, items int64) quoin.Amount {
	n := quoin.FactorOf(items)
	sum := of.PerItem.Times(n).Add(of.PerOrder)
	if !g.Back.IsZero() {
		sum = sum.Sub(of.Made.Times(n).Part(g.Back))
	}
	return g.Allowance.Apply(sum)
}
