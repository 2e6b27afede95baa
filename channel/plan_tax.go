package channel

import (
	"math/big"

	"example.com/quoin"
)

// plannedTax is how a tax is rounded.
type plannedTax struct {
	plain    bool // half up, of the order, the tax
	per      TaxPer
	rounding quoin.Rounding
	isNet    bool  // the price without the tax is rounded
	net      ratio // 1 ÷ (1 + t)
}

// tax compiles how a kind of order is taxed: at one rate, of what is paid.
func (c *planner) tax(p *plannedKind, k *kind) {
	t := &c.terms.channel.Tax
	c.failed = c.failed || len(k.parts) > 0 || t.Of == OfFullPrice && !k.untaxed()
	tax := c.rational(k.tax.Factor())
	p.taxed = plannedTax{per: t.Per, rounding: t.Rounding, isNet: t.Rounded == RoundedNet && c.terms.inPrice}
	p.taxed.plain = p.taxed.per != PerTaxedLine && p.taxed.per != PerTaxedUnit && p.taxed.rounding == quoin.HalfUp && !p.taxed.isNet
	p.tax = c.ratio(tax)
	if !c.terms.inPrice {
		return
	}
	with := new(big.Rat).Add(big.NewRat(1, 1), tax)
	tax.Quo(tax, with)
	c.cautious(tax)
	p.tax, p.taxed.net = c.ratio(tax), c.ratio(with.Inv(with))
}

// taxes is the tax on goods and on shipping.
func (k *plannedKind) taxes(goods, shipping uint64) (uint64, bool) {
	switch k.taxed.per {
	case PerTaxedLine:
		line, ok := k.taxOf(goods)
		sent, fine := k.taxOf(shipping)
		return line + sent, ok && fine
	case PerTaxedUnit:
		each, odd := goods/k.count, goods%k.count
		unit, ok := k.taxOf(each)
		more, fine := k.taxOf(each + 1)
		sent, good := k.taxOf(shipping)
		all, fits := times(unit, k.count-odd)
		rest, fit := times(more, odd)
		return all + rest + sent, ok && fine && good && fits && fit && all <= mostUnits && rest <= mostUnits
	}
	return k.taxOf(goods + shipping)
}

// taxOf is the tax on an amount, rounded: it, or what is left.
func (k *plannedKind) taxOf(amount uint64) (uint64, bool) {
	if !k.taxed.isNet {
		return k.tax.of(amount, k.taxed.rounding)
	}
	net, ok := k.taxed.net.of(amount, k.taxed.rounding)
	return amount - net, ok
}
