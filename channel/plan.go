package channel

import (
	"math"
	"math/bits"

	"example.com/quoin"
)

// Plan is terms compiled to whole numbers: it settles orders in minor units, in
// 64 bits with products of 128, without decimals and without allocating. It is
// there for what shops mostly have; Terms are the definition and serve all else.
// Both come to the same cent.
type Plan struct {
	kinds    []plannedKind
	inPrice  bool
	places   int // of money
	width    int // places of the shares of kinds
	feeWidth int // places of fees beyond money, × shares of kinds
	feeMoney int // places of money in fees, 0 where there are none
	perOrder quoin.Factor
	sent     quoin.Amount // what sending costs an item
}

// Units is one order settled, in minor units; fees are in 10^−FeePlaces of them,
// since those that are charged on a share of the sales are not rounded.
type Units struct {
	Unit, Items, Shipping, Taxable, Tax, Revenue uint64
	Fees                                         uint64
}

// plannedKind is one kind of order.
type plannedKind struct {
	keep, take ratio
	tax        ratio
	shipping   uint64
	free       uint64 // what items have to come to, where isFree
	isFree     bool
	onShipping bool
	share      uint64 // × 10^−width
	feeShare   uint64 // of fees: share × 10^−(feeWidth − feePlaces)
	feePlaces  int
	plain      []plainFee
	plainUpTo  uint64 // items up to which plain fees fit in 64 bits
	fees       []plannedFee
}

// plainFee is what most fees are: a rate of the items and a fixed amount, rounded
// half up.
type plainFee struct {
	rate, plus uint64  // plus is the fixed amount and a half
	one        divisor // 10^scale
	share      uint64
}

// ratio is n ÷ d.
type ratio struct {
	n uint64
	d divisor
}

// divisor is a number above zero with 2^64 ÷ it, rounded down, by which dividing
// is multiplying, and at most one too low.
type divisor struct{ by, inverse uint64 }

func divisorOf(d uint64) divisor { return divisor{d, math.MaxUint64 / d} }

// split returns x ÷ d as a whole number and the rest.
func (d divisor) split(x uint64) (q, rest uint64) {
	q, _ = bits.Mul64(x, d.inverse)
	if rest = x - q*d.by; rest >= d.by {
		q, rest = q+1, rest-d.by
	}
	return q, rest
}

// plannedFee is one fee on one kind of order. Its sums are of 10^−scale minor
// units.
type plannedFee struct {
	items, shipping, tax bool // what is added up as the base
	widen                uint64
	rate                 uint64 // × base × widen: in 10^−scale
	tiers                []plannedTier
	fixed                uint64
	least, most          uint64
	hasMost              bool
	one                  divisor // 10^scale
	rounding             quoin.Rounding
	own                  ratio  // the tax on it
	share                uint64 // × 10^−feePlaces of the kind
}

// plannedTier is a rate from a base on, with what the tiers below it come to.
type plannedTier struct{ from, rate, below uint64 }

// FeePlaces returns how many digits the fees of an order of kind i have beyond
// those of money.
func (p *Plan) FeePlaces(i int) int { return p.kinds[i].feePlaces }

// Sums is what orders at one list price bring in and take away: Σ share × figure
// over the kinds of order, in whole numbers of 10^−places as SumPlaces says. ÷ the
// items of an average order they are the figures of Takings.
type Sums struct{ Revenue, Tax, Fees uint64 }

// Sums adds up the kinds of order at a list price in minor units. It returns false
// where a number does not fit in 63 bits; then Terms.Takings does it.
func (p *Plan) Sums(list uint64) (Sums, bool) {
	var sum Sums
	for i := range p.kinds {
		k := &p.kinds[i]
		u, ok := p.Settle(i, list)
		if !ok || !weigh(&sum.Revenue, u.Revenue, k.share) || !weigh(&sum.Tax, u.Tax, k.share) || !weigh(&sum.Fees, u.Fees, k.feeShare) {
			return Sums{}, false
		}
	}
	return sum, true
}

// SumPlaces returns how many digits Sums have after the point: revenue and tax, and
// fees.
func (p *Plan) SumPlaces() (revenue, fees int) { return p.places + p.width, p.feeMoney + p.feeWidth }

// PerOrder returns how many items an average order holds, Σ share × items.
func (p *Plan) PerOrder() quoin.Factor { return p.perOrder }

// takings follows Terms.Takings; false where a number does not fit.
func (p *Plan) takings(list quoin.Amount) (Takings, bool) {
	n, ok := list.Units(p.places)
	if !ok || n < 0 {
		return Takings{}, false
	}
	sum, ok := p.Sums(uint64(n))
	if !ok {
		return Takings{}, false
	}
	revenue, fees := p.SumPlaces()
	return Takings{p.item(sum.Revenue, revenue), p.item(sum.Tax, revenue), p.item(sum.Fees, fees), p.sent}, true
}

// item is what a sum over kinds of order, in 10^−places, is for an item.
func (p *Plan) item(sum uint64, places int) quoin.Amount {
	return quoin.AmountOf(int64(sum), places).Over(p.perOrder)
}

// weigh adds x × share, false where that is beyond 63 bits.
func weigh(sum *uint64, x, share uint64) bool {
	part, ok := times(x, share)
	total, fits := add(*sum, part)
	*sum = total
	return ok && fits && total <= math.MaxInt64
}

// Settle settles one order of kind i at a list price in minor units. It returns
// false where a number does not fit in 64 bits; then Terms.Settle does it.
func (p *Plan) Settle(i int, list uint64) (u Units, ok bool) {
	k := &p.kinds[i]
	var fine bool
	u.Unit, ok = k.keep.of(list, quoin.HalfUp)
	u.Items, fine = k.take.of(u.Unit, quoin.HalfUp)
	ok = ok && fine
	if u.Shipping = k.shipping; k.isFree && u.Items >= k.free {
		u.Shipping = 0
	}
	u.Taxable = u.Items
	if k.onShipping {
		u.Taxable += u.Shipping
	}
	if k.tax.n > 0 {
		u.Tax, fine = k.tax.of(u.Taxable, quoin.HalfUp)
		ok = ok && fine
	}
	u.Revenue = u.Items + u.Shipping
	onTop := u.Tax
	if p.inPrice {
		u.Revenue -= u.Tax
		onTop = 0
	}
	ok = ok && u.Items <= k.plainUpTo
	for j := range k.plain {
		f := &k.plain[j]
		charge, _ := f.one.split(u.Items*f.rate + f.plus)
		u.Fees += charge * f.share
	}
	for j := range k.fees {
		total, fine := k.fees[j].total(u.Items, u.Shipping, onTop)
		u.Fees += total
		ok = ok && fine && u.Fees >= total
	}
	return u, ok && u.Items <= mostUnits
}

// mostUnits keeps sums of two amounts within 64 bits.
const mostUnits = 1 << 60

// of returns x × n ÷ d, rounded to a whole number.
func (r ratio) of(x uint64, how quoin.Rounding) (uint64, bool) {
	if r.n == r.d.by {
		return x, true
	}
	hi, lo := bits.Mul64(x, r.n)
	if hi == 0 {
		q, rest := r.d.split(lo)
		return rounded(q, rest, r.d.by, how), true
	}
	if hi >= r.d.by {
		return 0, false
	}
	q, rest := bits.Div64(hi, lo, r.d.by)
	return rounded(q, rest, r.d.by, how), true
}

// rounded rounds q + rest ÷ d.
func rounded(q, rest, d uint64, how quoin.Rounding) uint64 {
	if rest == 0 {
		return q
	}
	up := false
	switch how {
	case quoin.HalfUp:
		up = rest >= d-rest
	case quoin.Up:
		up = true
	case quoin.HalfEven:
		up = rest > d-rest || rest == d-rest && q%2 == 1
	}
	if up {
		q++
	}
	return q
}

// times multiplies and add adds, false where the result is beyond 64 bits.
func times(x, y uint64) (uint64, bool) {
	hi, lo := bits.Mul64(x, y)
	return lo, hi == 0
}

func add(x, y uint64) (uint64, bool) {
	sum, carry := bits.Add64(x, y, 0)
	return sum, carry == 0
}

// total is the fee with its tax × share, in 10^−feePlaces minor units.
func (f *plannedFee) total(items, shipping, tax uint64) (uint64, bool) {
	var base uint64
	if f.items {
		base += items
	}
	if f.shipping {
		base += shipping
	}
	if f.tax {
		base += tax
	}
	computed, ok := f.proportional(base)
	if computed, fine := add(computed, f.fixed); fine && ok {
		return f.charged(computed)
	}
	return 0, false
}

// charged is a computed fee within its bounds, rounded, with its tax.
func (f *plannedFee) charged(computed uint64) (uint64, bool) {
	computed = max(computed, f.least)
	if f.hasMost {
		computed = min(computed, f.most)
	}
	whole, rest := f.one.split(computed)
	charge := rounded(whole, rest, f.one.by, f.rounding)
	if f.own.n > 0 {
		own, ok := f.own.of(charge, f.rounding)
		if !ok || charge > mostUnits {
			return 0, false
		}
		charge += own
	}
	if f.share == 1 {
		return charge, true
	}
	return times(charge, f.share)
}

// proportional is what rate or tiers take of the base.
func (f *plannedFee) proportional(base uint64) (uint64, bool) {
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
	sum, fits := add(part, t.below)
	return sum, fine && fits
}
