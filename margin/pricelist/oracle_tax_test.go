package pricelist_test

import "math/big"

// Which rate a product is taxed at in an order, and how its tax is rounded.

// classOf is the class of tax of a product, "" for none.
func (s *oracleShop) classOf(product string) string {
	for _, p := range s.Products {
		if p.ID == product {
			return p.TaxClass
		}
	}
	return ""
}

func oracleRateOf(classes []oracleClass, class string) *big.Rat {
	for _, c := range classes {
		if class != "" && c.Class == class {
			return c.Rate.or(0)
		}
	}
	return nil
}

func (s *oracleSlip) setRates(class string) {
	s.home, s.taxRate = s.c.rateOf(class), s.rateOf(class)
	if !s.taxed() {
		s.taxRate = new(big.Rat)
	}
}

// rateOf looks from the order outward: its class, itself, the channel's class, the channel.
func (s *oracleSlip) rateOf(class string) *big.Rat {
	if rate := oracleRateOf(s.o.TaxClasses, class); rate != nil {
		return rate
	}
	if s.o.TaxRate.given() {
		return s.o.TaxRate.r
	}
	return s.c.rateOf(class)
}

func (c oracleOutlet) rateOf(class string) *big.Rat {
	if rate := oracleRateOf(c.Tax.Classes, class); rate != nil {
		return rate
	}
	return c.Tax.Rate.or(0)
}

// taxedGoods is what the tax of the order's items is taken of.
func (s *oracleSlip) taxedGoods() *big.Rat {
	if s.c.Tax.Of == "full_price" {
		return ratAdd(s.goods, s.discount)
	}
	return s.goods
}

// taxedShipping is nil where shipping is not taxed.
func (s *oracleSlip) taxedShipping() *big.Rat {
	if !s.c.Tax.OnShipping {
		return nil
	}
	return s.shipping
}

// taxOn is the tax that goods and shipping hold, or that comes on top of them.
func (s *oracleSlip) taxOn(goods, shipping *big.Rat) *big.Rat {
	switch {
	case shipping == nil:
		shipping = new(big.Rat)
	case s.shippingTax != nil:
		return ratAdd(s.taxOn(goods, nil), s.shippingTax)
	}
	switch s.c.Tax.Per {
	case "line":
		return ratAdd(s.taxOfOne(goods), s.taxOfOne(shipping))
	case "unit":
		sum := s.taxOfOne(shipping)
		for _, unit := range s.spread(goods) {
			sum = ratAdd(sum, s.taxOfOne(unit))
		}
		return sum
	}
	return s.taxOfOne(ratAdd(goods, shipping))
}

// spread gives each item an equal part of an amount, and the odd minor units to the first.
func (s *oracleSlip) spread(amount *big.Rat) []*big.Rat {
	var units []*big.Rat
	minor := new(big.Rat).SetFrac(big.NewInt(1), s.minors)
	each := oracleRound(ratQuo(amount, s.items), s.minors, "down")
	left := ratSub(amount, ratMul(each, s.items))
	for n := ratOf(0); n.Cmp(s.items) < 0; n = ratAdd(n, ratOf(1)) {
		unit := each
		if left.Sign() > 0 {
			unit, left = ratAdd(each, minor), ratSub(left, minor)
		}
		units = append(units, unit)
	}
	return units
}

func (s *oracleSlip) taxOfOne(amount *big.Rat) *big.Rat {
	t := s.c.Tax
	if !t.InPrice {
		return oracleRound(ratMul(amount, s.taxRate), s.minors, t.Rounding)
	}
	net := ratQuo(amount, ratAdd(ratOf(1), s.taxRate))
	if t.Rounded == "net" && s.taxRate.Sign() > 0 {
		return ratSub(amount, oracleRound(net, s.minors, t.Rounding))
	}
	return oracleRound(ratSub(amount, net), s.minors, t.Rounding)
}

// taxOfMixed is the tax of all that is charged for shipping of goods of two rates. In proportion
// the odd minor unit is theirs who come closer to one more.
func (s *oracleSlip) taxOfMixed(charged *big.Rat, beside *oracleSlip) *big.Rat {
	all := ratAdd(s.goods, beside.goods)
	switch how := s.c.Tax.ShippingRate; {
	case all.Sign() == 0:
		return s.taxOfOne(charged)
	case how == "highest" && s.taxRate.Cmp(beside.taxRate) > 0, how == "main" && s.goods.Cmp(beside.goods) >= 0:
		return s.taxOfOne(charged)
	case how == "highest", how == "main":
		return beside.taxOfOne(charged)
	}
	own := ratQuo(ratMul(charged, s.goods), all)
	if whole := s.money(charged); whole.Cmp(charged) == 0 {
		own = s.money(own)
	}
	return ratAdd(s.taxOfOne(own), beside.taxOfOne(ratSub(charged, own)))
}

// heldIn is the tax that prices hold in some goods, and in shipping that is taxed.
func (s *oracleSlip) heldIn(goods, shipping *big.Rat) *big.Rat {
	if !s.c.Tax.InPrice {
		return new(big.Rat)
	}
	return s.taxOn(goods, shipping)
}
