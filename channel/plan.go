package channel

import (
	"math"
	"math/bits"

	"example.com/quoin"
)

// Plan is terms compiled to whole numbers. It settles orders in minor units, in 64 bits with
// products of 128 bits, without decimals and without allocating. Both come to the same values;
// Terms are the definition, and handle everything that a Plan cannot.
type Plan struct {
	kinds    []plannedKind
	inPrice  bool
	points   *plannedPricePoints
	list     int   // places of list prices
	places   int   // of money
	width    int   // places of the shares of kinds
	feeWidth int   // places of fees beyond money, × shares of kinds
	bare     *Plan // without the fees that are no whole numbers; nil where there are none
	// Below this list price all kinds are plain, and sums over them fit; 0 where one is not.
	plainBelow uint64
	// apartUpTo is up to how many minor units of an order quotients of 34 digits have 28 right
	// behind the point, so that a tie on 12 places is one however it was summed up.
	apartUpTo uint64
	standing  quoin.Amount // Σ share × the fees that are the same at any price and in no whole numbers
	home      quoin.Factor
	abroad    bool
	perOrder  quoin.Factor
	sent      quoin.Amount // what sending costs an item
}

// Units is one settled order, in minor units of the currency that buyers pay in. Fees are in
// 10^−FeePlaces of a minor unit, because fees on a share of the sales, and expected fees, are
// not rounded.
type Units struct {
	Unit, Items, Shipping, Taxable, Tax, Revenue uint64
	Fees                                         uint64
}

// plannedKind is one kind of order.
type plannedKind struct {
	plain      plainKind
	keep, take ratio          // keep gives minor units, or steps of price points
	count      uint64         // items in the order
	offers     []plannedOffer // by codes
	given      int            // of them, by the maker
	tax        ratio
	taxed      plannedTax
	shipping   uint64
	free       uint64 // what items have to come to, where isFree
	isFree     bool
	before     bool // free is tested before offers
	onShipping bool
	share      uint64 // × 10^−width
	feeShare   uint64 // of fees: share × 10^−(feeWidth − feePlaces)
	feePlaces  int
	fees       []plannedFee
	wider      []widerFee
	standing   uint64       // fees that are the same at any price, in 10^−feePlaces
	apart      []decimalFee // fees that are no whole numbers
	isApart    bool         // it has some, or standing ones
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

// FeePlaces returns how many more digits than money the fees of an order of kind i have. It
// panics if there is no kind i.
func (p *Plan) FeePlaces(i int) int { return p.kind(i).feePlaces }

// kind is the i-th kind of order; there is none of the zero Plan.
func (p *Plan) kind(i int) *plannedKind {
	if i < 0 || i >= len(p.kinds) {
		panic("quoin: a kind of order that the plan has not: Terms.Plan makes one, of as many kinds as Terms.Orders says")
	}
	return &p.kinds[i]
}

// Sums is what orders at one list price bring in and take away, in the currency that buyers pay
// in: Σ share × figure over the kinds of order, as whole numbers of 10^−places; SumPlaces
// returns the places. Multiplied by Home and divided by PerOrder, they are the figures of
// Proceeds.
type Sums struct{ Revenue, Tax, Fees uint64 }

// Sums adds up the kinds of order at a list price in minor units of the shop's currency. It
// returns false if a number does not fit in 63 bits or a fee is not a whole number. Then use
// Terms.
func (p *Plan) Sums(list uint64) (Sums, bool) {
	if list < p.plainBelow {
		return p.plainSums(list), true
	}
	return p.anySums(list)
}

// anySums is Sums, whatever the kinds of order are.
func (p *Plan) anySums(list uint64) (Sums, bool) {
	var sum Sums
	var u Units
	for i := range p.kinds {
		k := &p.kinds[i]
		if !p.SettleInto(&u, i, list) || !sum.weigh(&u, k) {
			return Sums{}, false
		}
	}
	return sum, true
}

// SumPlaces returns how many digits Sums have after the point: for revenue and tax, and for
// fees.
func (p *Plan) SumPlaces() (revenue, fees int) { return p.places + p.width, p.places + p.feeWidth }

// ListPlaces returns how many digits list prices have: those of the shop's money.
func (p *Plan) ListPlaces() int { return p.list }

// PerOrder returns the items of an average order: Σ share × items.
func (p *Plan) PerOrder() quoin.Factor { return p.perOrder }

// Home returns the price of one unit of the currency that buyers pay in, in the shop's
// currency. It is 1 if both are the same.
func (p *Plan) Home() quoin.Factor { return p.home }

// proceeds follows Terms.Proceeds; false where a number does not fit.
func (p *Plan) proceeds(list quoin.Amount) (Proceeds, bool) {
	n, ok := list.Units(p.list)
	if !ok || n < 0 {
		return Proceeds{}, false
	}
	if p.bare != nil {
		return p.withApart(uint64(n))
	}
	sum, ok := p.Sums(uint64(n))
	if !ok {
		return Proceeds{}, false
	}
	return p.items(sum, quoin.Amount{}), true
}

// withApart is proceeds where some fees are no whole numbers.
func (p *Plan) withApart(list uint64) (Proceeds, bool) {
	var sum Sums
	var u Units
	apart := p.standing
	for i := range p.kinds {
		k := &p.kinds[i]
		if !p.bare.SettleInto(&u, i, list) || !sum.weigh(&u, k) || u.Items > p.apartUpTo {
			return Proceeds{}, false
		}
		onTop := u.Tax
		if p.inPrice {
			onTop = 0
		}
		for j := range k.apart {
			fee, ok := k.apart[j].of(k, &u, onTop)
			if !ok {
				return Proceeds{}, false
			}
			apart = apart.Add(fee)
		}
	}
	return p.items(sum, apart), true
}

// items is what sums over kinds of order, and fees beside them, are for an item.
func (p *Plan) items(sum Sums, apart quoin.Amount) Proceeds {
	places, feePlaces := p.SumPlaces()
	fees := quoin.AmountOf(int64(sum.Fees), feePlaces)
	if p.bare != nil {
		fees = fees.Add(apart)
	}
	return Proceeds{p.item(quoin.AmountOf(int64(sum.Revenue), places)), p.item(quoin.AmountOf(int64(sum.Tax), places)), p.item(fees), p.sent}
}

// item is what a sum over kinds of order is for an item, in the shop's currency.
func (p *Plan) item(sum quoin.Amount) quoin.Amount {
	if p.abroad {
		sum = sum.Times(p.home)
	}
	return sum.Over(p.perOrder).WithPlaces(p.list)
}

// weigh adds an order of kind k × its share, false where that is beyond 63 bits.
func (s *Sums) weigh(u *Units, k *plannedKind) bool {
	return weigh(&s.Revenue, u.Revenue, k.share) && weigh(&s.Tax, u.Tax, k.share) && weigh(&s.Fees, u.Fees, k.feeShare)
}

// weigh adds x × share, false where that is beyond 63 bits.
func weigh(sum *uint64, x, share uint64) bool {
	part, ok := times(x, share)
	total, fits := add(*sum, part)
	*sum = total
	return ok && fits && total <= math.MaxInt64
}

// Settle settles one order of kind i at a list price in minor units of the shop's currency. It
// returns false if a number does not fit in 64 bits or a fee is not a whole number; then use
// Terms.Settle. It panics if there is no kind i.
func (p *Plan) Settle(i int, list uint64) (u Units, ok bool) {
	ok = p.SettleInto(&u, i, list)
	return u, ok
}

// SettleInto is Settle into units that the caller has. It does not copy them, which takes as long
// as settling a plain order. If it returns false, u has no meaning.
func (p *Plan) SettleInto(u *Units, i int, list uint64) (ok bool) {
	k := p.kind(i)
	if list < k.plain.below {
		k.plain.settle(u, list)
		return true
	}
	return p.settle(u, k, list)
}

// settle is SettleInto for a kind of order, whatever it is.
func (p *Plan) settle(u *Units, k *plannedKind, list uint64) (ok bool) {
	var fine bool
	if p.points == nil {
		u.Unit, ok = k.keep.of(list, quoin.HalfUp)
	} else {
		u.Unit, ok = p.points.nearest(k.keep, list)
	}
	u.Items, fine = k.take.of(u.Unit, quoin.HalfUp)
	ok = ok && fine
	tested := u.Items
	if len(k.offers) > 0 {
		u.Items, fine = k.left(u.Items, len(k.offers))
		ok = ok && fine
		if !k.before {
			tested = u.Items
		}
	}
	if u.Shipping = k.shipping; k.isFree && tested >= k.free {
		u.Shipping = 0
	}
	u.Taxable, u.Tax = u.Items, 0
	if k.onShipping {
		u.Taxable += u.Shipping
	}
	if k.tax.n > 0 {
		if k.taxed.plain {
			u.Tax, fine = k.tax.of(u.Taxable, quoin.HalfUp)
		} else {
			u.Tax, fine = k.taxes(u.Items, u.Taxable-u.Items)
		}
		ok = ok && fine
	}
	u.Revenue = u.Items + u.Shipping
	onTop := u.Tax
	if p.inPrice {
		u.Revenue -= u.Tax
		onTop = 0
	}
	ok = ok && u.Items <= mostUnits && !k.isApart
	u.Fees = k.standing
	for j := range k.fees {
		total, fine := k.fees[j].total(u.Items, u.Shipping, onTop)
		ok = ok && fine && total <= mostFees-u.Fees
		u.Fees += total
	}
	for j := range k.wider {
		total, fine := k.wider[j].total(k, u, onTop)
		ok = ok && fine && total <= mostFees-u.Fees
		u.Fees += total
	}
	return ok
}

// mostFees keeps sums of fees within 63 bits.
const mostFees = math.MaxInt64

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
	case quoin.HalfDown:
		up = rest > d-rest
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

// split returns x × n ÷ d as a whole number and the rest, false where it is beyond
// 64 bits.
func (r ratio) split(x uint64) (q, rest uint64, ok bool) {
	hi, lo := bits.Mul64(x, r.n)
	if hi >= r.d.by {
		return 0, 0, false
	}
	q, rest = bits.Div64(hi, lo, r.d.by)
	return q, rest, true
}
