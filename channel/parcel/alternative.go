package parcel

import "example.com/quoin"

// Alternative is what sending something else instead costs.
type Alternative struct {
	Now  Shipment     `json:"now"`
	Then Shipment     `json:"then"`
	Cost quoin.Amount `json:"cost"` // total then − total now
}

func change(now, then Shipment) Alternative {
	return Alternative{now, then, then.Total.Sub(now.Total)}
}

// Next returns what one more print costs to send, in postage and packing; often
// nothing. It errs as Cheapest does, for either number.
func (pl ShippingTerms) Next(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (Alternative, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return Alternative{}, err
	}
	return d.Next(prints)
}

// Next returns what one more print costs to send. It errs as Cheapest does, for
// either number.
func (d PackedLoad) Next(prints int64) (Alternative, error) {
	if err := d.countable(prints); err != nil {
		return Alternative{}, err
	}
	if prints == MostPrints {
		return Alternative{}, quoin.Problems{fault(quoin.OutOfRange, "prints", quoin.FactorOf(prints).String(), "a value below "+quoin.FactorOf(MostPrints).String())}
	}
	return change(d.cheapest(prints), d.cheapest(prints+1)), nil
}

// Rise returns the least number of prints, above the given one, that costs more
// to send in postage and packing; 0 where none does up to MostPrints, which
// happens only where further parcels are free. Packings cost nothing or more:
// then more prints never cost less. It errs as Cheapest does.
func (pl ShippingTerms) Rise(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (int64, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return 0, err
	}
	return d.Rise(prints)
}

// Rise is that of the plan.
func (d PackedLoad) Rise(prints int64) (int64, error) {
	if err := d.countable(prints); err != nil {
		return 0, err
	}
	now := d.cheap(prints)
	same := func(n int64) bool {
		then := d.cheap(n)
		return !d.less(&now, &then)
	}
	reach := prints
	for reach < MostPrints && same(reach) {
		reach = min(2*reach, MostPrints)
	}
	if same(reach) {
		return 0, nil
	}
	return mostOf(reach, same) + 1, nil
}

// cheap is how the cheapest shipment is split.
func (d PackedLoad) cheap(prints int64) split {
	least, found := split{}, false
	for i, r := range d.routes {
		if r.reason.Code != "" {
			continue
		}
		if s := d.best(i, prints); !found || d.less(&s, &least) {
			least, found = s, true
		}
	}
	return least
}
