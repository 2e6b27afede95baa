// Package estimate is the statistics that margin/market and margin/trial share, and how what
// was estimated leaves them: as a decimal of six significant digits, the same on every machine.
package estimate

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"example.com/quoin"
)

// Six rounds x to six significant digits, and to at most 16 places. It is not given for what
// is no number, or reaches 10^12.
func Six(x float64) (none quoin.Optional[quoin.Factor]) {
	six, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64)
	f, err := quoin.ParseFactor(strconv.FormatFloat(six, 'f', -1, 64)) // which takes 12 digits before the point
	if err != nil {
		f, err = quoin.ParseFactor(strconv.FormatFloat(six, 'f', 16, 64))
	}
	if err != nil {
		return none
	}
	return quoin.Some(f)
}

// Between is Six of the ends of a range; both or none.
func Between(low, high float64) (none quoin.Optional[quoin.Range[quoin.Factor]]) {
	l, ok := Six(low).Get()
	h, too := Six(high).Get()
	if !ok || !too {
		return none
	}
	return quoin.Some(quoin.Between(l, h))
}

// Float is the nearest float to an exact number.
func Float(x interface{ String() string }) float64 {
	v, _ := strconv.ParseFloat(x.String(), 64)
	return v
}

// Normal is the quantile of the standard normal distribution.
func Normal(p float64) float64 { return distuv.UnitNormal.Quantile(p) }

// NormalBeyond is how many standard deviations a normal variable stays within with the given
// confidence: 1.96 at 95%.
func NormalBeyond(confidence float64) float64 { return Normal(0.5 + confidence/2) }

// StudentBeyond is the same for Student's t.
func StudentBeyond(confidence, degrees float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: degrees}.Quantile(0.5 + confidence/2)
}

// Wilson is Wilson's score interval for a share p of n.
func Wilson(p, n, confidence float64) (low, high float64) {
	z := NormalBeyond(confidence)
	z2 := z * z / n
	middle := (p + z2/2) / (1 + z2)
	half := math.Sqrt(p*(1-p)*z2+z2*z2/4) / (1 + z2)
	return min(max(middle-half, 0), p), max(min(middle+half, 1), p)
}

// Line is a straight line through points, with the standard errors of both its figures and
// that of a point.
type Line struct{ Start, Slope, StartError, SlopeError, Residual float64 }

// Through fits y = start + slope × x by least squares, of weights that stand for n points. It
// is false where all x are the same. With n of 2 there are no errors.
func Through(x, y, weights []float64, n float64) (Line, bool) {
	mean := stat.Mean(x, weights)
	var across, left, all float64
	for i, w := range weights {
		across += w * (x[i] - mean) * (x[i] - mean)
		all += w
	}
	if across <= 0 {
		return Line{}, false
	}
	start, slope := stat.LinearRegression(x, y, weights, false)
	for i, w := range weights {
		left += w * math.Pow(y[i]-start-slope*x[i], 2)
	}
	residual := math.Sqrt(left / (n - 2))
	return Line{start, slope, residual * math.Sqrt(1/all+mean*mean/across), residual / math.Sqrt(across), residual}, true
}
