package pricelist_test

import (
	"math/big"
	"slices"
)

// What follows from the way in which a channel sells.

// ofTrade is what selling to shops takes.
func (s *oracleSlip) ofTrade() []oracleCharge {
	t := s.c.Trade
	if t == nil {
		return nil
	}
	var list []oracleCharge
	if t.Freight == "allowance" {
		given := ratMin(ratMul(t.Allowance.or(0), s.goods), ratQuo(s.o.Postage.or(0), s.c.rate()))
		list = append(list, oracleCharge{full: s.money(given)})
	}
	credit := t.Credit
	waited := credit.Days.or(0)
	if credit.Early.or(0).Sign() > 0 {
		taken := credit.Taken.or(1)
		due := s.money(ratMul(ratSub(ratOf(1), credit.Early.r), s.paid()))
		off := ratSub(s.paid(), due)
		if credit.EarlyRounded == "discount" {
			off = s.money(ratMul(credit.Early.r, s.paid()))
		}
		list = append(list, oracleCharge{off, taken})
		waited = ratAdd(ratMul(taken, credit.EarlyDays.or(0)), ratMul(ratSub(ratOf(1), taken), waited))
	}
	carrying := ratQuo(ratMul(ratMul(s.paid(), credit.Money.or(0)), waited), ratOf(365))
	agent := t.Agent.or(0)
	if s.o.Reorder && t.AgentReorder.given() {
		agent = t.AgentReorder.r
	}
	return append(list,
		oracleCharge{full: carrying},
		oracleCharge{full: ratMul(credit.Bad.or(0), s.paid())},
		oracleCharge{full: s.money(ratMul(agent, s.goods))},
		oracleCharge{full: s.money(ratMul(t.Defects.or(0), s.goods))})
}

// ofConsignment is the shop's commission, and waiting for the rest.
func (s *oracleSlip) ofConsignment() []oracleCharge {
	c := s.c.Consignment
	if c == nil {
		return nil
	}
	share := c.Commission.r
	if share == nil {
		share = ratQuo(c.OnMaker.r, ratAdd(ratOf(1), c.OnMaker.r))
	}
	price := s.goods
	if c.Discount.Borne == "maker" {
		price = s.beforeShop
	}
	if c.Net {
		price = s.withoutTax(price)
	}
	rest := ratMax(ratSub(price, ratMul(c.CostsFirst.or(0), s.items)), new(big.Rat))
	commission := s.money(ratMul(share, rest))
	if slices.Contains(c.Registered, "shop") && !s.taxed() {
		commission = ratAdd(commission, s.money(ratMul(commission, s.c.Tax.Rate.or(0))))
	}
	days := ratQuo(ratMul(c.Money.or(0), c.Days.or(0)), ratOf(365))
	waiting := ratMul(ratMul(ratSub(ratOf(1), share), days), s.goods)
	return []oracleCharge{{full: commission}, {full: waiting}}
}

// withoutTax takes from an amount the tax that it holds, as money.
func (s *oracleSlip) withoutTax(amount *big.Rat) *big.Rat {
	return ratSub(amount, s.heldIn(amount, nil))
}

// ofHouse is what a house that prints and sells keeps.
func (s *oracleSlip) ofHouse() []oracleCharge {
	d := s.c.OnDemand
	if d == nil || d.Pays == "above_base" {
		return nil
	}
	base, flat, _ := d.size(s.product)
	price := s.goods
	if d.CodesFromMaker {
		price = ratAdd(s.goods, s.discount)
	}
	left := s.withoutTax(price) // what the house has, and pays out of
	if d.Net {
		price = left
	}
	nothing := new(big.Rat)
	pays := nothing
	switch d.Pays {
	case "royalty":
		pays = ratMul(d.Rate.or(0), price)
	case "share_of_rest":
		left = ratSub(left, ratMul(base, s.items))
		pays = ratMul(d.Rate.or(0), ratMax(ratSub(price, ratMul(base, s.items)), nothing))
	case "flat_fee":
		pays = ratMul(flat, s.items)
	}
	return []oracleCharge{{full: s.money(ratMax(ratSub(left, pays), nothing))}}
}

// paysTooMuch is whether a house pays more of each price than it has of it, at
// the highest tax there is.
func (c oracleOutlet) paysTooMuch() bool {
	d := c.OnDemand
	if d.Net || !c.Tax.InPrice || d.Pays != "royalty" && d.Pays != "share_of_rest" {
		return false
	}
	taxes := []*big.Rat{}
	orders := c.Orders
	if len(orders) == 0 {
		orders = []oracleOrder{{}}
	}
	classes := []string{""}
	for _, t := range c.Tax.Classes {
		classes = append(classes, t.Class)
	}
	for _, o := range orders {
		for _, t := range o.TaxClasses {
			classes = append(classes, t.Class)
		}
	}
	for _, o := range orders {
		for _, class := range classes {
			s := oracleSlip{c: oracleOutlet{Tax: c.Tax}, o: o}
			s.setRates(class)
			taxes = append(taxes, s.taxRate)
		}
	}
	for _, tax := range taxes {
		left := ratQuo(ratOf(1), ratAdd(ratOf(1), tax))
		more := d.Rate.r.Cmp(left)
		if more > 0 || more == 0 && tax.Sign() > 0 && d.Pays == "share_of_rest" {
			return true
		}
	}
	return false
}

// afterSale is what is expected to be given back, and what that costs.
func (s *oracleSlip) afterSale() []oracleCharge {
	a := s.c.After
	if a == nil {
		return nil
	}
	back, shipping := s.goods, (*big.Rat)(nil)
	if a.Shipping {
		back, shipping = ratAdd(back, s.shipping), s.taxedShipping()
	}
	back = ratSub(back, s.heldIn(s.taxedGoods(), shipping)) // net as revenue is, in money
	if a.Surcharge {
		back = ratAdd(back, ratSub(s.surcharge, s.surchargeHolds))
	}
	sent := ratQuo(a.Postage.or(0), s.c.rate()) // which is in the shop's money
	each := ratAdd(ratMul(a.Returned.or(0), sent), ratMul(a.Disputed.or(0), a.DisputeFee.or(0)))
	return []oracleCharge{{full: ratMul(a.givenBack(), back)}, {full: s.o.ofOrder(each)}}
}

// givenBack is the share of what buyers paid that goes back to them.
func (a *oracleAfter) givenBack() *big.Rat {
	if a == nil {
		return new(big.Rat)
	}
	lost := ratMul(a.Disputed.or(0), a.Lost.or(1))
	return ratAdd(ratMul(a.Returned.or(0), a.Part.or(1)), lost)
}

// soldAgain is the share of the items sold that comes back and is sold again.
func (a *oracleAfter) soldAgain() *big.Rat {
	if a == nil {
		return new(big.Rat)
	}
	return ratMul(a.Returned.or(0), a.Resold.or(0))
}

// goodsFactor is what goods of a channel count, beside what goes into them.
func (w *oracleWorks) goodsFactor(c oracleOutlet) *big.Rat {
	factor := ratOf(1)
	if c.OnDemand == nil {
		factor = ratAdd(factor, w.shop.Contingency.or(0))
		factor = ratQuo(factor, ratSub(ratOf(1), c.Loss.or(0)))
	}
	if c.Consignment != nil {
		factor = ratQuo(factor, ratSub(ratOf(1), c.Consignment.Loss.or(0)))
	}
	return factor
}

// printedGoods is an item that a house prints, in the shop's money; nothing of
// the maker's own goes into it.
func (s *oracleShop) printedGoods(c oracleOutlet, product string) *big.Rat {
	base, _, _ := c.OnDemand.size(product)
	if c.OnDemand.Pays == "above_base" || c.OnDemand.Pays == "share_of_rest" {
		return ratMul(base, c.rate())
	}
	return new(big.Rat)
}
