package margin

import (
	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/waste"
)

// Making is what making an item costs before it is packed. It is the same for every channel.
type Making struct {
	recipe           Recipe
	bill             []cost.Charge
	salvage          []waste.Salvage
	run, made        quoin.Amount
	perOrder         quoin.Amount
	own, paid, hours Labour // of the bill and its tests
}

// Making computes bill, run and recoveries. It errs as Goods does.
func (r Recipe) Making() (Making, error) {
	if r.Course == nil {
		r.Course = r.Route.Compile()
	}
	bill, err := r.Bill.Charges(r.Costs, r.Course.Starts, r.Run)
	if err != nil {
		return Making{}, err
	}
	m := Making{recipe: r, bill: bill, salvage: r.Course.Salvage(), run: r.Run.PerItem(bill, r.Course.First())}
	m.made = cost.PerItem(bill).Sub(r.Course.Recovered()).Add(m.run)
	m.perOrder = cost.PerOrder(bill)
	own := cost.OwnTime.Of(bill)
	m.own, m.paid, m.hours = r.labour(own), r.labour(cost.PaidTime.Of(bill)), r.labour(inHours(own))
	return m, nil
}

// labour is what charges that are working time come to, with those of them that
// the tests of the run use up.
func (r Recipe) labour(time []cost.Charge) Labour {
	if len(time) == 0 {
		return Labour{}
	}
	tests := cost.Run{Good: r.Run.Good, Tests: r.Run.Tests}.PerItem(time, r.Course.First())
	made := cost.PerItem(time).Add(tests)
	return Labour{PerItem: made, PerOrder: cost.PerOrder(time), Made: made}
}

// Pack returns the goods of items that are packed in one way. It errs as Recipe.Goods does.
func (m Making) Pack(how PackingList, allowance waste.Allowance, back quoin.Rate) (Goods, error) {
	packing, err := how.Bill.Charges(m.recipe.Costs, m.recipe.Course.Starts, m.recipe.Run)
	if err != nil {
		return Goods{}, err
	}
	parcels := quoin.FactorOf(max(how.Parcels, 1))
	own := cost.OwnTime.Of(packing)
	return Goods{
		Bill: m.bill, Packing: packing, Salvage: m.salvage, Run: m.run, Made: m.made, Allowance: allowance, Back: back,
		PerItem: m.made.Add(cost.PerItem(packing)), PerOrder: m.perOrder.Add(cost.PerOrder(packing).Times(parcels)),
		Own: m.own.packed(own, parcels), Paid: m.paid.packed(cost.PaidTime.Of(packing), parcels), Hours: m.hours.packed(inHours(own), parcels),
	}, nil
}

// packed adds the working time of packing.
func (l Labour) packed(time []cost.Charge, parcels quoin.Factor) Labour {
	if len(time) > 0 {
		l.PerItem, l.PerOrder = l.PerItem.Add(cost.PerItem(time)), l.PerOrder.Add(cost.PerOrder(time).Times(parcels))
	}
	return l
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
