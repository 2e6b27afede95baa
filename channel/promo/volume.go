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
