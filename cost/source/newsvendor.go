package source

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// ToHaveMade returns how many prints to order for a demand. Short returns the loss of one print
// too few, if the house charges so much for a print. The loss of one too many is the price
// itself. Each price break gives one quantity: Demand.Order at its price, kept inside the break
// and inside minimum and multiples. The quantity that earns most is taken, and the smallest of
// equals:
//
//	earns(n) = short × (n − left over) − asked × left over, where asked is goods(n) ÷ n
//
// It returns 0 if every quantity loses money, and false if at no price anything is lost or
// gained. Freight, set-up and proof are left out, because they do not grow with the prints.
// Check must accept the demand and the scale.
func (q Quote) ToHaveMade(demand Demand, short func(asked quoin.Amount) quoin.Amount) (prints int64, ok bool) {
	v := vendor{q, demand, short}
	var most quoin.Amount
	for j := len(q.Scale.Steps) - 1; j >= 0; j-- {
		candidates, settled := v.within(j)
		for _, n := range candidates {
			earns := v.earns(n)
			if better := earns.Cmp(most); !ok || better > 0 || better == 0 && n < prints {
				prints, most, ok = n, earns, true
			}
		}
		if settled {
			break
		}
	}
	if most.Sign() < 0 {
		prints = 0
	}
	return prints, ok
}

type vendor struct {
	Quote
	demand Demand
	short  func(asked quoin.Amount) quoin.Amount
}

func (v vendor) earns(n int64) quoin.Amount {
	if n == 0 {
		return quoin.Amount{}
	}
	asked := v.Scale.Goods(n).Over(quoin.FactorOf(n))
	left := v.demand.LeftOver(n)
	return v.short(asked).Times(quoin.FactorOf(n).Sub(left)).Sub(asked.Times(left))
}

// within returns the quantities of step j that may be best, and whether no smaller one is:
// where the demand asks for the cheapest step by itself.
func (v vendor) within(j int) (candidates []int64, settled bool) {
	s := v.Scale
	asked, first, last := s.Steps[j].Each, s.Sold(s.Steps[j].From), int64(mostVolume)
	if j+1 < len(s.Steps) {
		last = s.Steps[j+1].From - 1
	}
	ratio, ok := CriticalRatio(v.short(asked), asked)
	if !ok || first > last {
		return nil, false
	}
	n := v.demand.Order(ratio)
	if n == 0 && j == 0 {
		return []int64{0}, true
	}
	multiple := max(s.Multiple, 1)
	within := max(min(n, last), first)
	candidates = append(candidates, within/multiple*multiple)
	if up := s.Sold(within); up <= last {
		candidates = append(candidates, up)
	}
	return candidates, n >= first && v.cheapest(j)
}

// cheapest reports whether no smaller quantity has a lower price than step j.
func (v vendor) cheapest(j int) bool {
	cheaper := func(p buy.PriceBreak) bool { return p.Each.Cmp(v.Scale.Steps[j].Each) < 0 }
	return !slices.ContainsFunc(v.Scale.Steps[:j], cheaper)
}
