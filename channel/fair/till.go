package fair

import "example.com/quoin"

// Till returns a price with tax as it can be paid in coins: the nearest multiple of step. Of
// two equally near ones it is the one farther from zero. With a step of 0.05, 7.32 becomes
// 7.30. A step that is not above zero does not round. A price below half a step becomes zero.
//
// The rounded price is the price: tax and revenue are computed from it.
func Till(price, step quoin.Amount) quoin.Amount {
	if step.Sign() <= 0 {
		return price
	}
	price, step = price.Snap(), step.Snap()
	left := price.Mod(step)
	down := price.Sub(left)
	twice := left.Add(left)
	switch {
	case twice.Cmp(step) >= 0:
		return down.Add(step)
	case twice.Neg().Cmp(step) >= 0:
		return down.Sub(step)
	}
	return down
}
