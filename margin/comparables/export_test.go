package comparables

import "math/big"

// LogOf is the logarithm to base 2 that records are sorted by; false where there is none.
func LogOf(x *big.Rat) (float64, bool) {
	n := logOf(x)
	return float64(n) / (1 << logPlaces), x.Sign() > 0
}

// ByLogarithms reports whether records were sorted by logarithms.
func (r *Ranking) ByLogarithms() bool { return r.keys != nil }

// Settled is how many records of such a ranking were sorted by their prices so far.
func (r *Ranking) Settled() (n int) {
	for _, s := range r.settled {
		n += s[1] - s[0]
	}
	return n
}
