package fair

import "example.com/quoin"

// BreakEvenSales returns the sales that bear the fixed costs: fixed ÷ kept,
// where kept is the share of sales that is left after goods and all else that
// grows with them. Not rounded. It returns false where nothing is kept.
func BreakEvenSales(fixed quoin.Amount, kept quoin.Rate) (quoin.Amount, bool) {
	if kept.Sign() <= 0 {
		return quoin.Amount{}, false
	}
	return fixed.Over(kept.Factor()), true
}

// PrintsFor returns how many prints bear the fixed costs and leave a target
// profit: (fixed + target) ÷ kept, where kept is what one print contributes.
// Not rounded: whole prints are rounded up by the caller. It returns false where
// nothing is kept.
func PrintsFor(fixed, target, kept quoin.Amount) (quoin.Factor, bool) {
	if kept.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	return fixed.Add(target).Ratio(kept), true
}

// Composite is products sold together in a fixed proportion, as one thing: five
// cards, three small prints and two large ones. It is for proportions in units;
// a Fair has its mix in shares.
type Composite []Portion

// Portion is one product of a composite.
type Portion struct {
	Product string
	Units   quoin.Factor // in one composite
	Price   quoin.Amount // of a unit
	Kept    quoin.Amount // price less what grows with each unit
}

// Price returns what one composite sells for: Σ units × price.
func (c Composite) Price() quoin.Amount {
	var sum quoin.Amount
	for _, p := range c {
		sum = sum.Add(p.Price.Times(p.Units))
	}
	return sum
}

// Kept returns what one composite contributes: Σ units × kept.
func (c Composite) Kept() quoin.Amount {
	var sum quoin.Amount
	for _, p := range c {
		sum = sum.Add(p.Kept.Times(p.Units))
	}
	return sum
}

// BreakEven returns how many composites bear the fixed costs and leave a target
// profit, not rounded; false where a composite keeps nothing.
func (c Composite) BreakEven(fixed, target quoin.Amount) (quoin.Factor, bool) {
	return PrintsFor(fixed, target, c.Kept())
}

// Units returns how many of each product so many composites are, each the
// nearest whole number, halves up. From an unrounded break-even the units may
// fall short of it by less than one of each; who wants none to fall short rounds
// the composites up first. Published sums do the one or the other.
func (c Composite) Units(composites quoin.Factor) []quoin.Factor {
	out := make([]quoin.Factor, len(c))
	for i, p := range c {
		out[i] = composites.Times(p.Units).Round(0, quoin.HalfUp)
	}
	return out
}

// MarginOfSafety returns by how much sales exceed the break-even sales, as money
// and as a share of sales: what can be missed before there is a loss. Both are
// negative below break-even. It returns false where sales are not above zero.
func MarginOfSafety(sales, breakEven quoin.Amount) (quoin.Amount, quoin.Rate, bool) {
	if sales.Sign() <= 0 {
		return quoin.Amount{}, quoin.Rate{}, false
	}
	over := sales.Sub(breakEven)
	return over, over.Share(sales), true
}

// OperatingLeverage returns contribution ÷ result, where contribution is all
// that is kept before the fixed costs: by how many per cent the result moves
// for each per cent of sales. Not rounded. It returns false where the result is
// not above zero, at which it means nothing.
func OperatingLeverage(contribution, result quoin.Amount) (quoin.Factor, bool) {
	if result.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	return contribution.Ratio(result), true
}
