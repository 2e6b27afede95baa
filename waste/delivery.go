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

// EquivalentUnits returns the whole pieces that the work on unfinished ones
// comes to: finished + unfinished × the share of their work that is done.
func EquivalentUnits(finished, unfinished quoin.Factor, done quoin.Rate) quoin.Factor {
	return finished.Add(unfinished.Times(done.Factor()))
}

// NormalLoss is input of which a share is lost as a matter of course, what is
// lost bringing scrap.
type NormalLoss struct {
	Input quoin.Amount // what all that is put in costs
	Units quoin.Factor // that are put in
	Loss  quoin.Rate   // of them, below 1
	Scrap quoin.Amount // what a lost unit brings
}

// PerGood returns what each good unit costs: (input − scrap × lost) ÷ (units −
// lost), nothing where no unit is good.
func (n NormalLoss) PerGood() quoin.Amount {
	lost := n.Units.Times(n.Loss.Factor())
	good := n.Units.Sub(lost)
	if good.IsZero() {
		return quoin.Amount{}
	}
	return n.Input.Sub(n.Scrap.Times(lost)).Over(good)
}

// Abnormal returns what more good units than expected are worth, at what each
// costs, less than zero for fewer.
func (n NormalLoss) Abnormal(good quoin.Factor) quoin.Amount {
	expected := n.Units.Times(n.Loss.Complement())
	return n.PerGood().Times(good.Sub(expected))
}
