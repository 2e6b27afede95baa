package margin

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/waste"
)

// Recipe is what one product takes to make and pack for one channel.
type Recipe struct {
	Costs map[string]cost.UnitCost // of the supplies, by id
	Route waste.Route
	// Course is the compiled route, if many recipes share it. Nil means that it is
	// compiled for this recipe.
	Course  *waste.CompiledRoute
	Bill    cost.Bill
	Packing cost.Bill // the channel's packing list, if any
	// Parcels is the number of parcels of an order; 0 means 1. What the packing list
	// takes for each order, it takes for each parcel.
	Parcels int64
	Run     cost.Run
	// Allowance is the contingency and the channel's loss in the post.
	Allowance waste.Allowance
	// Back is the share of the sold prints that come back and are sold again. They are
	// packed again, but not made again.
	Back quoin.Rate
}

// GoodsOnDemand returns the goods of an item that a house prints on demand and sends: what the
// house charges, and nothing else.
func GoodsOnDemand(base quoin.Amount) Goods { return Goods{PerItem: base} }

// Goods is what the goods of an order cost, with the parts that it was added up from. Nothing
// in it is rounded.
type Goods struct {
	Bill     []cost.Charge // of the bill's lines
	Packing  []cost.Charge // of the packing list's
	Salvage  []waste.Salvage
	Run      quoin.Amount // what the print run adds to each item
	PerItem  quoin.Amount // charges of an item − salvage + run
	PerOrder quoin.Amount
	// Made is the part of PerItem for making: all except packing.
	Made quoin.Amount
	// Own and Paid are the parts that are working time. Hours is the maker's own time in
	// hours, each counted as 1, of supplies that are bought by a unit of time.
	Own, Paid, Hours Labour
	Allowance        waste.Allowance
	Back             quoin.Rate
}

// Labour is working time in the cost of goods. Made is the part of PerItem for making.
type Labour struct{ PerItem, PerOrder, Made quoin.Amount }

func (l Labour) none() bool { return l.PerItem.IsZero() && l.PerOrder.IsZero() }

// Goods computes the cost of the recipe. The error is a Problem, if a line names an unknown
// supply or stage or has a quantity of another dimension.
func (r Recipe) Goods() (Goods, error) {
	m, err := r.Making()
	if err != nil {
		return Goods{}, err
	}
	return m.Pack(PackingList{Bill: r.Packing, Parcels: r.Parcels}, r.Allowance, r.Back)
}

// Order returns what the goods of an order of so many items cost: (items × per item + per order
// − items × made × back) × (1 + contingency) ÷ (1 − loss). 2 items of 1.24 and 1.20 of packing,
// with a contingency of 10% and 2% lost, cost 4.1306.
func (g Goods) Order(items int64) quoin.Amount {
	return g.whole(Labour{g.PerItem, g.PerOrder, g.Made}, channel.Order{Items: items})
}

// OrderOf is Order for a kind of order. What others lie in it bears its share of what is packed
// once for the order.
func (g Goods) OrderOf(o channel.Order) quoin.Amount {
	return g.whole(Labour{g.PerItem, g.PerOrder, g.Made}, o)
}

// time is working time in an order; mostly there is none.
func (g Goods) time(of Labour, o channel.Order) quoin.Amount {
	if of.none() {
		return quoin.Amount{}
	}
	return g.whole(of, o)
}

func (g Goods) whole(of Labour, o channel.Order) quoin.Amount {
	n := quoin.FactorOf(o.Items)
	sum := of.PerItem.Times(n).Add(o.OfOrder(of.PerOrder))
	if !g.Back.IsZero() {
		sum = sum.Sub(of.Made.Times(n).Part(g.Back))
	}
	return g.Allowance.Apply(sum)
}
