package channel

import (
	"math"

	"example.com/quoin"
	"example.com/quoin/internal/halfup"
)

// Bounds of list prices below which kinds of order are plain: the highest that fits is taken.
const (
	mostPlain  = 1 << 40
	leastPlain = 1 << 20
)

// setPlain finds which kinds of order are plain, and below which list price. The shares of kinds
// have to be known.
func (p *Plan) setPlain() {
	p.plainBelow = mostPlain
	for i := range p.kinds {
		p.kinds[i].plain = p.plainOf(&p.kinds[i])
		p.plainBelow = min(p.plainBelow, p.kinds[i].plain.below)
	}
	var most Sums
	for i := range p.kinds {
		k := &p.kinds[i]
		u, ok := k.plain.most(p.plainBelow)
		if !ok || !most.weigh(&u, k) {
			p.plainBelow = 0
			return
		}
	}
}

// plainOf makes a kind of order plain; it serves no list price where it is not.
func (p *Plan) plainOf(k *plannedKind) plainKind {
	if p.points != nil || k.isApart || len(k.offers) > 0 || len(k.wider) > 0 || k.tax.n > 0 && !k.taxed.plain {
		return plainKind{}
	}
	plain := plainKind{
		reduced: k.keep.n != k.keep.d.by, several: k.take.n != k.take.d.by, onShipping: allBits(k.onShipping), inPrice: allBits(p.inPrice),
		shipping: k.shipping, free: math.MaxUint64, standing: k.standing,
	}
	if k.isFree {
		plain.free = k.free
	}
	keeps, takes, taxes := k.keep.halfUp(&plain.keep), k.take.halfUp(&plain.take), k.tax.halfUp(&plain.tax)
	if !keeps || !takes || !taxes || !plain.setFees(k.fees) {
		return plainKind{}
	}
	for below := uint64(mostPlain); below >= leastPlain; below >>= 2 {
		if _, ok := plain.most(below); ok {
			plain.below = below
			return plain
		}
	}
	return plainKind{}
}

// setFees makes fees plain; false where one is not.
func (k *plainKind) setFees(fees []plannedFee) bool {
	for i := range fees {
		f := &fees[i]
		if len(f.tiers) > 0 || f.own.n > 0 || f.rounding != quoin.HalfUp {
			return false
		}
		half := f.one.by / 2
		of, ok := halfup.RatioOf(f.rate, f.one.by, f.fixed+half)
		plain := plainFee{
			items: allBits(f.items), shipping: allBits(f.shipping), tax: allBits(f.tax), of: of, share: f.share,
			isBounded: f.least > 0 || f.hasMost, least: (f.least + half) / f.one.by, most: math.MaxUint64,
		}
		if f.hasMost {
			plain.most = (f.most + half) / f.one.by
		}
		if !ok {
			return false
		}
		if plain.isRate() {
			k.rates = append(k.rates, plainRate{of})
			continue
		}
		k.fees = append(k.fees, plain)
	}
	return true
}

// isRate reports whether the fee is of the items alone, without bounds, and all of it is paid.
func (f *plainFee) isRate() bool {
	return f.items > 0 && f.shipping|f.tax == 0 && !f.isBounded && f.share == 1
}

// most is settle at a list price with all that can be paid paid, each figure by itself; false
// where one does not fit. No figure is higher at a lower list price.
func (k *plainKind) most(list uint64) (u Units, ok bool) {
	if list > k.keep.UpTo() {
		return Units{}, false
	}
	if u.Unit = k.keep.Of(list); u.Unit > k.take.UpTo() {
		return Units{}, false
	}
	if u.Items = k.take.Of(u.Unit); u.Items > mostUnits {
		return Units{}, false
	}
	u.Shipping, u.Revenue = k.shipping, u.Items+k.shipping
	if u.Taxable = u.Revenue; u.Taxable > k.tax.UpTo() {
		return Units{}, false
	}
	u.Tax, u.Fees, ok = k.tax.Of(u.Taxable), k.standing, true
	for i := range k.rates {
		r := &k.rates[i].of
		if u.Items > r.UpTo() {
			return Units{}, false
		}
		charge := r.Of(u.Items)
		ok = ok && charge <= mostFees-u.Fees
		u.Fees += charge
	}
	for i := range k.fees {
		f := &k.fees[i]
		base := u.Revenue + u.Tax
		if base > f.of.UpTo() {
			return Units{}, false
		}
		charge, fits := times(max(f.of.Of(base), f.least), f.share)
		ok = ok && fits && charge <= mostFees-u.Fees
		u.Fees += charge
	}
	return u, ok
}

// halfUp makes the ratio one that rounds half up without dividing.
func (r ratio) halfUp(to *halfup.Ratio) (ok bool) {
	*to, ok = halfup.RatioOf(r.n, r.d.by, r.d.by/2)
	return ok
}

func allBits(yes bool) uint64 {
	if yes {
		return math.MaxUint64
	}
	return 0
}
