package promo

import "example.com/quoin"

// VolumeNeeded returns how many sales at a lower price earn as much as one sale before: before
// ÷ after, to 34 digits, where both are contributions of a sale. 12.00 before and 9.00 after is
// 1.3333: sell 134 for every 100. It returns 0 if a sale contributed nothing before. It returns
// false if a sale contributes nothing after, because then no volume is enough.
func VolumeNeeded(before, after quoin.Amount) (quoin.Factor, bool) {
	if after.Sign() <= 0 {
		return quoin.Factor{}, false
	}
	if before.Sign() <= 0 {
		return quoin.Factor{}, true
	}
	return before.Ratio(after), true
}
