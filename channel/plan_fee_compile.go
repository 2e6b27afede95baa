package channel

import (
	"math/big"
	"slices"

	"example.com/quoin"
)

// plannedShare is a fee in whole numbers and what one of them counts in minor units.
type plannedShare struct {
	fee widerFee
	by  *big.Rat
}

// fees compiles the fees of a kind of order.
func (c *planner) fees(p *plannedKind, k *kind) {
	var shares []plannedShare
	standing := new(big.Rat)
	for j := range c.terms.compiledFees {
		l := &c.terms.compiledFees[j]
		if c.failed || !l.on(k) {
			continue
		}
		if l.stands() {
			standing.Add(standing, c.stands(p, k, l))
			continue
		}
		c.charged(p, k, l, &shares)
	}
	if c.failed {
		return
	}
	p.feePlaces = c.decimals(standing)
	for _, s := range shares {
		p.feePlaces = max(p.feePlaces, c.decimals(s.by))
	}
	p.standing = c.scaled(standing, p.feePlaces)
	for _, s := range shares {
		s.fee.share = c.scaled(s.by, p.feePlaces)
		if !c.failed {
			p.with(s.fee)
		}
	}
}

// stands reports whether the fee is the same at any price.
func (l *compiledFee) stands() bool { return l.Rate.IsZero() && len(l.Tiers) == 0 }

// stands puts a fee that is the same at any price in its place, and returns it where
// it is a short decimal.
func (c *planner) stands(p *plannedKind, k *kind, l *compiledFee) *big.Rat {
	e := c.terms.order(k)
	_, fee := e.fee(l, quoin.Path{}, &paid{}, e.count())
	total := fee.Total
	if n, ok := total.Units(total.Places()); ok && n >= 0 && total.Places() <= 12 {
		return c.minor(total)
	}
	p.isApart = true
	c.plan.standing = c.plan.standing.Add(total.Times(k.share))
	return new(big.Rat)
}

// charged compiles a fee that moves with the price: in whole numbers, or apart.
func (c *planner) charged(p *plannedKind, k *kind, l *compiledFee, shares *[]plannedShare) {
	f := &l.Fee
	c.failed = c.failed || f.OrdersTogether.Sign() < 0 || isCut(f.OrdersTogether)
	fee := widerFee{plannedFee: plannedFee{rounding: f.Rounding}, net: f.WithoutTax && c.terms.inPrice && !k.tax.IsZero(), expected: f.Expected, owes: l.owed(k)}
	c.base(&fee, f)
	weight := f.Share.Or(whole).Factor().Times(l.stays.Or(quoin.FactorOf(1)))
	if f.Expected && isCut(f.Rate.Factor()) {
		c.byQuotient(p, k, fee, f, weight)
		return
	}
	c.sums(&fee.plannedFee, f, k.ItemsOr1())
	by := new(big.Rat).Quo(weight.Rat(), over(f))
	if f.Expected {
		by.Mul(by, f.Tax.OnePlus().Rat()).Quo(by, new(big.Rat).SetInt(new(big.Int).SetUint64(fee.one.by)))
	}
	_, short := decimals(by)
	if short && f.evenly() && !isCut(weight) {
		*shares = append(*shares, plannedShare{fee, by})
		return
	}
	// What an order bears of it is no short decimal.
	a := decimalFee{fee: fee, places: c.terms.places, inner: quoin.FactorOf(1), weight: weight.Times(k.share), over: f.OrdersTogether}
	if f.Expected {
		a.places += c.decimals(big.NewRat(1, int64(fee.one.by)))
		a.inner = f.Tax.OnePlus()
	}
	p.apart, p.isApart = append(p.apart, a), true
}

// evenly reports whether what one order bears of any sum of 64 bits comes out even
// in the digits of a quotient.
func (f *Fee) evenly() bool {
	part := over(f)
	part.Inv(part)
	if f.Expected {
		part.Mul(part, f.Tax.OnePlus().Rat())
	}
	places, ok := decimals(part)
	digits := part.Mul(part, new(big.Rat).SetInt(ten(places)))
	return f.OrdersTogether.IsZero() || ok && digits.Num().Cmp(ten(14)) < 0
}

// over is how many orders are charged together.
func over(f *Fee) *big.Rat {
	if f.OrdersTogether.IsZero() {
		return big.NewRat(1, 1)
	}
	return f.OrdersTogether.Rat()
}

// byQuotient compiles a fee only expected whose rate is a quotient, such as the
// interest for some days of a year.
func (c *planner) byQuotient(p *plannedKind, k *kind, fee widerFee, f *Fee, weight quoin.Factor) {
	_, bounded := f.AtMost.Get()
	if bounded || !f.AtLeast.IsZero() || len(f.Tiers) > 0 || !f.Fixed.IsZero() {
		c.failed = true
		return
	}
	inner := f.Rate.Factor().Times(f.Tax.OnePlus())
	if !f.OrdersTogether.IsZero() {
		inner = inner.Times(f.OrdersTogether)
	}
	fee.rate, fee.one = 1, divisorOf(1)
	p.apart, p.isApart = append(p.apart, decimalFee{fee, c.terms.places, inner, weight.Times(k.share), f.OrdersTogether}), true
}

// base says which parts the fee is taken of.
func (c *planner) base(p *widerFee, f *Fee) {
	for i, part := range f.parts() {
		c.failed = c.failed || slices.Contains(f.parts()[:i], part) // which counts twice
		switch part {
		case Shipping:
			p.shipping = true
		case SalesTax:
			p.tax = true
		case Discount:
			p.discount = true
		case Surcharged: // there is none in a plan
		case unreduced:
			p.instead = true
		default:
			c.failed = c.failed || p.items
			p.items = true
		}
	}
}

// sums compiles what the fee computes and its bounds, at a scale at which all of it
// is whole.
func (c *planner) sums(p *plannedFee, f *Fee, count int64) {
	most, hasMost := f.AtMost.Get()
	rate := new(big.Rat).Mul(c.rational(f.Rate.Factor()), over(f))
	sums := []*big.Rat{rate, c.minor(f.each(f.Fixed, quoin.FactorOf(count))), c.minor(f.AtLeast), c.minor(most)}
	narrow := big.NewInt(1)
	if len(f.Tiers) > 0 {
		froms, rates, fixed := c.ofTiers(f, count)
		narrow = c.scale(append(froms, over(f))...)
		for _, r := range rates { // of a base that is counted in 1 ÷ narrow
			sums = append(sums, new(big.Rat).Quo(r, new(big.Rat).SetInt(narrow)))
		}
		sums = append(sums, fixed...)
	}
	one := c.scale(sums...)
	p.one, p.own, p.hasMost = divisorOf(max(c.fits(one), 1)), c.ratio(c.rational(f.Tax.Factor())), hasMost
	for i, to := range []*uint64{&p.rate, &p.fixed, &p.least, &p.most} {
		*to = c.times(sums[i], one)
	}
	if len(f.Tiers) > 0 {
		p.widen = c.times(over(f), narrow)
		c.tiers(p, f, count, narrow, one)
	}
}

// tiers gives each tier what the fee comes to where it begins.
func (c *planner) tiers(p *plannedFee, f *Fee, count int64, narrow, one *big.Int) {
	var starts big.Rat
	froms, rates, fixed := c.ofTiers(f, count)
	scale := new(big.Rat).SetFrac(one, narrow)
	for i := range f.Tiers {
		if f.TierMode == Whole {
			starts.Mul(froms[i], rates[i])
		} else if i > 0 {
			slice := new(big.Rat).Sub(froms[i], froms[i-1])
			starts.Add(&starts, slice.Mul(slice, rates[i-1]))
		}
		starts.Add(&starts, fixed[i])
		p.tiers = append(p.tiers, plannedTier{c.times(froms[i], narrow), c.whole(new(big.Rat).Mul(rates[i], scale)), c.times(&starts, one)})
	}
}

// ofTiers is where the tiers begin, their rates and their fixed amounts.
func (c *planner) ofTiers(f *Fee, count int64) (froms, rates, fixed []*big.Rat) {
	for _, t := range f.Tiers {
		froms = append(froms, c.minor(f.each(t.From, quoin.FactorOf(count))))
		rates = append(rates, c.rational(t.Rate.Factor()))
		fixed = append(fixed, c.minor(f.each(t.Fixed, quoin.FactorOf(count))))
	}
	return froms, rates, fixed
}

// scale is what makes fractions whole: a power of ten where one does.
func (c *planner) scale(fractions ...*big.Rat) *big.Int {
	all := big.NewInt(1)
	for _, r := range fractions {
		shared := new(big.Int).GCD(nil, nil, all, r.Denom())
		all.Mul(all, new(big.Int).Quo(r.Denom(), shared))
	}
	if places, ok := decimals(new(big.Rat).SetFrac(big.NewInt(1), all)); ok {
		return ten(places)
	}
	c.cautious(new(big.Rat).SetFrac(big.NewInt(1), all))
	return all
}

// with adds a fee to the wider ones, or to the others.
func (k *plannedKind) with(f widerFee) {
	if f.net || f.discount || f.instead || f.expected || f.owes {
		k.wider = append(k.wider, f)
		return
	}
	k.fees = append(k.fees, f.plannedFee)
}
