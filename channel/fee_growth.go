package channel

import (
	"slices"

	"example.com/quoin"
)

// TakesEverything reports whether fees and tax take all of each further unit of price, or more,
// in every kind of order: of a class of tax, if products have some. Then no price can earn anything. Fees with a maximum are not counted,
// because they stop growing. Of tiers the lowest rate counts, 0 for a tier without a rate. What
// promotions take off is ignored.
func (c Channel) TakesEverything() bool {
	if c.OnDemand != nil && c.OnDemand.Pays == FlatFee {
		return false // it earns, though never more
	}
	classes := c.TaxClasses()
	if c.TaxClass != "" || len(classes) == 0 {
		return c.takesEverything()
	}
	return slices.ContainsFunc(classes, func(class string) bool { return c.TaxedAs(class).takesEverything() })
}

func (c Channel) takesEverything() bool {
	kinds := c.kinds(0)
	compiledFees := c.compiledFees(kinds, 0)
	return !slices.ContainsFunc(kinds, func(k kind) bool { return c.leftOf(&k, compiledFees).Sign() > 0 })
}

// Breaks returns the most prices at which the channel's terms can change their form, over all
// kinds of order.
func (c Channel) Breaks() int {
	each := 1
	for _, f := range c.Fees {
		each += len(f.Tiers)
		if !f.AtLeast.IsZero() {
			each++
		}
		if !f.AtMost.IsZero() {
			each++
		}
	}
	sum := 0
	for _, k := range c.kinds(0) {
		parts := 1
		for _, o := range k.offers {
			parts = min(o.parts()*parts, mostParts)
		}
		if k.Others != nil {
			parts *= 3 // where own items would bear less than nothing of a fee, or more than all
		}
		if k.mixed {
			parts *= c.mostMixedRuns(&k)
		}
		sum += parts * each
	}
	return sum
}

// mostParts is where counting parts ends.
const mostParts = 1_000_000

// parts is into how many parts a code can break a part of the prices.
func (o kindOffer) parts() int {
	n := 1
	if o.From.Sign() > 0 {
		n++
	}
	if !o.Amount.IsZero() {
		n++
	}
	if !o.Sale.IsZero() {
		n += 2
	}
	return n
}

// leftOf returns what is left of one more unit of items, after tax and fees.
func (c Channel) leftOf(k *kind, compiledFees []compiledFee) quoin.Factor {
	kept, of := quoin.FactorOf(1), growing{onTop: k.tax.Factor()}
	if c.Tax.InPrice {
		kept, of = kept.Over(k.tax.OnePlus()), growing{within: k.within}
	}
	if k.Surcharge != nil {
		of.surcharge = of.onTop.Add(quoin.FactorOf(1)).Times(k.Surcharge.Rate.Factor())
		tax := of.surcharge.Times(k.surchargeTax)
		if kept = kept.Add(of.surcharge); c.Tax.InPrice {
			kept, of.inSurcharge = kept.Sub(tax), tax
		} else {
			of.onTop = of.onTop.Add(tax)
		}
	}
	for i := range compiledFees {
		if l := &compiledFees[i]; l.on(k) {
			kept = kept.Sub(l.growth(of))
		}
	}
	return kept
}

// growing is what grows with each unit of items, by how much: tax on top, the surcharge and the
// tax in it; and the share of items that is tax in them.
type growing struct{ onTop, within, surcharge, inSurcharge quoin.Factor }

// growth is the least the fee grows by with each unit of items.
func (l *compiledFee) growth(of growing) quoin.Factor {
	f := &l.Fee
	if _, capped := f.AtMost.Get(); capped {
		return quoin.Factor{}
	}
	rate := f.Rate
	if len(f.Tiers) > 0 {
		rate = slices.MinFunc(f.Tiers, func(a, b Tier) int { return a.Rate.Cmp(b.Rate) }).Rate
	}
	var base, surcharge quoin.Factor
	for _, part := range f.parts() {
		switch part {
		case Items, unreduced:
			base = base.Add(quoin.FactorOf(1))
		case SalesTax:
			base = base.Add(of.onTop)
		case Surcharged:
			if surcharge = of.surcharge; f.WithoutTax {
				surcharge = surcharge.Sub(of.inSurcharge)
			}
		}
	}
	if f.WithoutTax {
		base = base.Times(quoin.FactorOf(1).Sub(of.within))
	}
	grows := base.Add(surcharge).Times(rate.Factor())
	if l.owes {
		if grows = grows.Sub(base.Times(of.within)); grows.Sign() < 0 {
			grows = quoin.Factor{}
		}
	}
	out := grows.Times(f.Tax.OnePlus()).Times(f.Share.Or(whole).Factor())
	return out.Times(l.stays.Or(quoin.FactorOf(1)))
}
