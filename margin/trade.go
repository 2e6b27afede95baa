package margin

import "example.com/quoin"

// PriceForMarkup returns cost × (1 + markup): the price at a mark-up on cost. A
// keystone is a mark-up of 100%.
func PriceForMarkup(cost quoin.Amount, markup quoin.Rate) quoin.Amount {
	return cost.Times(markup.OnePlus())
}

// PriceForMargin returns cost ÷ (1 − margin): the price at which the margin,
// a share of the price, is left after cost. It returns false where the margin
// is 100% or more, which no price leaves.
func PriceForMargin(cost quoin.Amount, margin quoin.Rate) (quoin.Amount, bool) {
	rest := margin.Complement()
	if rest.Sign() <= 0 {
		return quoin.Amount{}, false
	}
	return cost.Over(rest), true
}

// Markup returns (price − cost) ÷ cost; false where cost is not above zero.
func Markup(cost, price quoin.Amount) (quoin.Rate, bool) { return share(price.Sub(cost), cost) }

// Margin returns (price − cost) ÷ price; false where price is not above zero.
func Margin(cost, price quoin.Amount) (quoin.Rate, bool) { return share(price.Sub(cost), price) }

// BreakEven returns how many units have to be sold until contribution covers
// fixed costs and a target profit: (fixed + target) ÷ contribution, not
// rounded, since whole units are the caller's to count (up, for one product).
// It returns false where a unit contributes nothing.
func BreakEven(fixed, target, contribution quoin.Amount) (quoin.Factor, bool) {
	if contribution.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	return fixed.Add(target).Ratio(contribution), true
}
