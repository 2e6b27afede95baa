package channel

import "example.com/quoin"

// TakesEverything reports whether the channel's fees grow at least as fast as
// what the shop keeps of a higher price, in every kind of order, so that no
// price can ever earn. Fees with a greatest amount do not grow; of tiers the
// lowest rate counts.
func (c Channel) TakesEverything() bool {
	orders := c.Orders
	if len(orders) == 0 {
		orders = []Order{{}}
	}
	for _, o := range orders {
		if c.keepsOf(o.TaxRate.Or(c.Tax.Rate)).Sign() > 0 {
			return false
		}
	}
	return true
}

// Breaks returns how many prices there can be at which the channel's terms
// change their form, over all kinds of order.
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
	return each * max(1, len(c.Orders))
}

// keepsOf returns what is left of one more unit of items, after tax and fees.
func (c Channel) keepsOf(tax quoin.Rate) quoin.Factor {
	kept, onTop := quoin.FactorOf(1), tax.Factor()
	if c.Tax.InPrice {
		kept, onTop = kept.Over(tax.OnePlus()), quoin.Factor{}
	}
	for _, f := range c.Fees {
		kept = kept.Sub(f.growth(onTop))
	}
	return kept
}

// growth is the least the fee grows by with each unit of items.
func (f Fee) growth(taxOnTop quoin.Factor) quoin.Factor {
	if _, capped := f.AtMost.Get(); capped {
		return quoin.Factor{}
	}
	rate := f.Rate
	for i, t := range f.Tiers {
		if i == 0 || t.Rate.Cmp(rate) < 0 {
			rate = t.Rate
		}
	}
	var base quoin.Factor
	if len(f.Of) == 0 {
		base = quoin.FactorOf(1)
	}
	for _, part := range f.Of {
		switch part {
		case Items:
			base = base.Add(quoin.FactorOf(1))
		case SalesTax:
			base = base.Add(taxOnTop)
		}
	}
	return base.Times(rate.Factor()).Times(f.Tax.OnePlus()).Times(f.Share.Or(whole).Factor())
}
