package channel

import (
	"math"
	"math/big"
	"slices"

	"example.com/quoin"
)

// plan compiles terms to whole numbers; nil where they have what a Plan has not:
// fees of the net price, over many orders, only expected or in part given back,
// promotions by code, tags, other currencies, a net price that stays, amounts finer
// than money, or numbers beyond 64 bits.
func (t Terms) plan() *Plan {
	if t.abroad || t.tag != nil || t.places > 4 {
		return nil
	}
	c := planner{terms: t, plan: &Plan{inPrice: t.inPrice, places: t.places, perOrder: t.perOrder, sent: t.sent}}
	c.widths()
	for i := range t.kinds {
		c.kind(&t.kinds[i])
	}
	if c.failed {
		return nil
	}
	return c.plan
}

// planner compiles; failed says that something does not fit.
type planner struct {
	terms  Terms
	plan   *Plan
	failed bool
}

// widths finds how many places the shares of kinds take, and of fees beside them.
func (c *planner) widths() {
	for i := range c.terms.kinds {
		k := &c.terms.kinds[i]
		c.plan.width = max(c.plan.width, k.share.Places())
		places, any := c.feePlaces(k)
		c.plan.feeWidth = max(c.plan.feeWidth, places+k.share.Places())
		if any {
			c.plan.feeMoney = c.terms.places
		}
	}
}

// feePlaces is how many places the shares of a kind's fees take, and whether it
// has any.
func (c *planner) feePlaces(k *kind) (places int, any bool) {
	for j := range c.terms.levies {
		if l := &c.terms.levies[j]; l.on(k) {
			places, any = max(places, l.Share.Or(whole).Factor().Places()), true
		}
	}
	return places, any
}

func (c *planner) kind(k *kind) {
	if len(k.offers) > 0 || k.exotic {
		c.failed = true
		return
	}
	places, _ := c.feePlaces(k)
	p := plannedKind{
		keep: c.ratio(k.keep.Rat()), take: c.ratio(k.take.Rat()), onShipping: k.onShipping, shipping: c.units(k.Shipping),
		plainUpTo: math.MaxUint64, share: c.scaled(k.share.Rat(), c.plan.width), feeShare: c.scaled(k.share.Rat(), c.plan.feeWidth-places), feePlaces: places,
	}
	tax := k.tax.Rat()
	if c.terms.inPrice {
		tax = new(big.Rat).Quo(tax, new(big.Rat).Add(big.NewRat(1, 1), tax))
	}
	p.tax = c.ratio(tax)
	if p.tax.d.by >= mostDenominator {
		c.failed = true // where a tie could hide behind twelve places
	}
	if from, given := k.FreeFrom.Get(); given {
		p.free, p.isFree = c.ceil(from), true
	}
	for j := range c.terms.levies {
		if l := &c.terms.levies[j]; l.on(k) {
			f := c.fee(l, k.ItemsOr1(), places)
			if c.failed {
				return
			}
			p.with(f)
		}
	}
	c.plan.kinds = append(c.plan.kinds, p)
}

// with adds a fee to the plain ones, or to the others.
func (p *plannedKind) with(f plannedFee) {
	plain := f.items && !f.shipping && !f.tax && len(f.tiers) == 0 && !f.hasMost && f.least == 0 && f.own.n == 0 && f.rounding == quoin.HalfUp
	if !plain || f.share == 0 {
		p.fees = append(p.fees, f)
		return
	}
	one := plainFee{rate: f.rate, plus: f.fixed + f.one.by/2, one: f.one, share: f.share}
	p.plain = append(p.plain, one)
	// Neither the sum before dividing nor the charges of a hundred fees × share go
	// beyond 64 bits.
	p.plainUpTo = min(p.plainUpTo, (math.MaxInt64-one.plus)/max(f.rate, 1), mostUnits/max(f.share, 1)/256)
	if one.plus/f.one.by > mostUnits/f.share/256 {
		p.plainUpTo = 0
	}
}

// mostDenominator keeps what is no tie further from one than twelve places of a
// quotient can tell.
const mostDenominator = 1_000_000_000

func (c *planner) fee(l *levy, count int64, places int) plannedFee {
	f := &l.Fee
	if f.Net || f.Expected || !f.Over.IsZero() || !l.stays.IsZero() {
		c.failed = true
		return plannedFee{}
	}
	p := plannedFee{rounding: f.Rounding, own: c.ratio(f.Tax.Rat()), share: c.scaled(f.Share.Or(whole).Rat(), places)}
	c.base(&p, f)
	most, hasMost := f.AtMost.Get()
	fixed := f.fixed(count)
	money := []*big.Rat{c.minor(fixed), c.minor(f.AtLeast), c.minor(most)}
	from, narrow := c.places(c.froms(f))
	rates, wide := c.places(c.rates(f))
	sums, deep := c.places(money)
	if !from || !rates || !sums {
		c.failed = true
		return p
	}
	scale := max(narrow+wide, deep)
	p.one, p.widen = divisorOf(c.power(scale)), c.power(narrow)
	p.rate = c.scaled(f.Rate.Rat(), scale)
	p.fixed, p.least, p.most, p.hasMost = c.scaled(money[0], scale), c.scaled(money[1], scale), c.scaled(money[2], scale), hasMost
	c.tiers(&p, f, narrow, scale)
	return p
}

// base says which parts the fee is taken of.
func (c *planner) base(p *plannedFee, f *Fee) {
	p.items = len(f.Of) == 0
	for i, part := range f.Of {
		c.failed = c.failed || slices.Contains(f.Of[:i], part) // which counts twice
		switch part {
		case Items:
			p.items = true
		case Shipping:
			p.shipping = true
		case SalesTax:
			p.tax = true
		default:
			c.failed = true
		}
	}
}

// tiers gives each tier the sum of those below it.
func (c *planner) tiers(p *plannedFee, f *Fee, narrow, scale int) {
	below := new(big.Rat)
	for i, t := range f.Tiers {
		from, rate := c.minor(t.From), t.Rate.Rat()
		if f.TierMode == Whole {
			below = new(big.Rat).Mul(from, rate)
		} else if i > 0 {
			last := f.Tiers[i-1]
			slice := new(big.Rat).Sub(from, c.minor(last.From))
			below = new(big.Rat).Add(below, slice.Mul(slice, last.Rate.Rat()))
		}
		p.tiers = append(p.tiers, plannedTier{c.scaled(from, narrow), c.scaled(rate, scale-narrow), c.scaled(below, scale)})
	}
}

func (c *planner) froms(f *Fee) []*big.Rat {
	var out []*big.Rat
	for _, t := range f.Tiers {
		out = append(out, c.minor(t.From))
	}
	return out
}

func (c *planner) rates(f *Fee) []*big.Rat {
	out := []*big.Rat{f.Rate.Rat()}
	for _, t := range f.Tiers {
		out = append(out, t.Rate.Rat())
	}
	return out
}

// minor is an amount in minor units.
func (c *planner) minor(a quoin.Amount) *big.Rat {
	return new(big.Rat).Mul(a.Rat(), new(big.Rat).SetInt(ten(c.terms.places)))
}

// units is an amount that is whole minor units and written with no more places.
func (c *planner) units(a quoin.Amount) uint64 {
	n, ok := a.Units(c.terms.places)
	if !ok || n < 0 || n > mostUnits || a.Places() > c.terms.places {
		c.failed = true
		return 0
	}
	return uint64(n)
}

// ceil is an amount in minor units, rounded up.
func (c *planner) ceil(a quoin.Amount) uint64 {
	n := c.minor(a)
	q, rest := new(big.Int).QuoRem(n.Num(), n.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return c.fits(q)
}

func (c *planner) ratio(r *big.Rat) ratio {
	return ratio{c.fits(r.Num()), divisorOf(max(c.fits(r.Denom()), 1))}
}

// scaled is r × 10^places, which is to be whole.
func (c *planner) scaled(r *big.Rat, places int) uint64 {
	n := new(big.Rat).Mul(r, new(big.Rat).SetInt(ten(places)))
	if !n.IsInt() {
		c.failed = true
		return 0
	}
	return c.fits(n.Num())
}

func (c *planner) power(places int) uint64 { return c.fits(ten(places)) }

func (c *planner) fits(n *big.Int) uint64 {
	if n.Sign() < 0 || !n.IsUint64() || n.Uint64() > mostUnits {
		c.failed = true
		return 1
	}
	return n.Uint64()
}

// places is how many make all of the numbers whole; false where more than 17 do.
func (c *planner) places(numbers []*big.Rat) (bool, int) {
	for p := range 18 {
		one := new(big.Rat).SetInt(ten(p))
		all := true
		for _, r := range numbers {
			all = all && new(big.Rat).Mul(r, one).IsInt()
		}
		if all {
			return true, p
		}
	}
	return false, 0
}

func ten(places int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
}
