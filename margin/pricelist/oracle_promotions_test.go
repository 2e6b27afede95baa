package pricelist_test

import (
	"math/big"
	"slices"
)

// What items come to: what can be asked for one, and what codes take off.

type oraclePromotion struct {
	ID, Name                      string
	Rate, Amount, Buy, Free, Sale oracleNumber
	Price                         oracleNumber
	Products                      []string
	From                          oracleNumber
	Test                          string
	Alone                         bool
	Rounding                      string
}

type oracleTag struct {
	Step    oracleNumber
	Of      []oracleNumber `json:"ends_in"`
	Modulus oracleNumber   `json:"every"`
}

// unitPrice is what one item is sold at in the money that buyers pay in.
func (s *oracleSlip) unitPrice(list *big.Rat) *big.Rat {
	c := s.c
	unit := ratMul(list, ratAdd(ratOf(1), c.Uplift.or(0)))
	for _, d := range c.TradeDiscount {
		unit = ratMul(unit, ratSub(ratOf(1), d.or(0)))
	}
	if c.Tax.InPrice && c.Tax.Constant == "net" && s.taxed() {
		unit = ratMul(unit, ratAdd(ratOf(1), s.taxRate))
		unit = ratQuo(unit, ratAdd(ratOf(1), s.home))
	}
	unit = ratQuo(unit, c.rate())
	if c.Tag != nil {
		return c.Tag.nearest(unit) // in place of rounding to money
	}
	return s.money(unit)
}

// nearest tries what can be asked around a price, from the lowest up.
func (t oracleTag) nearest(unit *big.Rat) *big.Rat {
	modulus, endings := t.Modulus.or(1), t.Of
	if t.Step.given() {
		modulus, endings = t.Step.r, []oracleNumber{{new(big.Rat)}}
	}
	var asked []*big.Rat
	below := ratMul(new(big.Rat).SetInt(ratFloor(ratQuo(unit, modulus))), modulus)
	for times := int64(-1); times <= 2; times++ {
		for _, ending := range endings {
			x := ratAdd(ratAdd(below, ratMul(ratOf(times), modulus)), ending.r)
			if x.Sign() > 0 {
				asked = append(asked, x)
			}
		}
	}
	slices.SortFunc(asked, func(a, b *big.Rat) int { return a.Cmp(b) })
	best := asked[0]
	for _, x := range asked {
		if ratGap(x, unit).Cmp(ratGap(best, unit)) <= 0 {
			best = x
		}
	}
	return best
}

func ratGap(a, b *big.Rat) *big.Rat {
	gap := ratSub(a, b)
	return gap.Abs(gap)
}

// takeCodes is what items still come to after the codes of the order.
func (s *oracleSlip) takeCodes(before *big.Rat) *big.Rat {
	left := before
	for _, p := range s.c.Promotions {
		if slices.Contains(s.o.Codes, p.ID) {
			left = ratSub(left, s.takenOff(p, before, left))
		}
	}
	s.beforeShop = left
	if s.o.reduced != nil { // the shop's own discount, as if it were the last code
		left = ratSub(left, s.money(ratMul(left, s.o.reduced)))
	}
	return left
}

func (s *oracleSlip) takenOff(p oraclePromotion, before, left *big.Rat) *big.Rat {
	tested := left
	if p.Test == "before" {
		tested = before
	}
	if p.Products != nil && !slices.Contains(p.Products, s.product) || ratAdd(tested, s.o.worth()).Cmp(p.From.or(0)) < 0 {
		return new(big.Rat)
	}
	off := new(big.Rat) // by a set, of which this order holds one product only
	switch {
	case p.Rate.given():
		off = ratMul(left, p.Rate.r)
	case p.Amount.given():
		off = ratMin(s.o.ofOrder(p.Amount.r), left)
	case p.Buy.given():
		groups := new(big.Rat).SetInt(ratFloor(ratQuo(s.items, p.Buy.r)))
		off = ratQuo(ratMul(left, ratMul(groups, p.Free.r)), s.items)
	case p.Sale.given():
		off = ratMax(ratSub(left, ratMul(p.Sale.r, s.items)), off)
	}
	return ratMin(oracleRound(off, s.minors, p.Rounding), left)
}
