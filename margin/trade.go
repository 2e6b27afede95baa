package margin

import "example.com/quoin"

// PriceForMarkup returns the price at a mark-up on cost: cost × (1 + markup). 10.00 at 100%, a
// keystone, is 20.00.
func PriceForMarkup(cost quoin.Amount, markup quoin.Rate) quoin.Amount {
	return cost.Times(markup.OnePlus())
}

// PriceForMargin returns the price at which the margin, a share of the price, is left after
// cost: cost ÷ (1 − margin). 10.00 at 60% is 25.00. It returns false if the margin is 100% or
// more, because no price leaves that.
func PriceForMargin(cost quoin.Amount, margin quoin.Rate) (quoin.Amount, bool) {
	rest := margin.Complement()
	if rest.Sign() <= 0 {
		return quoin.Amount{}, false
	}
	return cost.Over(rest), true
}

// Markup returns (price − cost) ÷ cost, or false if cost is not above zero. 10.00 sold at 25.00
// is 150%.
func Markup(cost, price quoin.Amount) (quoin.Rate, bool) { return share(price.Sub(cost), cost) }

// Margin returns (price − cost) ÷ price, or false if price is not above zero. 10.00 sold at
// 25.00 is 60%.
func Margin(cost, price quoin.Amount) (quoin.Rate, bool) { return share(price.Sub(cost), price) }

// BreakEven returns how many units must be sold until their contribution covers fixed costs and
// a target profit: (fixed + target) ÷ contribution. 28.00 at 8.00 a unit is 3.5. It is not
// rounded; for one product the caller rounds up. It returns false if a unit contributes
// nothing.
func BreakEven(fixed, target, contribution quoin.Amount) (quoin.Factor, bool) {
	if contribution.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	return fixed.Add(target).Ratio(contribution), true
}
