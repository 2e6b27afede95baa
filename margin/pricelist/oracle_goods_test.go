package pricelist_test

import (
	"math/big"
	"slices"
)

// starts is how many pieces enter stage s for one good piece at the end; past
// the last stage it is the good piece itself.
func (w *oracleWorks) starts(s int) *big.Rat {
	good := ratOf(1)
	for _, stage := range w.shop.Stages[s:] {
		good = ratMul(good, stage.good())
	}
	return ratQuo(ratOf(1), good)
}

// lineCost is what a line costs where it is used once.
func (w *oracleWorks) lineCost(l oracleLine) *big.Rat {
	s, _ := w.shop.supply(l.Supply)
	landed := ratSub(s.Price.or(0), s.Discount.or(0))
	landed = ratAdd(landed, ratAdd(s.Freight.or(0), s.Duty.or(0)))
	landed = ratMul(landed, s.Exchange.or(1))
	return ratMul(ratQuo(landed, s.Quantity.size), l.Quantity.size)
}

// lineShare is what a line costs a good item, or an order.
func (w *oracleWorks) lineShare(l oracleLine, p oraclePrint) *big.Rat {
	once, starts := w.lineCost(l), ratOf(1)
	if l.Stage != "" {
		starts = w.starts(w.shop.stage(l.Stage))
	}
	switch l.Per {
	case "run":
		return ratQuo(once, p.Run.Good.r)
	case "batch":
		through := ratMul(p.Run.Good.r, starts) // pieces that go through it
		batches := ratQuo(through, l.Over.r)
		whole := ratFloor(batches)
		n := new(big.Rat).SetInt(whole)
		if n.Cmp(batches) < 0 {
			n = ratAdd(n, ratOf(1))
		}
		return ratQuo(ratMul(once, n), p.Run.Good.r)
	case "design", "listing", "period":
		return ratQuo(once, l.Over.r)
	}
	return ratMul(once, starts)
}

func (w *oracleWorks) recovered() *big.Rat {
	sum := new(big.Rat)
	for i, stage := range w.shop.Stages {
		spoiled := ratSub(w.starts(i), w.starts(i+1))
		sum = ratAdd(sum, ratMul(stage.brings(), spoiled))
	}
	return sum
}

// testShare is what the tests of a run use up of some lines, for each good
// print.
func (w *oracleWorks) testShare(p oraclePrint, keep func(oracleLine) bool) *big.Rat {
	if p.Run == nil {
		return new(big.Rat)
	}
	first := ""
	if len(w.shop.Stages) > 0 {
		first = w.shop.Stages[0].ID
	}
	piece := new(big.Rat)
	for _, l := range p.Bill {
		if (l.Per == "" || l.Per == "item") && l.Stage == first && keep(l) {
			piece = ratAdd(piece, w.lineCost(l))
		}
	}
	return ratQuo(ratMul(p.Run.Tests.or(0), piece), p.Run.Good.or(1))
}

func (w *oracleWorks) setupShare(p oraclePrint) *big.Rat {
	if p.Run == nil {
		return new(big.Rat)
	}
	return ratQuo(p.Run.Setup.or(0), p.Run.Good.or(1))
}

// packed is what some lines of a packing list come to for each item.
func (w *oracleWorks) packed(p oraclePrint, c oracleOutlet, keep func(oracleLine) bool) *big.Rat {
	sum := new(big.Rat)
	for _, l := range p.Packing[c.Packing] {
		if l.Per != "order" && keep(l) {
			sum = ratAdd(sum, w.lineShare(l, p))
		}
	}
	return sum
}

// lines is what some lines of a product come to in a channel, tests and all:
// for each item, and for each order.
func (w *oracleWorks) lines(p oraclePrint, c oracleOutlet, keep func(oracleLine) bool) (perItem, perOrder *big.Rat) {
	perItem, perOrder = w.testShare(p, keep), new(big.Rat)
	for _, l := range slices.Concat(p.Bill, p.Packing[c.Packing]) {
		switch {
		case !keep(l):
		case l.Per == "order":
			perOrder = ratAdd(perOrder, w.lineShare(l, p))
		default:
			perItem = ratAdd(perItem, w.lineShare(l, p))
		}
	}
	return perItem, perOrder
}

func (w *oracleWorks) goodsOf(product, channel int) oracleGoods {
	p, c := w.shop.Products[product], w.shop.Channels[channel]
	all := func(oracleLine) bool { return true }
	perItem, perOrder := w.lines(p, c, all)
	perItem = ratAdd(perItem, ratSub(w.setupShare(p), w.recovered()))
	made := ratSub(perItem, w.packed(p, c, all))
	if c.OnDemand != nil {
		perItem, perOrder, made = w.shop.printedGoods(c, p.ID), new(big.Rat), new(big.Rat)
	}
	orders := w.ofOrders(c, perItem, perOrder, made)
	var kinds []*big.Rat
	for i, o := range c.Orders {
		kinds = append(kinds, ratQuo(orders[i], o.Items.or(1)))
	}
	time := func(labour string) *big.Rat {
		ofKind := func(l oracleLine) bool {
			s, _ := w.shop.supply(l.Supply)
			return s.Labour == labour && c.OnDemand == nil
		}
		perItem, perOrder := w.lines(p, c, ofKind)
		made := ratSub(perItem, w.packed(p, c, ofKind))
		return oracleWeighted(w.weights[channel], w.ofOrders(c, perItem, perOrder, made))
	}
	return oracleGoods{
		average: oracleWeighted(w.weights[channel], orders), kinds: kinds, own: time("own"), paid: time("paid"),
	}
}

// ofOrders is what goods come to in each kind of order: of an item, what making
// it takes is saved where it comes back and is sold again.
func (w *oracleWorks) ofOrders(c oracleOutlet, perItem, perOrder, made *big.Rat) []*big.Rat {
	factor := w.goodsFactor(c)
	var out []*big.Rat
	for _, o := range c.Orders {
		goods := ratAdd(ratMul(o.Items.or(1), perItem), o.ofOrder(perOrder))
		goods = ratSub(goods, ratMul(ratMul(o.Items.or(1), made), c.After.soldAgain()))
		out = append(out, ratMul(goods, factor))
	}
	return out
}
