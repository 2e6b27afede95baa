package promo

import "example.com/quoin"

// VolumeNeeded returns how many have to be sold at a lower price for each one
// sold before, to be no worse off: before ÷ after, what one adds to profit at
// either price (its contribution), to 34 digits. It is 0 where one added nothing
// before, and false where one adds nothing after: no volume makes up for that.
//
//	before × 1 = after × needed
func VolumeNeeded(before, after quoin.Amount) (quoin.Factor, bool) {
	if after.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	if before.Sign() <= 0 {
		return quoin.Factor{}, true
	}
	return before.Ratio(after), true
}

// VolumeKept returns the share of the volume that has to stay for a rise in
// price to be right: before ÷ after, so 1 − kept is what the rise may lose. It is
// VolumeNeeded as a share, and false where that is; above 100% it was no rise.
//
//	kept = before ÷ (before + rise), where costs stay the same
func VolumeKept(before, after quoin.Amount) (quoin.Rate, bool) {
	f, ok := VolumeNeeded(before, after)
	return f.Rate(), ok
}

// Drop returns what share of a maker's earnings a discount costs that is paid
// wholly out of the maker's share of the price: discount ÷ share, to 34 digits.
// A code of 10% paid from a share of 50% costs 20%. Above 100% the maker pays
// to sell. It is false where share is not above zero.
func Drop(discount, share quoin.Rate) (quoin.Rate, bool) {
	if share.Sign() <= 0 {
		return quoin.Rate{}, false
	}
	return discount.Factor().Over(share.Factor()).Rate(), true
}

// Series returns the single discount that a chain of discounts comes to, each
// off what the one before it leaves, exactly: 1 − (1 − d₁) × (1 − d₂) × …; none
// is 0. Their order does not matter.
func Series(discounts ...quoin.Rate) quoin.Rate {
	left := quoin.FactorOf(1)
	for _, d := range discounts {
		left = left.Times(d.Complement())
	}
	return left.Rate().Complement().Rate()
}
