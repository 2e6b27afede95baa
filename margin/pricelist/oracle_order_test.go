package pricelist_test

import (
	"math/big"
	"slices"
)

// oracleSlip is one order at one list price, in the money that buyers pay in.
type oracleSlip struct {
	c       oracleOutlet
	o       oracleOrder
	product string
	minors  *big.Int // of that money
	items   *big.Rat // how many
	taxRate *big.Rat
	home    *big.Rat // the channel's own rate for the product

	goods, discount, shipping *big.Rat    // what items come to, and what came off
	beforeShop                *big.Rat    // items before the discount that a shop gives itself
	tax, onTop                *big.Rat    // onTop is 0 where prices hold the tax
	surcharge, surchargeHolds *big.Rat    // and the tax that it holds
	shippingTax               *big.Rat    // nil where it is taxed as the goods are
	beside                    *oracleSlip // what the buyer pays for others; nil for none
}

// oracleCharge is what is taken of an order, and on what share of orders.
type oracleCharge struct{ full, share *big.Rat }

// sell is one order at a list price, and its fees were each charged in full.
func (w *oracleWorks) sell(c oracleOutlet, o oracleOrder, product string, price *big.Rat) (sale oracleSale, feesInFull *big.Rat) {
	s := w.slip(c, o, product, price)
	sale.revenue = ratAdd(ratAdd(s.goods, s.shipping), s.surcharge)
	if c.Tax.InPrice {
		sale.revenue = ratSub(sale.revenue, s.tax)
	}
	sale.fees, feesInFull = new(big.Rat), new(big.Rat)
	for _, charge := range s.charges() {
		feesInFull = ratAdd(feesInFull, charge.full)
		sale.fees = ratAdd(sale.fees, ratMul(charge.full, charge.share))
	}
	sale.revenue = ratMul(sale.revenue, c.rate())
	sale.tax = ratMul(s.tax, c.rate())
	sale.fees = ratMul(sale.fees, c.rate())
	feesInFull = ratMul(feesInFull, c.rate())
	sale.fulfilment = ratQuo(o.ofOrder(s.postage()), ratSub(ratOf(1), c.Loss.or(0)))
	return sale, feesInFull
}

func (w *oracleWorks) slip(c oracleOutlet, o oracleOrder, product string, price *big.Rat) *oracleSlip {
	s := &oracleSlip{c: c, o: o, product: product, minors: w.minors, items: o.Items.or(1)}
	if c.Abroad != nil {
		s.minors = oracleMinors(c.Abroad.Currency)
	}
	s.setRates(w.shop.classOf(product))
	s.fill(price)
	return s
}

// taxed is whether a sale is, which a maker's goods in a shop are not always.
func (s *oracleSlip) taxed() bool {
	return s.c.Consignment == nil || slices.Contains(s.c.Consignment.Registered, "maker")
}

func (s *oracleSlip) fill(price *big.Rat) {
	unit := s.unitPrice(price)
	full := ratMul(unit, s.items)
	kept := ratSub(ratOf(1), s.c.Promotion.or(0))
	before := s.money(ratMul(full, kept))
	s.surcharge = new(big.Rat)
	s.goods = s.takeCodes(before)
	s.discount = ratSub(full, s.goods)
	s.shipped(before)
	s.tax, s.onTop = s.taxOn(s.taxedGoods(), s.taxedShipping()), new(big.Rat)
	if !s.c.Tax.InPrice {
		s.onTop = s.tax
	}
	s.addSurcharge(s.o.ofOrder)
	if s.beside != nil {
		s.beside.addSurcharge(func(a *big.Rat) *big.Rat { return ratSub(a, s.o.ofOrder(a)) })
	}
}

// addSurcharge adds what the buyer pays extra for how the order is paid, and its tax: of an order, or of a part
// that bears a part of what is fixed.
func (s *oracleSlip) addSurcharge(bears func(*big.Rat) *big.Rat) {
	s.surcharge, s.surchargeHolds = new(big.Rat), new(big.Rat)
	u := s.o.Surcharge
	if u == nil {
		return
	}
	s.surcharge = s.money(ratAdd(ratMul(u.Rate.or(0), s.paid()), bears(u.Fixed.or(0))))
	taxed := *s
	taxed.setRates("")
	if u.TaxRate.given() {
		taxed.taxRate = u.TaxRate.r
	}
	tax := taxed.taxOfOne(s.surcharge)
	if s.tax != nil {
		s.tax = ratAdd(s.tax, tax)
	}
	if s.c.Tax.InPrice {
		s.surchargeHolds = tax
	} else {
		s.onTop = ratAdd(s.onTop, tax)
	}
}

func (s *oracleSlip) shippingCharged(before *big.Rat) *big.Rat {
	charged, freeFrom := s.o.Shipping.or(0), s.o.FreeFrom
	if t := s.c.Trade; t != nil && t.Freight != "" {
		charged, freeFrom = new(big.Rat), oracleNumber{}
		if t.Freight == "added" {
			charged, freeFrom = s.money(ratQuo(s.o.Postage.or(0), s.c.rate())), t.FreeFrom
		}
	}
	tested := s.goods
	if s.o.FreeTest == "before" {
		tested = before
	}
	if freeFrom.given() && ratAdd(tested, s.o.worth()).Cmp(freeFrom.r) >= 0 {
		return new(big.Rat)
	}
	return charged
}

// shipped is what shipping is charged for the order's own items, the rest of it for others.
func (s *oracleSlip) shipped(before *big.Rat) {
	charged := s.shippingCharged(before)
	if s.shipping = charged; s.o.Others == nil {
		return
	}
	s.shipping = s.money(s.o.ofOrder(charged))
	beside := &oracleSlip{c: s.c, o: s.o, minors: s.minors, taxRate: s.taxRate, goods: s.o.worth(), shipping: ratSub(charged, s.shipping), discount: new(big.Rat), onTop: new(big.Rat), surcharge: new(big.Rat)}
	beside.c.Tax.Per = "" // others are one line, whatever their number
	if class := s.o.Others.TaxClass; class != "" {
		beside.taxRate = s.rateOf(class)
	}
	if s.c.Tax.OnShipping && beside.taxRate.Cmp(s.taxRate) != 0 {
		all := s.taxOfMixed(charged, beside)
		s.shippingTax = oracleRound(s.o.ofOrder(all), s.minors, s.c.Tax.Rounding)
		beside.shippingTax = ratSub(all, s.shippingTax)
	}
	if !s.c.Tax.InPrice {
		beside.onTop = beside.taxOn(beside.goods, beside.taxedShipping())
	}
	s.beside = beside
}

// postage is what sending costs the shop, in its own money.
func (s *oracleSlip) postage() *big.Rat {
	if t := s.c.Trade; t != nil && (t.Freight == "collect" || t.Freight == "allowance") {
		return new(big.Rat)
	}
	return s.o.Postage.or(0)
}

// money rounds as money is where nothing else is said.
func (s *oracleSlip) money(x *big.Rat) *big.Rat { return oracleRound(x, s.minors, "half_up") }

// oracleRound takes an amount that is not negative to the minor unit.
func oracleRound(x *big.Rat, minors *big.Int, mode string) *big.Rat {
	whole, rest := new(big.Int), new(big.Int)
	whole.QuoRem(whole.Mul(x.Num(), minors), x.Denom(), rest)
	if oracleRoundsUp(mode, whole, rest, x.Denom()) {
		whole.Add(whole, big.NewInt(1))
	}
	return new(big.Rat).SetFrac(whole, minors)
}

// oracleRoundsUp judges what is over the whole units, as a part of one unit.
func oracleRoundsUp(mode string, whole, rest, one *big.Int) bool {
	half := new(big.Int).Lsh(rest, 1).Cmp(one)
	switch mode {
	case "up":
		return rest.Sign() > 0
	case "down":
		return false
	case "half_down":
		return half > 0
	case "half_even":
		return half > 0 || half == 0 && whole.Bit(0) == 1
	default:
		return half >= 0
	}
}
