package edition

import (
	"slices"

	"example.com/quoin"
)

// PricedStep is a step with its price and the prints that sell at it.
type PricedStep struct {
	Step  int          // its place in the steps of the edition, from 0
	Price quoin.Amount // what is asked for a print
	// From and To are the first and the last print of the step in the order of
	// selling, from 1, those sold already among them. To is From − 1 where the
	// step has none.
	From, To int64
	// Count is how many of them are still to be sold.
	Count int64
	// PerMonth is how many are expected to sell in a month; zero where no pace
	// was given.
	PerMonth quoin.Factor
}

// Ladder returns the price of each step, in order, or one at the list price if the edition has
// no steps. The price is times × list, changed by ask to a price that can be asked, such as the
// next allowed one. A step with a price of its own keeps it. Without ask, nothing is rounded.
// 1.25 times 23.90 is 29.875, and 29.90 if ask raises it to the next 0.90.
//
// The tally, of Audit or Unsold, says how many are sold already and how many will be sold in
// the end. The counts of the steps add up to those still to be sold. If several sizes share one
// numbering, the ladder of each size has the same counts, as if all the rest were sold in that
// size. Check must accept the edition.
func (e Edition) Ladder(of Tally, list quoin.Amount, ask func(quoin.Amount) quoin.Amount) []PricedStep {
	steps := e.steps()
	out := make([]PricedStep, len(steps))
	for i, s := range steps {
		pace := e.PerMonth
		if s.PerMonth.Sign() > 0 {
			pace = s.PerMonth
		}
		to := of.Last()
		if i+1 < len(steps) {
			to = min(to, steps[i+1].Sold)
		}
		to = max(to, s.Sold)
		out[i] = PricedStep{Step: i, Price: s.price(list, ask), From: s.Sold + 1, To: to, Count: max(to-max(s.Sold, of.Sold), 0), PerMonth: pace}
	}
	return out
}

// steps are those of the edition, or the one that holds where it has none.
func (e Edition) steps() []PriceStep {
	if len(e.Steps) > 0 {
		return e.Steps
	}
	return []PriceStep{{Times: quoin.FactorOf(1)}}
}

func (s PriceStep) price(list quoin.Amount, ask func(quoin.Amount) quoin.Amount) quoin.Amount {
	if own, given := s.Price.Get(); given {
		return own
	}
	price := list.Times(s.Times)
	if ask != nil {
		price = ask(price)
	}
	return price
}

// Current returns the step at which the next print sells, or false if none is left.
func Current(steps []PricedStep) (PricedStep, bool) {
	i := slices.IndexFunc(steps, func(s PricedStep) bool { return s.Count > 0 })
	if i < 0 {
		return PricedStep{}, false
	}
	return steps[i], true
}

// months returns how long a number of prints takes to sell at the step; false
// where there are some and no pace was given.
func (s PricedStep) months(count int64) (quoin.Factor, bool) {
	if count <= 0 {
		return quoin.Factor{}, true
	}
	if s.PerMonth.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	return quoin.FactorOf(count).Over(s.PerMonth), true
}
