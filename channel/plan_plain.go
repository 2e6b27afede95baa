package channel

import "example.com/quoin/internal/halfup"

// plainKind is a plain kind of order: without promotions and price points, and with every
// rounding half up. Below a list price its sums are known to fit when it is compiled, so it is
// settled without a check and without dividing.
type plainKind struct {
	below            uint64 // list prices below which it serves, 0 where it does not
	reduced, several bool   // keep and take do something
	keep, take, tax  halfup.Ratio
	onShipping       uint64 // all bits where there is a tax on shipping, else 0
	inPrice          uint64 // all bits where prices hold the tax
	shipping, free   uint64
	rates            []plainRate
	fees             []plainFee
	standing         uint64
}

// plainRate is a fee that is a rate of the items and a fixed amount, and no more.
type plainRate struct{ of halfup.Ratio }

// plainFee is a rate of the parts, all bits of which say that they count, and a fixed amount.
type plainFee struct {
	items, shipping, tax uint64
	of                   halfup.Ratio
	isBounded            bool
	least, most          uint64 // rounded, as rounding keeps the order of numbers
	share                uint64
}

// settle follows Plan.settle.
func (k *plainKind) settle(u *Units, list uint64) {
	unit := list
	if k.reduced {
		unit = k.keep.Of(list)
	}
	items := unit
	if k.several {
		items = k.take.Of(unit)
	}
	shipping := k.shipping
	if items >= k.free {
		shipping = 0
	}
	taxable := items + shipping&k.onShipping
	tax := k.tax.Of(taxable)
	within := tax & k.inPrice
	onTop, fees := tax-within, k.standing
	u.Unit, u.Items, u.Shipping, u.Taxable, u.Tax, u.Revenue = unit, items, shipping, taxable, tax, items+shipping-within
	for i := range k.rates {
		fees += k.rates[i].of.Of(items)
	}
	for i := range k.fees {
		f := &k.fees[i]
		charge := f.of.Of(items&f.items + shipping&f.shipping + onTop&f.tax)
		if f.isBounded {
			charge = min(max(charge, f.least), f.most)
		}
		fees += charge * f.share
	}
	u.Fees = fees
}

// plainSums is Sums below plainBelow.
func (p *Plan) plainSums(list uint64) (sum Sums) {
	var u Units
	for i := range p.kinds {
		k := &p.kinds[i]
		k.plain.settle(&u, list)
		sum.Revenue += u.Revenue * k.share
		sum.Tax += u.Tax * k.share
		sum.Fees += u.Fees * k.feeShare
	}
	return sum
}
