package channel

import (
	"sort"

	"example.com/quoin"
)

// mixedTax is the tax of shipping, as lines on a run of prices, in an order whose others have a
// rate of their own: what own items bear of it and the rest, each with what rounding can move it.
type mixedTax struct {
	own, rest         orderLine
	ownRoom, restRoom quoin.Amount
}

// mixedRuns breaks prices with the same shipping where its tax changes: at the main rate, where
// own items come to more than others; in proportion, into runs on which a straight line will do.
func (c kindCurve) mixedRuns(p part, first, last int64) [][2]int64 {
	cuts := []int64{first}
	switch items, k := c.line(p.items), c.k(); {
	case !k.mixed || items.Slope.IsZero() || c.shippingOfAll(first).IsZero():
	case c.t.channel.Tax.ShippingRate == AtMainRate:
		at := int64(sort.Search(int(last-first+1), func(n int) bool { return !c.shippingRate(first + int64(n)).Equal(k.othersRate) }))
		cuts = append(cuts, first+at)
	case c.t.channel.Tax.ShippingRate != AtHighestRate:
		for _, worth := range k.mixedSteps(c.mixedStep()) {
			cuts = append(cuts, c.g.Floor(worth.Sub(items.Start).Over(items.Slope)))
		}
	}
	var runs [][2]int64
	for _, at := range cuts {
		switch n := len(runs); {
		case n == 0:
			runs = append(runs, [2]int64{first, last})
		case at > runs[n-1][0] && at <= last:
			runs[n-1][1] = at - 1
			runs = append(runs, [2]int64{at, last})
		}
	}
	return runs
}

// mixedSteps are what own items come to where the tax of shipping in proportion is cut, so that no
// run bends by more than 4 cents, or 4 steps of the prices; there are never more than mostMixed.
//
// Of shipping s, own items that come to i beside others worth w take the share i ÷ (i + w), at a
// rate that differs by d. With z² = w ÷ (i + w), the arc from z to z' lies off its chord by at most
// s × d × (z − z')²: so equal steps of z from 1 to 0 do.
func (k *kind) mixedSteps(step quoin.Amount) []quoin.Amount {
	n := min(k.mixedCount(step), mostMixed)
	steps := make([]quoin.Amount, n-1)
	for j := range steps {
		left := n - 1 - int64(j)
		z := quoin.FactorOf(left * left)
		steps[j] = k.Others.Worth.Times(quoin.FactorOf(n * n).Sub(z)).Over(z)
	}
	return steps
}

// mostMixed bounds into how many runs the tax of shipping is cut.
const mostMixed = 32

// mixedCount is how many runs bend by no more than 4 steps.
func (k *kind) mixedCount(step quoin.Amount) int64 {
	const far = 25 * mostBreaks // which is refused
	bends := k.Shipping.Times(absolute(k.mixedBend()))
	return 1 + int64(sort.Search(far, func(n int) bool {
		return step.Times(quoin.FactorOf(4*int64(n+1)*int64(n+1))).Cmp(bends) >= 0
	}))
}

// mostMixedRuns is into how many runs its tax of shipping breaks a part of the prices at most. Where
// shipping is so much that a base hardly moves with the price, each place where it passes a tier or a
// bound costs as much as some more of them.
func (c *Channel) mostMixedRuns(k *kind) int {
	switch c.Tax.ShippingRate {
	case AtHighestRate:
		return 1
	case AtMainRate:
		return 2
	}
	n := k.mixedCount(quoin.AmountOf(1, 2))
	return int(min(n, mostMixed) + n/25)
}

// mixedBend is by how much the tax of shipping at the rates of own items is above that at the rate
// of others, for each unit of shipping.
func (k *kind) mixedBend() quoin.Factor { return k.onGoods.Sub(k.ofAmount(k.othersRate)) }

// shippingOfAll is what is charged for shipping of the whole order at a price.
func (c kindCurve) shippingOfAll(i int64) quoin.Amount {
	e := c.t.order(c.k())
	s := e.sale(listPrice(c.g.Price(i)))
	return amountOf(s.paid.shipping).Add(amountOf(e.besides.shipping))
}

// shippingRate is the one rate that shipping is taxed at, at a price.
func (c kindCurve) shippingRate(i int64) quoin.Rate {
	e := c.t.order(c.k())
	items := e.sale(listPrice(c.g.Price(i))).paid.items
	all := e.withOthers(items).k
	return all.parts[all.postagePart(c.t.channel.Tax.ShippingRate)].rate
}

// mixed is the tax of shipping on a run of prices on which items are a line.
func (c kindCurve) mixed(items orderLine, first, last int64) mixedTax {
	k, tax, shipping := c.k(), &c.t.channel.Tax, c.shippingOfAll(first)
	if shipping.IsZero() {
		return mixedTax{}
	}
	each := c.roomOf(tax.Rounding)
	line, room := orderLine{}, each
	if how := tax.ShippingRate; how == AtHighestRate || how == AtMainRate {
		line = level(shipping.Times(k.ofAmount(c.shippingRate(first))))
	} else {
		line, room = c.inProportion(items, shipping, c.sale(first).Items, c.sale(last).Items)
		n, rates := int64(1), k.ofAmount(k.othersRate)
		for _, p := range k.parts {
			n, rates = n+1, rates.Add(k.ofAmount(p.rate))
		}
		if len(k.parts) == 0 {
			n, rates = n+1, rates.Add(k.onGoods)
		}
		room = room.Add(each.Times(quoin.FactorOf(n))).Add(quoin.AmountOf(1, c.t.places).Times(rates))
	}
	own := quoin.FactorOf(k.ItemsOr1()).Over(k.AllItems())
	rest := quoin.FactorOf(1).Sub(own)
	return mixedTax{line.times(own), line.times(rest), room.Times(own).Add(each), room.Times(rest).Add(each)}
}

// inProportion is the tax of shipping in proportion while own items come to at least one amount
// and at most another, and how far it can lie off that line: half as far as its arc lies off its
// chord.
func (c kindCurve) inProportion(items orderLine, shipping, from, to quoin.Amount) (orderLine, quoin.Amount) {
	k, worth := c.k(), c.k().Others.Worth
	a, b := from.Add(worth), to.Add(worth)
	if worth.IsZero() || a.Sign() <= 0 {
		return level(shipping.Times(k.onGoods)), quoin.Amount{}
	}
	bends := shipping.Times(k.mixedBend())
	slope := bends.Ratio(a).Times(worth.Ratio(b))
	start := shipping.Times(k.ofAmount(k.othersRate)).Add(bends.Times(from.Ratio(a))).Sub(from.Times(slope))
	wide := b.Sub(a).Ratio(b)
	off := bends.Times(worth.Ratio(a)).Times(wide).Times(b.Sub(a).Ratio(a.Times(quoin.FactorOf(3)).Add(b))).Times(quoin.MustFactor("0.5"))
	room := off
	if off.Sign() < 0 {
		room = off.Neg()
	}
	return items.times(slope).plus(level(start.Add(off))), room.Add(slack)
}

// bent reports whether a fee's base holds tax of shipping that moves with the price: then it need
// not rise with it.
func (c kindCurve) bent(l *compiledFee) bool {
	how := c.t.channel.Tax.ShippingRate
	return c.k().mixed && how != AtHighestRate && how != AtMainRate && c.holdsMixed(l).Sign() != 0
}

// holdsMixed is how often a fee's base holds the tax of shipping: less than 0 where it is without
// the tax in prices. A surcharge is of the tax on top too, and has a tax.
func (c kindCurve) holdsMixed(l *compiledFee) (n quoin.Factor) {
	for _, p := range l.parts() {
		switch {
		case p == SalesTax && !c.t.inPrice:
			n = n.Add(quoin.FactorOf(1)).Add(c.surchargeRate().Times(c.k().surchargeTax))
		case p == Surcharged && !c.t.inPrice:
			n = n.Add(c.surchargeRate())
		case p == Shipping && c.t.inPrice && l.WithoutTax:
			n = n.Sub(quoin.FactorOf(1))
		}
	}
	return n
}

func (c kindCurve) surchargeRate() (rate quoin.Factor) {
	if u := c.k().Surcharge; u != nil {
		rate = u.Rate.Factor()
	}
	return rate
}

// othersLine is what others add to the base of a fee, which is as given at a charge.
func (c kindCurve) othersLine(l *compiledFee, lines saleLines, at chargedFee) orderLine {
	if !c.k().mixed {
		return level(at.others)
	}
	n := c.holdsMixed(l)
	still := level(at.others.Sub(at.othersTax.Times(n)))
	if !c.surchargeRate().IsZero() { // which is rounded, as its tax is, at that charge and at any other
		each := c.half().Times(c.k().surchargeTax.Add(quoin.FactorOf(1))).Add(c.roomOf(c.t.channel.Tax.Rounding))
		still = still.loosen(each.Add(each))
	}
	return still.plus(lines.mixed.rest.loosen(lines.mixed.restRoom).times(n))
}

// crossings adds the prices at which a value comes up to v, as reach does, and those at which it
// falls below it again. Its line is known for all these prices, and closer for fewer of them.
func (c kindCurve) crossings(cuts []int64, l *compiledFee, lines saleLines, first, last int64, line func(first, last int64) StraightLine, v quoin.Amount, value func(int64) quoin.Amount) []int64 {
	if !c.bent(l) || lines.items.slope.IsZero() {
		return append(cuts, c.reach(first, last, line(first, last), v, value))
	}
	was, wide := false, last-first+1
	for i := first; i <= last; {
		to := min(i+wide-1, last)
		near := line(i, to).Add(Flat(v.Neg()))
		sign := c.sign(near, i)
		switch certain := sign != 0 && sign == c.sign(near, to); {
		case certain:
			if now := sign > 0; now != was {
				cuts, was = append(cuts, i), now
			}
			i, wide = to+1, wide*4
		case wide > fewPrices:
			wide /= 4
		default:
			to = max(to, c.t.sameUnit(c.kind, c.g, i, last))
			cuts, was = c.eachCrossing(cuts, was, i, to, v, value)
			i = to + 1
		}
	}
	return cuts
}

// fewPrices are tried one by one.
const fewPrices = 16

// eachCrossing tries every price; was says whether the value came up to v at the one before.
func (c kindCurve) eachCrossing(cuts []int64, was bool, first, last int64, v quoin.Amount, value func(int64) quoin.Amount) ([]int64, bool) {
	for i := first; i <= last; i = c.t.sameUnit(c.kind, c.g, i, last) + 1 {
		if now := value(i).Cmp(v) >= 0; now != was {
			cuts, was = append(cuts, i), now
		}
	}
	return cuts, was
}

// mixedStep is a cent, a minor unit of what buyers pay in, or a step of the prices, whichever is
// most.
func (c kindCurve) mixedStep() quoin.Amount {
	step := quoin.AmountOf(1, min(c.t.places, 2))
	if own := c.g.Step().Times(c.k().keep); own.Cmp(step) > 0 {
		return own
	}
	return step
}
