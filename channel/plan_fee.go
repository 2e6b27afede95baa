package channel

import "example.com/quoin"

// plannedFee is one fee on one kind of order. Its sums are of 1 ÷ one minor units.
type plannedFee struct {
	items, shipping, tax bool   // what is added up as the base
	widen                uint64 // × base: what tiers go by
	rate                 uint64 // × base, or of what goes by tiers
	tiers                []plannedTier
	fixed                uint64
	least, most          uint64
	hasMost              bool
	one                  divisor
	rounding             quoin.Rounding
	own                  ratio  // the tax on it
	share                uint64 // × 10^−feePlaces of the kind
}

// plannedTier is a rate from a base on, with what the fee comes to there.
type plannedTier struct{ from, rate, starts uint64 }

// total is the fee with its tax × share, in 10^−feePlaces minor units.
func (f *plannedFee) total(items, shipping, tax uint64) (uint64, bool) {
	computed, ok := f.computed(f.base(items, shipping, tax))
	if !ok {
		return 0, false
	}
	charge, ok := f.rounded(computed)
	if f.share == 1 {
		return charge, ok
	}
	total, fine := times(charge, f.share)
	return total, ok && fine
}

// base is what is paid of the parts, added up.
func (f *plannedFee) base(items, shipping, tax uint64) (base uint64) {
	if f.items {
		base += items
	}
	if f.shipping {
		base += shipping
	}
	if f.tax {
		base += tax
	}
	return base
}

// computed is rate or tiers of the base and the fixed amount, within bounds.
func (f *plannedFee) computed(base uint64) (uint64, bool) {
	computed, ok := f.ofBase(base)
	computed, fits := add(computed, f.fixed)
	computed = max(computed, f.least)
	if f.hasMost {
		computed = min(computed, f.most)
	}
	return computed, ok && fits
}

// rounded is a computed fee rounded, with its tax.
func (f *plannedFee) rounded(computed uint64) (uint64, bool) {
	whole, rest := f.one.split(computed)
	charge := rounded(whole, rest, f.one.by, f.rounding)
	if f.own.n == 0 {
		return charge, true
	}
	own, ok := f.own.of(charge, f.rounding)
	return charge + own, ok && charge <= mostUnits
}

// widerFee is a fee of the net price, of what promotions took off, one only
// expected, or one that owes a tax.
type widerFee struct {
	plannedFee
	discount bool // what promotions took off is part of the base
	instead  bool // the base is the items before the discount of a shop on consignment
	net      bool // less the tax that prices hold
	expected bool // not rounded
	owes     bool // the tax in its base is paid out of it
}

// total is the fee with its tax × share, in 10^−feePlaces minor units.
func (f *widerFee) total(k *plannedKind, u *Units, onTop uint64) (uint64, bool) {
	charge, ok := f.charge(k, u, onTop)
	total, fine := times(charge, f.share)
	return total, ok && fine
}

// charge is the fee with its tax in minor units; what is only expected, without
// its tax and in 1 ÷ one of them.
func (f *widerFee) charge(k *plannedKind, u *Units, onTop uint64) (uint64, bool) {
	base, ok := f.base(k, u, onTop)
	computed, fine := f.computed(base)
	if !ok || !fine || f.expected {
		return computed, ok && fine
	}
	charge, ok := f.rounded(computed)
	if !f.owes {
		return charge, ok
	}
	tax, fits := k.taxes(base, 0) // items and discounts alone, which hold it
	return charge - min(tax, charge), ok && fits
}

// base is the parts added up, without the tax in them for a fee of the net price.
func (f *widerFee) base(k *plannedKind, u *Units, onTop uint64) (uint64, bool) {
	base, ok := f.plannedFee.base(u.Items, u.Shipping, onTop), true
	if f.discount {
		full, fits := times(u.Unit, k.count)
		base, ok = base+full-u.Items, fits && full <= mostUnits
	}
	if f.instead {
		before, fine := k.unreduced(u.Unit)
		base, ok = base+before, ok && fine && before <= mostUnits
	}
	if !f.net {
		return base, ok
	}
	goods, shipping := base, uint64(0) // prices hold the tax, so none is on top
	if f.shipping {
		if goods -= u.Shipping; k.onShipping {
			shipping = u.Shipping
		}
	}
	within, fine := k.taxes(goods, shipping)
	return base - within, ok && fine
}

// ofBase is what the rate takes of the base, or what the tiers that it reaches come to.
func (f *plannedFee) ofBase(base uint64) (uint64, bool) {
	if len(f.tiers) == 0 {
		return times(base, f.rate)
	}
	wide, ok := times(base, f.widen)
	if !ok {
		return 0, false
	}
	at := -1
	for i := range f.tiers {
		if wide < f.tiers[i].from {
			break
		}
		at = i
	}
	if at < 0 {
		return 0, true
	}
	t := &f.tiers[at]
	part, fine := times(wide-t.from, t.rate)
	sum, fits := add(part, t.starts)
	return sum, fine && fits
}

// decimalFee is a fee that is no whole number at any scale: it is charged in whole
// numbers, and decimals do the rest. It is number × 10^−places × inner ÷ over × weight.
type decimalFee struct {
	fee           widerFee
	places        int
	inner, weight quoin.Factor
	over          quoin.Factor // 0 for none
}

// of is the fee of an order, in money.
func (a *decimalFee) of(k *plannedKind, u *Units, onTop uint64) (quoin.Amount, bool) {
	n, ok := a.fee.charge(k, u, onTop)
	if !ok || n > mostUnits {
		return quoin.Amount{}, false
	}
	fee := quoin.AmountOf(int64(n), a.places).Times(a.inner)
	if !a.over.IsZero() {
		fee = fee.Over(a.over)
	}
	return fee.Times(a.weight), true
}
