package parcel

import "example.com/quoin"

// Change is what sending something else instead costs.
type Change struct {
	Now  Shipment     `json:"now"`
	Then Shipment     `json:"then"`
	Cost quoin.Amount `json:"cost"` // total then − total now
}

func change(now, then Shipment) Change {
	return Change{now, then, then.Total.Sub(now.Total)}
}

// Next returns what one more print costs to send, in postage and packing; often
// nothing. It errs as Cheapest does, for either number.
func (pl Plan) Next(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (Change, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return Change{}, err
	}
	if prints == MostPrints {
		return Change{}, fault(BadCount, "prints", quoin.FactorOf(prints).String(), "fewer prints than "+quoin.FactorOf(MostPrints).String())
	}
	return change(d.cheapest(prints), d.cheapest(prints+1)), nil
}

// WithBoard returns what sending the prints with a board in each parcel, in place
// of the one that the load has, costs more than sending them as it says. The price of the board itself is
// not in it. It errs as Cheapest does, for either load.
func (pl Plan) WithBoard(zone string, l Load, prints int64, b Board, cost func(packing string) quoin.Amount) (Change, error) {
	now, err := pl.Cheapest(zone, l, prints, cost)
	if err != nil {
		return Change{}, err
	}
	l.Board = b
	then, err := pl.Cheapest(zone, l, prints, cost)
	if err != nil {
		return Change{}, err
	}
	return change(now, then), nil
}

// Rise returns the least number of prints, above the given one, that costs more
// to send in postage and packing; 0 where none does up to MostPrints, which
// happens only where further parcels are free. Packings cost nothing or more:
// then more prints never cost less. It errs as Cheapest does.
func (pl Plan) Rise(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (int64, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return 0, err
	}
	now := d.total(prints)
	same := func(n int64) bool { return d.total(n).Cmp(now) <= 0 }
	reach := prints
	for reach < MostPrints && same(reach) {
		reach = min(2*reach, MostPrints)
	}
	if same(reach) {
		return 0, nil
	}
	return most(reach, same) + 1, nil
}

// total is what the cheapest shipment costs.
func (d counter) total(prints int64) quoin.Amount {
	var least quoin.Optional[quoin.Amount]
	for i, r := range d.routes {
		if r.reason.Code != "" {
			continue
		}
		total := d.fill(i, prints).Total
		if known, given := least.Get(); !given || total.Cmp(known) < 0 {
			least = quoin.Some(total)
		}
	}
	return least.Or(quoin.Amount{})
}
