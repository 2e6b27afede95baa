package waste

import "example.com/quoin"

// Delivery is an order to a print house that may deliver, and bill, more or fewer pieces than
// ordered. Up to 10% either way is common practice; your contract decides.
type Delivery struct {
	Ordered int64
	Over    quoin.Rate // of the order, at most delivered beyond it
	Under   quoin.Rate // of the order, at most missing
	Setup   quoin.Amount
	Each    quoin.Amount // billed for each piece delivered
}

// Fewest returns the fewest pieces that may arrive: ordered × (1 − under), rounded up. A larger
// edition cannot be promised.
func (d Delivery) Fewest() int64 { return ceil(quoin.FactorOf(d.Ordered).Times(d.Under.Complement())) }

// Most returns the most pieces that may arrive: ordered × (1 + over), rounded down.
func (d Delivery) Most() int64 {
	n := quoin.FactorOf(d.Ordered).Times(d.Over.OnePlus()).Round(0, quoin.Down)
	return n.Rat().Num().Int64()
}

// Cash returns the money to have ready: setup + each × the most pieces that may arrive.
func (d Delivery) Cash() quoin.Amount { return d.billed(d.Most()) }

func (d Delivery) billed(n int64) quoin.Amount { return d.Setup.Add(d.Each.Times(quoin.FactorOf(n))) }

// UnitCost returns what a piece costs if most arrive, and if fewest arrive. It returns false if
// none may arrive.
func (d Delivery) UnitCost() (quoin.Range[quoin.Amount], bool) {
	few, most := d.Fewest(), d.Most()
	if few <= 0 {
		return quoin.Range[quoin.Amount]{}, false
	}
	at := func(n int64) quoin.Amount { return d.billed(n).Over(quoin.FactorOf(n)) }
	return quoin.Between(at(most), at(few)), true
}
