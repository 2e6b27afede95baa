package ink

import "example.com/quoin"

// Doubt is what not knowing a cost exactly comes to.
type Doubt struct {
	PerPrint quoin.Amount // how far apart the cheap and the dear end are
	Price    quoin.Amount // how far apart the least prices are
	All      quoin.Amount // over all prints expected to be sold
	// Pays says that finding out may be worth more than it takes.
	Pays bool
}

// Weigh returns what a cost per print between two ends is worth knowing. The
// least price takes the cost multiple times: 3.5 where a rule asks that, 1 ÷ (1
// − fees) where it only has to be earned back. Finding out may pay where the
// difference of the least prices, over the prints expected to be sold, exceeds
// what it takes to find out; it is the most that can be won, not what will be.
func Weigh(cost quoin.Range[quoin.Amount], multiple, prints quoin.Factor, effort quoin.Amount) Doubt {
	d := Doubt{PerPrint: cost.High.Sub(cost.Low)}
	d.Price = d.PerPrint.Times(multiple)
	d.All = d.Price.Times(prints)
	d.Pays = d.All.Cmp(effort) > 0
	return d
}
