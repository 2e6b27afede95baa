package pricelist_test

import (
	"math/big"
	"slices"
)

// charges is all that is taken of an order: the fees of the list, then what
// follows from the way in which the channel sells.
func (s *oracleSlip) charges() []oracleCharge {
	var list []oracleCharge
	for _, f := range s.c.Fees {
		if f.Orders != nil && !slices.Contains(f.Orders, s.o.ID) {
			continue
		}
		full := s.feeInFull(f)
		if a := s.c.After; a != nil && (f.Rate.or(0).Sign() > 0 || f.Tiers != nil) {
			back := ratMul(ratMul(a.Returned.or(0), a.Part.or(1)), a.Fees.or(0))
			full = ratMul(full, ratSub(ratOf(1), back))
		}
		list = append(list, oracleCharge{full, f.Share.or(1)})
	}
	kept := slices.Concat(s.ofConsignment(), s.ofHouse())
	if len(kept) > 0 { // the first is what a shop or a house keeps of the price
		kept[0].full = ratMul(kept[0].full, ratSub(ratOf(1), s.c.After.givenBack()))
	}
	always := slices.Concat(s.ofTrade(), kept, s.afterSale())
	if s.c.Abroad != nil {
		changed := s.money(ratMul(s.paid(), s.c.Abroad.Conversion.or(0))) // of own items alone, since it has a rate alone
		always = append(always, oracleCharge{full: changed})
	}
	for _, charge := range always {
		if charge.share == nil {
			charge.share = ratOf(1)
		}
		list = append(list, charge)
	}
	return list
}

// paid is what the buyer pays: items, shipping, surcharge and tax.
func (s *oracleSlip) paid() *big.Rat {
	return ratAdd(ratAdd(ratAdd(s.goods, s.shipping), s.surcharge), s.onTop)
}

func (s *oracleSlip) feeInFull(f oracleFee) *big.Rat {
	round := func(x *big.Rat) *big.Rat {
		if f.Expected {
			return x
		}
		return oracleRound(x, s.minors, f.Rounding)
	}
	over := f.Over.or(1)
	own, all := s.feeBase(f), s.items
	base, times := ratMul(own, over), ratOf(1)
	if s.beside != nil {
		base, all = ratMul(ratAdd(own, s.beside.feeBase(f)), over), ratAdd(all, s.o.Others.Items.r)
	}
	if f.Per == "item" {
		times = ratMul(all, over)
	}
	one := ratAdd(f.onBase(ratQuo(base, times)), f.Fixed.or(0)) // of one item, or of the order
	fee := ratMul(one, times)
	if f.AtLeast.given() {
		fee = ratMax(fee, f.AtLeast.r)
	}
	if f.AtMost.given() {
		fee = ratMin(fee, f.AtMost.r)
	}
	if s.beside != nil {
		fee = s.ownOf(f, fee, ratMul(own, over), base, ratQuo(base, times))
	}
	fee = round(fee)
	fee = ratAdd(fee, round(ratMul(fee, f.Tax.or(0))))
	return ratQuo(fee, over)
}

// ownOf is what own items bear of a fee of a base that others have a part in: their base at the
// rate that the last of the base is charged at, and of the rest their share by count.
func (s *oracleSlip) ownOf(f oracleFee, fee, own, base, each *big.Rat) *big.Rat {
	rate := f.Rate.or(0)
	for _, tier := range f.Tiers {
		if each.Cmp(tier.From.or(0)) >= 0 {
			rate = tier.Rate.or(0)
		}
	}
	bears := ratAdd(ratMul(rate, own), s.o.ofOrder(ratSub(fee, ratMul(rate, base))))
	return ratMin(ratMax(bears, new(big.Rat)), fee)
}

// feeBase is what one order brings to what a fee is taken of.
func (s *oracleSlip) feeBase(f oracleFee) *big.Rat {
	of := f.Of
	if of == nil {
		of = []string{"items"}
	}
	base, holding, shipping := new(big.Rat), new(big.Rat), (*big.Rat)(nil)
	for _, part := range of {
		amount := map[string]*big.Rat{"items": s.goods, "shipping": s.shipping, "tax": s.onTop, "discount": s.discount, "surcharge": s.surcharge}[part]
		base = ratAdd(base, amount)
		switch part {
		case "items", "discount":
			holding = ratAdd(holding, amount)
		case "shipping":
			shipping = s.taxedShipping()
		}
	}
	if !f.Net {
		return base
	}
	if slices.Contains(of, "surcharge") {
		base = ratSub(base, s.surchargeHolds)
	}
	return ratSub(base, s.heldIn(holding, shipping))
}

func (f oracleFee) onBase(base *big.Rat) *big.Rat {
	if len(f.Tiers) == 0 {
		return ratMul(base, f.Rate.or(0))
	}
	sum, next := new(big.Rat), base
	for _, tier := range slices.Backward(f.Tiers) { // from the highest down
		from := tier.From.or(0)
		if base.Cmp(from) < 0 {
			continue
		}
		if f.TierMode == "whole" {
			return ratAdd(ratMul(base, tier.Rate.or(0)), tier.Fixed.or(0))
		}
		sum = ratAdd(sum, ratAdd(ratMul(ratSub(next, from), tier.Rate.or(0)), tier.Fixed.or(0)))
		next = from
	}
	return sum
}
