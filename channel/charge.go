package channel

import "example.com/quoin"

// Paid is what the buyer of one order pays, in parts.
type Paid struct {
	Count    int64 // items in the order
	Items    quoin.Amount
	Shipping quoin.Amount
	Tax      quoin.Amount // on top; 0 where prices hold it
	Discount quoin.Amount // what promotions took off the items
	// Within is the rate of the tax that prices hold, and ShippingTaxed says that
	// shipping holds it too.
	Within        quoin.Rate
	ShippingTaxed bool
	unreduced     quoin.Amount // items before the discount of a shop on consignment
}

// Charge is one fee on one order, step by step. Where orders are charged
// together, Computed to Tax are of them all.
type Charge struct {
	Base     quoin.Amount // the parts named, added up
	Computed quoin.Amount // rate of the base, or tiers, plus fixed, less the tax that it owes
	Bounded  quoin.Amount // not less than AtLeast, then not more than AtMost
	Rounded  quoin.Amount // to money
	Tax      quoin.Amount // on the fee, rounded to money
	Total    quoin.Amount // (rounded + tax) ÷ over × share, not rounded
}

// Charge returns the fee on one order, rounded to places digits: each line in
// turn as Charge's fields say. A fee that is only expected is not rounded.
func (f Fee) Charge(paid Paid, places int) Charge {
	var c Charge
	c.Base = f.base(paid, places)
	c.Computed = f.computed(c.Base, paid.Count)
	c.Bounded = f.bounded(c.Computed)
	c.Rounded = f.rounded(c.Bounded, places)
	c.Tax = f.rounded(c.Rounded.Part(f.Tax), places)
	c.Total = f.apart(c.Rounded.Add(c.Tax))
	if share, given := f.Share.Get(); given {
		c.Total = c.Total.Part(share)
	}
	return c
}

func (f Fee) rounded(a quoin.Amount, places int) quoin.Amount {
	if f.Expected {
		return a
	}
	return a.Round(places, f.Rounding)
}

// apart is what one order bears of what is charged together.
func (f Fee) apart(a quoin.Amount) quoin.Amount {
	if f.Over.IsZero() {
		return a
	}
	return a.Over(f.Over)
}

// together is what the orders that are charged together come to.
func (f Fee) together(a quoin.Amount) quoin.Amount {
	if f.Over.IsZero() {
		return a
	}
	return a.Times(f.Over)
}

// parts are what is added up as the base.
func (f Fee) parts() []Part {
	if len(f.Of) == 0 {
		return []Part{Items}
	}
	return f.Of
}

func (f Fee) base(paid Paid, places int) quoin.Amount {
	base, taxed := f.parted(paid)
	if f.Net {
		base = base.Sub(paid.held(taxed, places))
	}
	return base
}

// parted is the parts that the fee names added up, and those of them that hold the
// tax.
func (f Fee) parted(paid Paid) (base, taxed quoin.Amount) {
	for _, part := range f.parts() {
		base = base.Add(paid.part(part))
		if part.holdsTax(paid.ShippingTaxed) {
			taxed = taxed.Add(paid.part(part))
		}
	}
	return base, taxed
}

// held is the tax that prices hold in an amount, rounded to money.
func (p Paid) held(taxed quoin.Amount, places int) quoin.Amount {
	if p.Within.IsZero() {
		return quoin.Amount{}
	}
	return taxed.Part(p.Within).Over(p.Within.OnePlus()).Round(places, quoin.HalfUp)
}

func (p Paid) part(part Part) quoin.Amount {
	switch part {
	case Shipping:
		return p.Shipping
	case SalesTax:
		return p.Tax
	case Discount:
		return p.Discount
	case unreduced:
		return p.unreduced
	default:
		return p.Items
	}
}

// holdsTax reports whether a part holds the tax that prices hold.
func (p Part) holdsTax(onShipping bool) bool {
	return p == Items || p == Discount || p == unreduced || p == Shipping && onShipping
}

func (f Fee) computed(base quoin.Amount, count int64) quoin.Amount {
	return f.ofBase(f.together(base), count).Add(f.each(f.Fixed, count))
}

// each is an amount that the fee names, as it is for all that is charged together:
// once, or for each item of count in every order.
func (f Fee) each(a quoin.Amount, count int64) quoin.Amount {
	if f.Per == quoin.PerItem {
		return f.together(a.Times(quoin.FactorOf(count)))
	}
	return a
}

// ofBase is what the rate takes of the base, or what the tiers that it reaches come to.
func (f Fee) ofBase(base quoin.Amount, count int64) quoin.Amount {
	if len(f.Tiers) == 0 {
		return base.Part(f.Rate)
	}
	last := f.reached(base, count)
	if f.TierMode == Whole && last >= 0 {
		tier := &f.Tiers[last]
		return base.Part(tier.Rate).Add(f.each(tier.Fixed, count))
	}
	var sum quoin.Amount
	for i := range last + 1 {
		tier, top := &f.Tiers[i], base
		if i < last {
			top = f.each(f.Tiers[i+1].From, count)
		}
		sum = sum.Add(top.Sub(f.each(tier.From, count)).Part(tier.Rate)).Add(f.each(tier.Fixed, count))
	}
	return sum
}

// reached is the highest tier that the base comes up to, −1 below all.
func (f Fee) reached(base quoin.Amount, count int64) int {
	for i := range f.Tiers {
		if base.Cmp(f.each(f.Tiers[i].From, count)) < 0 {
			return i - 1
		}
	}
	return len(f.Tiers) - 1
}

// slope is the rate at which the fee grows just above the base.
func (f Fee) slope(base quoin.Amount, count int64) quoin.Rate {
	if len(f.Tiers) == 0 {
		return f.Rate
	}
	if last := f.reached(base, count); last >= 0 {
		return f.Tiers[last].Rate
	}
	return quoin.Rate{}
}

func (f Fee) bounded(a quoin.Amount) quoin.Amount {
	if a.Cmp(f.AtLeast) < 0 {
		a = f.AtLeast
	}
	if most, given := f.AtMost.Get(); given && a.Cmp(most) > 0 {
		a = most
	}
	return a
}
