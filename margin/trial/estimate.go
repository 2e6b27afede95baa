package trial

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/quoin"
)

// estimate rounds x to six significant digits, and to at most 16 places; false
// for what is no number, or reaches 10^12.
func estimate(x float64) (quoin.Factor, bool) {
	if math.IsNaN(x) || math.Abs(x) >= 1e12 {
		return quoin.Factor{}, false
	}
	six, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64)
	if err != nil {
		return quoin.Factor{}, false
	}
	if six == 0 { // and no minus before it
		return quoin.Factor{}, true
	}
	text := strconv.FormatFloat(six, 'f', -1, 64)
	if f, err := quoin.ParseFactor(text); err == nil {
		return f, true
	}
	f, err := quoin.ParseFactor(strconv.FormatFloat(six, 'f', 16, 64))
	return f, err == nil
}

// figure is an estimate that is known to be in reach, else zero.
func figure(x float64) quoin.Factor {
	f, _ := estimate(x)
	return f
}

// perhaps is an estimate, or none.
func perhaps(x float64) quoin.Optional[quoin.Factor] {
	if f, ok := estimate(x); ok {
		return quoin.Some(f)
	}
	return quoin.Optional[quoin.Factor]{}
}

func share(x float64) quoin.Rate { return figure(min(max(x, 0), 1)).Rate() }

type rational interface{ String() string }

// float is the nearest one to an exact number.
func float(x rational) float64 {
	v, _ := strconv.ParseFloat(x.String(), 64)
	return v
}

// likely returns a share that was given as a float, else the default.
func likely(r quoin.Optional[quoin.Rate], or string) float64 {
	return float(r.Or(quoin.MustRate(or)).Factor())
}

func level(r quoin.Optional[quoin.Rate]) float64 { return likely(r, "0.95") }

// normal is the quantile of the standard normal distribution.
func normal(p float64) float64 { return distuv.UnitNormal.Quantile(p) }

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
