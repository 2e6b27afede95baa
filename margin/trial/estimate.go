package trial

import (
	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// figure is an estimate that is known to be in reach, else zero.
func figure(x float64) quoin.Factor { return estimate.Six(x).Or(quoin.Factor{}) }

func share(x float64) quoin.Rate { return figure(min(max(x, 0), 1)).Rate() }

// likely returns a share that was given as a float, else the default.
func likely(r quoin.Optional[quoin.Rate], or string) float64 {
	return estimate.Float(r.Or(quoin.MustRate(or)).Factor())
}

func level(r quoin.Optional[quoin.Rate]) float64 { return likely(r, "0.95") }

// root returns where f, which rises from low to high, passes zero: to the last
// bits, since each step halves what is left.
func root(low, high float64, f func(float64) float64) float64 {
	for range 200 {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			break
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low + (high-low)/2
}
