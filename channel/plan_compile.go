package channel

import (
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// plan compiles terms to whole numbers; nil where they have what a Plan has not:
// shipping finer than money, other items or a surcharge in an order, a part that a fee takes twice, or numbers beyond 64 bits.
func (t Terms) plan() *Plan {
	if t.places > mostPlaces || t.list > mostPlaces {
		return nil
	}
	c := planner{terms: t, plan: &Plan{
		inPrice: t.inPrice, list: t.list, places: t.places, home: t.home, abroad: t.abroad, perOrder: t.perOrder, sent: t.sent,
	}}
	c.pricePoints()
	for i := range t.kinds {
		if t.kinds[i].Others != nil || t.kinds[i].Surcharge != nil {
			return nil
		}
		c.kind(&t.kinds[i])
	}
	c.widths()
	if c.failed {
		return nil
	}
	c.plan.setPlain()
	c.setApart()
	return c.plan
}

// mostPlaces is how many places money may have.
const mostPlaces = 4

// planner compiles; failed says that something does not fit.
type planner struct {
	terms  Terms
	plan   *Plan
	failed bool
}

// widths finds how many places the shares of kinds take, and of fees beside them.
func (c *planner) widths() {
	p := c.plan
	for i := range c.terms.kinds {
		share := c.terms.kinds[i].share.Rat()
		p.width = max(p.width, c.decimals(share))
		if c.failed {
			return
		}
		p.feeWidth = max(p.feeWidth, p.kinds[i].feePlaces+c.decimals(share))
	}
	for i := range p.kinds {
		k, share := &p.kinds[i], c.terms.kinds[i].share.Rat()
		k.share, k.feeShare = c.scaled(share, p.width), c.scaled(share, p.feeWidth-k.feePlaces)
	}
}

// setApart makes the plan without the fees that are no whole numbers.
func (c *planner) setApart() {
	if !slices.ContainsFunc(c.plan.kinds, func(k plannedKind) bool { return k.isApart }) {
		return
	}
	bare := *c.plan
	bare.kinds = slices.Clone(bare.kinds)
	for i := range bare.kinds {
		bare.kinds[i].isApart = false
	}
	bare.setPlain()
	c.plan.bare, c.plan.apartUpTo = &bare, ten(5+c.terms.places).Uint64()
}

func (c *planner) kind(k *kind) {
	if c.failed {
		return
	}
	p := plannedKind{
		keep: c.keep(k.keep), take: c.ratio(c.rational(k.take)), onShipping: k.onShipping, shipping: c.units(k.Shipping),
		count: uint64(k.ItemsOr1()), before: k.FreeTest == promo.Before, given: k.given(),
	}
	c.tax(&p, k)
	if from, given := k.FreeFrom.Get(); given {
		p.free, p.isFree = c.ceil(c.minor(from)), true
	}
	for i := range k.offers {
		p.offers = append(p.offers, c.offer(&k.offers[i].Offer, k.ItemsOr1()))
	}
	c.fees(&p, k)
	c.plan.kinds = append(c.plan.kinds, p)
}

// rational is a factor as a fraction: one that went through a quotient that had to
// be cut, the one with a small denominator that it stands for.
func (c *planner) rational(f quoin.Factor) *big.Rat {
	if isCut(f) {
		r := c.near(f.Rat())
		c.cautious(r)
		return r
	}
	return f.Rat()
}

// isCut reports whether a factor went through a quotient that had to be cut.
func isCut(f quoin.Factor) bool {
	a := quoin.AmountOf(1, 0).Times(f)
	if a.Places() > 12 {
		return a.Snap().Places() < a.Places()
	}
	_, ok := a.Units(a.Places())
	return !ok
}

// near finds the fraction with a denominator below mostDenominator that a number of
// 34 digits stands for, by its continued fraction.
func (c *planner) near(r *big.Rat) *big.Rat {
	room := new(big.Rat).Mul(r, new(big.Rat).SetFrac(big.NewInt(1), ten(32)))
	x, y := new(big.Int).Set(r.Num()), new(big.Int).Set(r.Denom())
	p0, q0, p1, q1 := big.NewInt(0), big.NewInt(1), big.NewInt(1), big.NewInt(0)
	for y.Sign() > 0 {
		a, rest := new(big.Int).QuoRem(x, y, new(big.Int))
		p0, p1 = p1, new(big.Int).Add(new(big.Int).Mul(a, p1), p0)
		q0, q1 = q1, new(big.Int).Add(new(big.Int).Mul(a, q1), q0)
		if q1.Cmp(c.mostDenominator()) >= 0 {
			break
		}
		out := new(big.Rat).SetFrac(p1, q1)
		off := new(big.Rat).Sub(r, out)
		if off.Abs(off).Cmp(room) <= 0 {
			return out
		}
		x, y = y, rest
	}
	c.failed = true
	return new(big.Rat)
}

// mostDenominator keeps what is no tie further from one than twelve places of a
// quotient can tell, in minor units.
func (c *planner) mostDenominator() *big.Int { return ten(11 - c.terms.places) }

// cautious turns away a fraction of a quotient in which a tie could hide.
func (c *planner) cautious(r *big.Rat) {
	if r.Denom().Cmp(c.mostDenominator()) >= 0 {
		c.failed = true
	}
}

// minor is an amount in minor units.
func (c *planner) minor(a quoin.Amount) *big.Rat {
	return new(big.Rat).Mul(a.Rat(), new(big.Rat).SetInt(ten(c.terms.places)))
}

// units is an amount that is whole minor units.
func (c *planner) units(a quoin.Amount) uint64 {
	n, ok := a.Units(c.terms.places)
	if !ok || n < 0 || n > mostUnits {
		c.failed = true
		return 1
	}
	return uint64(n)
}

// ceil is a fraction rounded up to a whole number.
func (c *planner) ceil(n *big.Rat) uint64 {
	return c.fits(new(big.Int).Neg(new(big.Int).Div(new(big.Int).Neg(n.Num()), n.Denom())))
}

func (c *planner) ratio(r *big.Rat) ratio {
	return ratio{c.fits(r.Num()), divisorOf(max(c.fits(r.Denom()), 1))}
}

// scaled is r × 10^places, which is to be whole.
func (c *planner) scaled(r *big.Rat, places int) uint64 { return c.times(r, ten(places)) }

// times is r × n, which is to be whole.
func (c *planner) times(r *big.Rat, n *big.Int) uint64 {
	return c.whole(new(big.Rat).Mul(r, new(big.Rat).SetInt(n)))
}

func (c *planner) whole(r *big.Rat) uint64 {
	if !r.IsInt() {
		c.failed = true
		return 0
	}
	return c.fits(r.Num())
}

func (c *planner) fits(n *big.Int) uint64 {
	if n.Sign() < 0 || !n.IsUint64() || n.Uint64() > mostUnits {
		c.failed = true
		return 1
	}
	return n.Uint64()
}

// decimals is how many places a fraction has as a decimal.
func (c *planner) decimals(r *big.Rat) int {
	places, ok := decimals(r)
	c.failed = c.failed || !ok
	return places
}

// decimals is how many places a fraction has as a decimal; false for more than 17.
func decimals(r *big.Rat) (int, bool) {
	one := big.NewInt(1)
	for p := range 18 {
		if new(big.Int).Rem(one, r.Denom()).Sign() == 0 {
			return p, true
		}
		one.Mul(one, big.NewInt(10))
	}
	return 0, false
}

func ten(places int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
}

// keep is what a list price is × before it is rounded to a unit price: from minor
// units of the shop's currency to those that buyers pay in, or to steps of price points.
func (c *planner) keep(f quoin.Factor) ratio {
	r := c.rational(f)
	if shift := c.terms.places - c.terms.list; shift >= 0 {
		r = new(big.Rat).Mul(r, new(big.Rat).SetInt(ten(shift)))
	} else {
		r = new(big.Rat).Quo(r, new(big.Rat).SetInt(ten(-shift)))
	}
	if isCut(f) {
		c.cautious(r)
	}
	if c.plan.points != nil && c.plan.points.step > 0 {
		r = new(big.Rat).Quo(r, new(big.Rat).SetInt(new(big.Int).SetUint64(c.plan.points.step)))
		// Steps are rounded from a quotient of twelve places.
		c.failed = c.failed || r.Denom().Cmp(ten(11)) >= 0
	}
	return c.ratio(r)
}

// pricePoints compiles which prices can be asked.
func (c *planner) pricePoints() {
	g := c.terms.points
	if g == nil {
		return
	}
	c.plan.points = &plannedPricePoints{}
	if len(g.EndsIn) == 0 {
		c.plan.points.step = max(c.units(g.Step), 1)
		c.failed = c.failed || g.Step.Sign() <= 0
		return
	}
	modulus := c.units(g.modulus())
	for _, e := range g.EndsIn {
		c.plan.points.ends = append(c.plan.points.ends, c.units(e))
	}
	slices.Sort(c.plan.points.ends)
	c.failed = c.failed || slices.Max(c.plan.points.ends) >= modulus
	c.plan.points.modulus = divisorOf(max(modulus, 1))
}

// offer compiles what promo.Offer.OnOne takes off so many items.
func (c *planner) offer(o *promo.Offer, count int64) plannedOffer {
	p := plannedOffer{from: c.ceil(c.minor(o.From)), before: o.Test == promo.Before, rounding: o.Rounding}
	sale, isSale := o.Sale.Get()
	switch {
	case !o.Rate.IsZero():
		p.part = c.ratio(c.rational(o.Rate.Factor()))
	case !o.Amount.IsZero():
		p.amount = c.units(o.Amount.Round(c.terms.places, o.Rounding))
	case o.Buy != 0 || o.Free != 0:
		part := big.NewRat(o.FreeOf(count), count)
		c.cautious(part)
		p.part = c.ratio(part)
	case o.Price.IsZero() && isSale: // a set takes nothing off one line
		// A tie goes down: what is left of a whole number less the price, rounded half up, is
		// that number less this.
		sold := c.minor(sale.Times(quoin.FactorOf(count)))
		c.failed = c.failed || o.Rounding != quoin.HalfUp && !sold.IsInt()
		p.isSale, p.sold = true, c.ceil(sold.Sub(sold, big.NewRat(1, 2)))
	}
	return p
}
