package estimate_test

import (
	"math"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// as reports whether x is a published figure, to its last digit.
func as(x, published float64, places int) bool {
	return math.Abs(x-published) <= 0.5000001*math.Pow(10, -float64(places))
}

func TestPublishedQuantiles(t *testing.T) {
	// Tables of the standard normal distribution and of Student's t, two-sided, as statistics
	// textbooks print them (from memory).
	for _, c := range []struct {
		got, want float64
	}{
		{estimate.Normal(0.5), 0},
		{estimate.Normal(0.975), 1.960},
		{estimate.Normal(0.05), -1.645},
		{estimate.NormalBeyond(0.95), 1.960},
		{estimate.NormalBeyond(0.9), 1.645},
		{estimate.NormalBeyond(0.99), 2.576},
		{estimate.NormalBeyond(0), 0},
		{estimate.StudentBeyond(0.95, 1), 12.706},
		{estimate.StudentBeyond(0.95, 10), 2.228},
		{estimate.StudentBeyond(0.9, 5), 2.015},
		{estimate.StudentBeyond(0.99, 30), 2.750},
	} {
		if !as(c.got, c.want, 3) {
			t.Errorf("%v, want %v", c.got, c.want)
		}
	}
}

// R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine
// 17, 1998, table I, Wilson's score without continuity correction (from memory).
func TestPublishedWilson(t *testing.T) {
	for _, c := range []struct{ hits, n, low, high float64 }{
		{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}, {29, 29, 0.8830, 1},
	} {
		low, high := estimate.Wilson(c.hits/c.n, c.n, 0.95)
		if !as(low, c.low, 4) || !as(high, c.high, 4) || low < 0 || high > 1 {
			t.Errorf("%v of %v: %v to %v, want %v to %v", c.hits, c.n, low, high, c.low, c.high)
		}
	}
}

// A share lies within its interval, and that from 0 to 1, also where floats are a hair off.
func TestWilsonWithinBounds(t *testing.T) {
	for n := 1.0; n <= 3000; n++ {
		for _, p := range []float64{0, 1 / n, 1 - 1/n, 1} {
			if low, high := estimate.Wilson(p, n, 0.95); low < 0 || low > p || high < p || high > 1 {
				t.Fatalf("%v of %v: %v to %v", p, n, low, high)
			}
		}
	}
}

// F. J. Anscombe, Graphs in Statistical Analysis, The American Statistician 27, 1973, the first data
// set: 3.00 + 0.500 x, with standard errors of 1.125 and 0.118, and 1.237 of a point.
func TestPublishedLine(t *testing.T) {
	x := []float64{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}
	y := []float64{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}
	ones := make([]float64, len(x))
	for i := range ones {
		ones[i] = 1
	}
	l, ok := estimate.Through(x, y, ones, 11)
	if !ok || !as(l.Start, 3.0001, 4) || !as(l.Slope, 0.5001, 4) || !as(l.StartError, 1.1247, 4) || !as(l.SlopeError, 0.1179, 4) || !as(l.Residual, 1.2366, 4) {
		t.Errorf("%+v, %t", l, ok)
	}
	// A point of weight 3 is three points.
	x, y, ones = append(x, 4, 4, 14), append(y, 4.26, 4.26, 9.96), append(ones, 1, 1, 1)
	each, _ := estimate.Through(x, y, ones, 14)
	ones[7], ones[5] = 3, 2
	heavy, ok := estimate.Through(x[:11], y[:11], ones[:11], 14)
	for i, pair := range [][2]float64{
		{each.Start, heavy.Start}, {each.Slope, heavy.Slope}, {each.StartError, heavy.StartError}, {each.SlopeError, heavy.SlopeError}, {each.Residual, heavy.Residual},
	} {
		if !ok || math.Abs(pair[0]-pair[1]) > 1e-12 {
			t.Errorf("figure %d is %v, of weights %v", i, pair[0], pair[1])
		}
	}
	// 1 + 0.5 x, through points that differ by less than 1, has no errors.
	exact, ok := estimate.Through([]float64{0, 0.5, 0.25}, []float64{1, 1.25, 1.125}, []float64{1, 1, 1}, 3)
	if !ok || !as(exact.Start, 1, 12) || !as(exact.Slope, 0.5, 12) || !as(exact.Residual, 0, 12) || !as(exact.SlopeError, 0, 12) {
		t.Errorf("%+v, %t", exact, ok)
	}
	if l, ok := estimate.Through([]float64{4, 4}, []float64{1, 2}, []float64{1, 1}, 2); ok || l != (estimate.Line{}) {
		t.Errorf("through points above each other: %+v", l)
	}
}

// What is no number, or too large for a decimal, is not given.
func TestEndsOfAnEstimate(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e12, 1.1e12, 999_999_999_999} { // which rounds to 10^12
		if got := estimate.Six(x); got.IsGiven() {
			t.Errorf("%g leaves as %v", x, got)
		}
		if got := estimate.Between(x, 1); got.IsGiven() {
			t.Errorf("%g to 1 leaves as %v", x, got)
		}
		if got := estimate.Between(1, x); got.IsGiven() {
			t.Errorf("1 to %g leaves as %v", x, got)
		}
	}
	for x, want := range map[float64]string{999_999_000_000: "999999000000", -999_999_000_000: "-999999000000", 0: "0", math.Copysign(0, -1): "0", -4e-17: "0", -0.5: "-0.5"} {
		if got, ok := estimate.Six(x).Get(); !ok || got.String() != want {
			t.Errorf("%g leaves as %s, want %s", x, got, want)
		}
	}
	if r, ok := estimate.Between(0.25, 1.0000049).Get(); !ok || r.Low.String() != "0.25" || r.High.String() != "1" {
		t.Errorf("%s to %s", r.Low, r.High)
	}
	if got := estimate.Float(quoin.MustAmount("17.50")); got != 17.5 {
		t.Errorf("17.50 is %v", got)
	}
}
