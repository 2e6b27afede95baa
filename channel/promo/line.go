package promo

import "example.com/quoin"

// OnOne returns what the offer takes off a basket with a single line that it applies to: count
// items at a unit price. Gross is what they cost before any offer, left what they cost after
// the offers before this one, both in money. The result is rounded to places, as its
// Rounding says, and is at most left. It is 0 if the threshold is not met, and for a set. The caller
// considers Alone.
func (o Offer) OnOne(left, gross, unit quoin.Amount, count int64, places int) quoin.Amount {
	if !o.met(gross, left) {
		return quoin.Amount{}
	}
	if o.kind() == amountOff {
		return within(o.Amount.Round(places, o.Rounding), left)
	}
	return o.onLine(left, unit, count, o.freed(count, count), places)
}

// onLine is what an offer that goes line by line takes off count items, free of
// them for nothing.
func (o Offer) onLine(left, unit quoin.Amount, count, free int64, places int) quoin.Amount {
	var off quoin.Amount
	switch o.kind() {
	case rateOff:
		off = left.Part(o.Rate)
	case multiBuy:
		if count > 0 {
			off = left.Times(quoin.FactorOf(free)).Over(quoin.FactorOf(count))
		}
	case salePrice:
		if sale := o.Sale.Or(unit); sale.Cmp(unit) < 0 {
			off = left.Sub(sale.Times(quoin.FactorOf(count)))
		}
	}
	return within(off.Round(places, o.Rounding), left)
}

// freed is how many of the first n of all items, dearest first, cost nothing.
func (o Offer) freed(n, all int64) int64 {
	if o.Buy < 1 {
		return 0
	}
	n = max(min(n, all-all%o.Buy), 0)
	free := min(max(o.Free, 0), o.Buy)
	return n/o.Buy*free + max(n%o.Buy-(o.Buy-free), 0)
}

// within keeps what comes off between nothing and all that is left.
func within(off, left quoin.Amount) quoin.Amount {
	if off.Cmp(left) > 0 {
		off = left
	}
	if off.Sign() < 0 {
		return quoin.Amount{}
	}
	return off
}

// kind is what an offer takes off.
type kind int

const (
	nothing kind = iota
	rateOff
	amountOff
	multiBuy
	setPrice
	salePrice
)

// kind goes by the first of several.
func (o Offer) kind() kind {
	_, set := o.Price.Get()
	_, sale := o.Sale.Get()
	switch {
	case !o.Rate.IsZero():
		return rateOff
	case !o.Amount.IsZero():
		return amountOff
	case o.Buy != 0 || o.Free != 0:
		return multiBuy
	case set:
		return setPrice
	case sale:
		return salePrice
	}
	return nothing
}

// FreeOf returns how many of count items of one product are free in a multi-buy: with buy 3 and
// 1 free, 2 of 7. It returns 0 for any other offer.
func (o Offer) FreeOf(count int64) int64 {
	if o.kind() != multiBuy {
		return 0
	}
	return o.freed(count, count)
}
