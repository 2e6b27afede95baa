package channel

import "example.com/quoin"

// Fee is one fee of a channel: a rate on a base or in tiers, plus a fixed
// amount, within bounds, charged always or only on a share of the sales. It is
// data, and Charge evaluates it.
type Fee struct {
	Name string `json:"name,omitempty"`
	// Rate is taken of the base, which is the parts named by Of added up;
	// none means items alone. Tiers stand in its place.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	Of   []Part     `json:"of,omitempty" most:"3"`
	// Fixed is added for each order, also when Per is empty, or for each item.
	Fixed quoin.Amount `json:"fixed,omitzero" range:"[0,"`
	Per   quoin.Per    `json:"per,omitempty"`
	// AtLeast and AtMost bound rate and fixed amount together, in this order.
	AtLeast quoin.Amount                 `json:"at_least,omitzero" range:"[0,"`
	AtMost  quoin.Optional[quoin.Amount] `json:"at_most,omitzero" range:"[0,"`
	// Share is the share of sales on which the fee is charged; none means all.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Tax is charged on the fee itself and cannot be reclaimed.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Tiers are rates by the size of the base, in rising order of From.
	Tiers    []Tier   `json:"tiers,omitempty" most:"100"`
	TierMode TierMode `json:"tier_mode,omitempty"`
	// Rounding is how the fee, and the tax on it, are rounded to money.
	Rounding quoin.Rounding `json:"rounding,omitzero"`
}

// Tier is a rate that holds from a base on.
type Tier struct {
	From quoin.Amount `json:"from" need:"yes" range:"[0,"`
	Rate quoin.Rate   `json:"rate" need:"yes" range:"[0,1]"`
}

// TierMode says what a tier's rate is taken of.
type TierMode string

const (
	// Marginal takes each slice of the base at its own rate; also when empty.
	Marginal TierMode = "marginal"
	// Whole takes all of the base at the rate of the highest tier reached.
	Whole TierMode = "whole"
)

// UnmarshalText reads marginal or whole.
func (m *TierMode) UnmarshalText(text []byte) (err error) {
	*m, err = quoin.Word(string(text), Marginal, Whole)
	return err
}

// Part is a part of what the buyer pays that a fee may be taken of.
type Part string

const (
	Items    Part = "items"    // the items after discounts
	Shipping Part = "shipping" // the shipping charged
	SalesTax Part = "tax"      // tax added on top; 0 where prices hold it
)

// UnmarshalText reads items, shipping or tax.
func (p *Part) UnmarshalText(text []byte) (err error) {
	*p, err = quoin.Word(string(text), Items, Shipping, SalesTax)
	return err
}

// Paid is what the buyer of one order pays, in parts.
type Paid struct {
	Count    int64 // items in the order
	Items    quoin.Amount
	Shipping quoin.Amount
	Tax      quoin.Amount // on top; 0 where prices hold it
}

// Charge is one fee on one order, step by step.
type Charge struct {
	Base     quoin.Amount // the parts named, added up
	Computed quoin.Amount // rate or tiers of the base, plus fixed
	Bounded  quoin.Amount // not less than AtLeast, then not more than AtMost
	Rounded  quoin.Amount // to money
	Tax      quoin.Amount // on the fee, rounded to money
	Total    quoin.Amount // (rounded + tax) × share, not rounded
}

// Charge returns the fee on one order, rounded to places digits: each line in
// turn as Charge's fields say.
func (f Fee) Charge(paid Paid, places int) Charge {
	var c Charge
	c.Base = f.base(paid)
	c.Computed = f.computed(c.Base, paid.Count)
	c.Bounded = f.bounded(c.Computed)
	c.Rounded = c.Bounded.Round(places, f.Rounding)
	c.Tax = c.Rounded.Part(f.Tax).Round(places, f.Rounding)
	c.Total = c.Rounded.Add(c.Tax)
	if share, given := f.Share.Get(); given {
		c.Total = c.Total.Part(share)
	}
	return c
}

func (f Fee) base(paid Paid) quoin.Amount {
	if len(f.Of) == 0 {
		return paid.Items
	}
	var base quoin.Amount
	for _, part := range f.Of {
		base = base.Add(paid.part(part))
	}
	return base
}

func (p Paid) part(part Part) quoin.Amount {
	switch part {
	case Shipping:
		return p.Shipping
	case SalesTax:
		return p.Tax
	default:
		return p.Items
	}
}

func (f Fee) computed(base quoin.Amount, count int64) quoin.Amount {
	return f.proportional(base).Add(f.fixed(count))
}

func (f Fee) fixed(count int64) quoin.Amount {
	if f.Per == quoin.PerItem {
		return f.Fixed.Times(quoin.FactorOf(count))
	}
	return f.Fixed
}

func (f Fee) proportional(base quoin.Amount) quoin.Amount {
	if len(f.Tiers) == 0 {
		return base.Part(f.Rate)
	}
	if f.TierMode == Whole {
		return base.Part(f.reached(base))
	}
	var sum quoin.Amount
	for i, tier := range f.Tiers {
		if base.Cmp(tier.From) <= 0 {
			break
		}
		top := base
		if i+1 < len(f.Tiers) && f.Tiers[i+1].From.Cmp(base) < 0 {
			top = f.Tiers[i+1].From
		}
		sum = sum.Add(top.Sub(tier.From).Part(tier.Rate))
	}
	return sum
}

// reached is the rate of the highest tier that base comes up to, 0 below all.
func (f Fee) reached(base quoin.Amount) quoin.Rate {
	var rate quoin.Rate
	for _, tier := range f.Tiers {
		if base.Cmp(tier.From) < 0 {
			break
		}
		rate = tier.Rate
	}
	return rate
}

// slope is the rate at which the proportional part grows just above base.
func (f Fee) slope(base quoin.Amount) quoin.Rate {
	if len(f.Tiers) == 0 {
		return f.Rate
	}
	return f.reached(base)
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
