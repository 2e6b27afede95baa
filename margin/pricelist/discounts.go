package pricelist

import (
	"sync"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
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

// discountTerms are terms and, once a rule asked for them, those of each kind of order by
// itself.
type discountTerms struct {
	terms channel.Terms
	kinds []channel.Terms
}

// mostDiscounts bounds the terms that are remembered, counted in fees of kinds of order.
const mostDiscounts = 100_000

// discounted is the sale with so many per cent taken off the items of every order: its
// goods stay, and its terms change. The channel is as it is for the product.
func (p Public) discounted(j int, c channel.Channel, sale margin.Sale, perCent int64) margin.Sale {
	sale.Terms = p.of.discountTerms(j, c, perCent)
	return sale
}

// worstOf is a discounted sale by each kind of order.
func (p Public) worstOf(j int, c channel.Channel, sale margin.Sale, perCent int64) []margin.Sale {
	if c.ByProduct() {
		return sale.Worst()
	}
	d, at := &p.of.discounts, discountAt{j, perCent}
	d.mu.Lock()
	defer d.mu.Unlock()
	known := d.known[at]
	if known.kinds == nil {
		known.terms, known.kinds = sale.Terms, sale.Terms.Worst()
		d.known[at] = known
	}
	return sale.WorstBy(known.kinds)
}

func (d *decided) discountTerms(j int, c channel.Channel, by int64) channel.Terms {
	if c.ByProduct() {
		return d.lowered(c, by)
	}
	at := discountAt{j, by}
	d.discounts.mu.Lock()
	defer d.discounts.mu.Unlock()
	if known, ok := d.discounts.known[at]; ok {
		return known.terms
	}
	terms := d.lowered(c, by)
	weight := max(len(c.Orders), 1) * (1 + len(c.Fees))
	if d.discounts.weight += weight; d.discounts.known == nil || d.discounts.weight > mostDiscounts {
		d.discounts.known, d.discounts.weight = make(map[discountAt]discountTerms), weight
	}
	d.discounts.known[at] = discountTerms{terms: terms}
	return terms
}

// lowered is the terms of a channel with a promotion of so many per cent more.
func (d *decided) lowered(c channel.Channel, by int64) channel.Terms {
	rest := c.Promotion.Complement().Times(perCent(by).Complement())
	c.Promotion = quoin.FactorOf(1).Sub(rest).Rate()
	return c.Terms(d.Currency)
}
