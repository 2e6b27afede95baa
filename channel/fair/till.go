package fair

import "example.com/quoin"

// Till returns a shelf price, with the tax it holds, as it can be paid in coins:
// the nearest multiple of step, a tie to the one farther from zero. A step that
// is not above zero asks for no rounding. A price below half a step becomes
// zero.
//
// The price so rounded is the price: tax and revenue are worked out of it.
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
