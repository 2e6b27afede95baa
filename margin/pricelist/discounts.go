package pricelist

import (
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

// discounts are the terms of channels with so many per cent taken off the items of every
// order. All products are asked about the same few of them.
type discounts struct {
	mu     sync.Mutex
	known  map[discountAt]discountTerms
	weight int
}

type discountAt struct {
	channel int
	perCent int64
}

// discountTerms are terms and, where a rule asks for them, those of each kind of order by
// itself.
type discountTerms struct {
	terms channel.Terms
	kinds []channel.Terms
}

// mostDiscounts bounds the terms that are remembered, counted in fees of kinds of order.
const mostDiscounts = 100_000

// discounted is the offer with so many per cent taken off the items of every order: its
// goods stay, and its terms change. The channel is as it is for the product.
func (p Public) discounted(j int, c channel.Channel, o rule.Offer, perCent int64) rule.Offer {
	terms := p.of.discountTerms(j, c, perCent)
	less := rule.Offer{Channel: o.Channel, Sale: o.Sale}
	less.Sale.Terms = terms.terms
	if !p.of.asksWorst() {
		return less
	}
	for _, one := range less.Sale.WorstBy(terms.kinds) {
		less.Worst = append(less.Worst, rule.Offer{Channel: o.Channel, Sale: one})
	}
	return less
}

func (d *decided) discountTerms(j int, c channel.Channel, by int64) discountTerms {
	if c.ByProduct() {
		return d.lowered(c, by)
	}
	at := discountAt{j, by}
	d.discounts.mu.Lock()
	defer d.discounts.mu.Unlock()
	out, ok := d.discounts.known[at]
	if ok {
		return out
	}
	out = d.lowered(c, by)
	weight := max(len(c.Orders), 1) * (1 + len(c.Fees))
	if d.discounts.weight += weight; d.discounts.known == nil || d.discounts.weight > mostDiscounts {
		d.discounts.known, d.discounts.weight = make(map[discountAt]discountTerms), weight
	}
	d.discounts.known[at] = out
	return out
}

// lowered is the terms of a channel with a promotion of so many per cent more.
func (d *decided) lowered(c channel.Channel, by int64) (out discountTerms) {
	rest := c.Promotion.Complement().Times(perCent(by).Complement())
	c.Promotion = quoin.FactorOf(1).Sub(rest).Rate()
	out.terms = c.Terms(d.Currency)
	if d.asksWorst() {
		out.kinds = out.terms.Worst()
	}
	return out
}
