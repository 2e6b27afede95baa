package parcel

import "example.com/quoin"

// Alternative is the extra cost of sending something else.
type Alternative struct {
	Now  Shipment     `json:"now"`
	Then Shipment     `json:"then"`
	Cost quoin.Amount `json:"cost"` // total then − total now
}

func change(now, then Shipment) Alternative { return Alternative{now, then, then.Total.Sub(now.Total)} }

// Next returns the extra cost of sending one more print, in postage and packing; it is often 0.
// It errs as Cheapest does, for either number of prints.
func (pl ShippingTerms) Next(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (Alternative, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return Alternative{}, err
	}
	return d.Next(prints)
}

// Next returns the extra cost of sending one more print. It errs as Cheapest does, for either
// number of prints.
func (d PackedLoad) Next(prints int64) (Alternative, error) {
	if err := d.countable(prints); err != nil {
		return Alternative{}, err
	}
	if prints == MostPrints {
		return Alternative{}, quoin.Problems{fault(quoin.OutOfRange, "prints", quoin.FactorOf(prints).String(), "a value below "+quoin.FactorOf(MostPrints).String())}
	}
	return change(d.cheapest(prints), d.cheapest(prints+1)), nil
}

// Rise returns the lowest number of prints, above the given one, that costs more to send in
// postage and packing. It returns 0 if no number up to MostPrints does, which happens only if
// further parcels are free. If no packing has a cost below 0, more prints never cost less. It
// errs as Cheapest does.
func (pl ShippingTerms) Rise(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (int64, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return 0, err
	}
	return d.Rise(prints)
}

// Rise returns ShippingTerms.Rise for this load.
func (d PackedLoad) Rise(prints int64) (int64, error) {
	if err := d.countable(prints); err != nil {
		return 0, err
	}
	before, now := d.splits(prints)
	same := func(n int64) bool {
		after, then := d.splits(n)
		return !d.less(&before[now], &after[then])
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
