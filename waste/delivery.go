package waste

import "example.com/quoin"

// Delivery is an order to a print house that may deliver, and bill, more or
// fewer than were ordered. Up to 10% either way is common practice unless told
// otherwise; what holds is what the two of you agreed.
type Delivery struct {
	Ordered int64
	Over    quoin.Rate // of the order, at most delivered beyond it
	Under   quoin.Rate // of the order, at most missing
	Setup   quoin.Amount
	Each    quoin.Amount // billed for each piece delivered
}

// Fewest returns the pieces that arrive at least, ordered × (1 − under) rounded
// up: the largest edition that can be promised.
func (d Delivery) Fewest() int64 {
	return ceil(quoin.FactorOf(d.Ordered).Times(d.Under.Complement()))
}

// Most returns the pieces that arrive at most, ordered × (1 + over) rounded
// down.
func (d Delivery) Most() int64 {
	n := quoin.FactorOf(d.Ordered).Times(d.Over.OnePlus()).Round(0, quoin.Down)
	return n.Rat().Num().Int64()
}

// Cash returns what has to be at hand: setup + each × the most that may arrive.
func (d Delivery) Cash() quoin.Amount { return d.billed(d.Most()) }

func (d Delivery) billed(n int64) quoin.Amount { return d.Setup.Add(d.Each.Times(quoin.FactorOf(n))) }

// UnitCost returns what a piece costs where most arrive, and where fewest do;
// false where none may arrive.
func (d Delivery) UnitCost() (quoin.Range[quoin.Amount], bool) {
	few, most := d.Fewest(), d.Most()
	if few <= 0 {
		return quoin.Range[quoin.Amount]{}, false
	}
	at := func(n int64) quoin.Amount { return d.billed(n).Over(quoin.FactorOf(n)) }
	return quoin.Between(at(most), at(few)), true
}
