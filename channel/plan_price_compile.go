package channel

import (
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// keep is what a list price is × before it is rounded to a unit price: from minor
// units of the shop's currency to those that buyers pay in, or to steps of a tag.
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
	if c.plan.tag != nil && c.plan.tag.step > 0 {
		r = new(big.Rat).Quo(r, new(big.Rat).SetInt(new(big.Int).SetUint64(c.plan.tag.step)))
		// Steps are rounded from a quotient of twelve places.
		c.failed = c.failed || r.Denom().Cmp(ten(11)) >= 0
	}
	return c.ratio(r)
}

// tag compiles which prices can be asked.
func (c *planner) tag() {
	g := c.terms.tag
	if g == nil {
		return
	}
	c.plan.tag = &plannedPricePoints{}
	if len(g.EndsIn) == 0 {
		c.plan.tag.step = max(c.units(g.Step), 1)
		c.failed = c.failed || g.Step.Sign() <= 0
		return
	}
	modulus := c.units(g.modulus())
	for _, e := range g.EndsIn {
		c.plan.tag.ends = append(c.plan.tag.ends, c.units(e))
	}
	slices.Sort(c.plan.tag.ends)
	c.failed = c.failed || slices.Max(c.plan.tag.ends) >= modulus
	c.plan.tag.modulus = divisorOf(max(modulus, 1))
}

// offer compiles what promo.Offer.OnOne takes off so many items.
func (c *planner) offer(o *promo.Offer, count int64) plannedOffer {
	p := plannedOffer{from: c.ceil(c.minor(o.From)), before: o.Test == promo.Before}
	sale, isSale := o.Sale.Get()
	switch {
	case !o.Rate.IsZero():
		p.part = c.ratio(c.rational(o.Rate.Factor()))
	case !o.Amount.IsZero():
		p.amount = c.units(o.Amount.Round(c.terms.places, quoin.HalfUp))
	case o.Buy != 0 || o.Free != 0:
		part := big.NewRat(o.FreeOf(count), count)
		c.cautious(part)
		p.part = c.ratio(part)
	case o.Price.IsZero() && isSale: // a set takes nothing off one line
		// A tie goes down: what is left of a whole number less the price, rounded half up, is
		// that number less this.
		sold := c.minor(sale.Times(quoin.FactorOf(count)))
		p.isSale, p.sold = true, c.ceil(sold.Sub(sold, big.NewRat(1, 2)))
	}
	return p
}
