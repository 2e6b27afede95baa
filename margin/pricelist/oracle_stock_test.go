package pricelist_test

import (
	"math/big"
	"slices"
)

// Stocks, worked out day by day.

type oracleStock struct {
	Unit, Basis, Worth string
	Replacement        oracleNumber
	Received           []struct {
		Date     string
		Quantity oracleQuantity
		Cost     oracleNumber
	}
	Used []struct {
		Date     string
		Quantity oracleQuantity
	}
}

type oraclePurchase struct {
	ID, Date string
	Lines    []struct {
		Supply   string
		Quantity oracleQuantity
		Price    oracleNumber
	}
	Shared []struct {
		Name     string
		Amount   oracleNumber
		Discount bool
		By, Line string
	}
	Tax oracleNumber
}

// oracleLot is what came in at once: how much is left of it, and what all of it cost
// divided by how much it was.
type oracleLot struct{ left, each *big.Rat }

func (s *oracleShop) takeStock() {
	for i := range s.Supplies {
		if k := s.Supplies[i].Stock; k != nil {
			s.Supplies[i].Price.r = s.unitInStock(s.Supplies[i].ID, k)
			s.paid = append(s.paid, s.paidForStock(s.Supplies[i].ID, k))
			s.Supplies[i].Quantity = oracleQuantity{ratOf(1), k.Unit}
		}
	}
}

// unitInStock is what the next unit costs.
func (s *oracleShop) unitInStock(id string, k *oracleStock) *big.Rat {
	lots, last := s.lotsOf(id, k)
	switch k.Basis {
	case "replacement":
		return k.Replacement.r
	case "last":
		return last
	case "first_in":
		return lots[0].each
	}
	return k.level(lots)[0].each
}

// paidForStock is what was paid for what is there, whatever prices go by.
func (s *oracleShop) paidForStock(id string, k *oracleStock) *big.Rat {
	books := *k
	switch {
	case k.Worth != "":
		books.Basis = k.Worth
	case k.Basis != "average":
		books.Basis = "first_in"
	}
	lots, _ := s.lotsOf(id, &books)
	paid := new(big.Rat)
	for _, l := range lots {
		paid = ratAdd(paid, ratMul(l.left, l.each))
	}
	return paid
}

// lotsOf goes through the days: first what came in on each, then what went out. last is what a unit
// of the last receipt cost.
func (s *oracleShop) lotsOf(id string, k *oracleStock) (lots []oracleLot, last *big.Rat) {
	for _, day := range []string{"2026-03-01", "2026-03-02", "2026-03-03"} {
		if day > s.Date {
			break
		}
		came := func(quantity, cost *big.Rat) {
			last = ratQuo(cost, quantity)
			lots = append(lots, oracleLot{quantity, last})
		}
		for _, r := range k.Received {
			if r.Date == day {
				came(r.Quantity.size, r.Cost.r)
			}
		}
		for _, p := range s.Purchases {
			if p.Date != day {
				continue
			}
			for i, cost := range p.landed(oracleMinors(s.Currency)) {
				if p.Lines[i].Supply == id {
					came(p.Lines[i].Quantity.size, cost)
				}
			}
		}
		for _, u := range k.Used {
			if u.Date == day {
				lots = k.use(lots, u.Quantity.size)
			}
		}
	}
	return lots, last
}

// use takes so much off the oldest; where all cost the average, all are made one lot.
func (k *oracleStock) use(lots []oracleLot, quantity *big.Rat) []oracleLot {
	if k.Basis == "average" {
		lots = k.level(lots)
	}
	lots = slices.Clone(lots)
	for quantity.Sign() > 0 {
		taken := ratMin(quantity, lots[0].left)
		lots[0].left, quantity = ratSub(lots[0].left, taken), ratSub(quantity, taken)
		if lots[0].left.Sign() == 0 {
			lots = lots[1:]
		}
	}
	return lots
}

func (k *oracleStock) level(lots []oracleLot) []oracleLot {
	all, value := new(big.Rat), new(big.Rat)
	for _, l := range lots {
		all, value = ratAdd(all, l.left), ratAdd(value, ratMul(l.left, l.each))
	}
	return []oracleLot{{all, ratQuo(value, all)}}
}

// landed is what each line cost with its shares, and then with its share of the tax.
func (p oraclePurchase) landed(minors *big.Int) []*big.Rat {
	costs := make([]*big.Rat, len(p.Lines))
	for i, l := range p.Lines {
		costs[i] = l.Price.r
	}
	for _, s := range p.Shared {
		weights := make([]*big.Rat, len(p.Lines))
		for i, l := range p.Lines {
			switch {
			case s.Line != "" && l.Supply != s.Line:
				weights[i] = new(big.Rat)
			case s.Line != "" || s.By == "value":
				weights[i] = l.Price.r
			case s.By == "count":
				weights[i] = l.Quantity.size
			default:
				weights[i] = ratOf(1)
			}
		}
		for i, part := range largestRemainder(s.Amount.r, weights, minors) {
			if s.Discount {
				part = new(big.Rat).Neg(part)
			}
			costs[i] = ratAdd(costs[i], part)
		}
	}
	sum := new(big.Rat)
	for _, c := range costs {
		sum = ratAdd(sum, c)
	}
	tax := oracleRound(ratMul(sum, p.Tax.or(0)), minors, "half_up")
	for i, part := range largestRemainder(tax, slices.Clone(costs), minors) {
		costs[i] = ratAdd(costs[i], part)
	}
	return costs
}

// largestRemainder splits whole minor units by weights: each has the whole ones of its
// part, and those left over go where most was cut off, the first of equals first.
func largestRemainder(amount *big.Rat, weights []*big.Rat, minors *big.Int) []*big.Rat {
	all := new(big.Rat)
	for _, w := range weights {
		all = ratAdd(all, w)
	}
	parts, cut := make([]*big.Rat, len(weights)), make([]*big.Rat, len(weights))
	left := ratMul(amount, new(big.Rat).SetInt(minors))
	for i, w := range weights {
		parts[i], cut[i] = new(big.Rat), new(big.Rat)
		if all.Sign() > 0 {
			exact := ratQuo(ratMul(ratMul(amount, new(big.Rat).SetInt(minors)), w), all)
			parts[i].SetInt(ratFloor(exact))
			cut[i] = ratSub(exact, parts[i])
			left = ratSub(left, parts[i])
		}
	}
	for ; left.Sign() > 0; left = ratSub(left, ratOf(1)) {
		most := 0
		for i := range cut {
			if cut[i].Cmp(cut[most]) > 0 {
				most = i
			}
		}
		parts[most], cut[most] = ratAdd(parts[most], ratOf(1)), ratOf(-1)
	}
	for i := range parts {
		parts[i] = ratQuo(parts[i], new(big.Rat).SetInt(minors))
	}
	return parts
}
