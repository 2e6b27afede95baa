package market

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/margin/comparables"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.15g, published %.15g", what, got, want)
	}
}

// equally fits a line to pairs of the same weight.
func equally(t *testing.T, x, y []float64) estimate.Line {
	t.Helper()
	l, ok := estimate.Through(x, y, slices.Repeat([]float64{1}, len(x)), float64(len(x)))
	if !ok {
		t.Fatal("no line")
	}
	return l
}

func logs(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = math.Log(x)
	}
	return out
}

// 11.88: NIST StRD, Norris, 36 pairs as public copies of Norris.dat have them,
// certified to 15 digits; the residual standard deviation .884796396144373 from
// memory.
func TestNorris(t *testing.T) {
	x := []float64{
		0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
		556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
	}
	y := []float64{
		0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
		557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
	}
	l := equally(t, x, y)
	near(t, "slope", l.Slope, 1.00211681802045, 1e-13)
	near(t, "its error", l.SlopeError, .000429796848199937, 1e-15)
	near(t, "intercept", l.Start, -.262323073774029, 1e-11)
	near(t, "its error", l.StartError, .232818234301152, 1e-12)
	near(t, "residual", l.Residual, .884796396144373, 1e-12)
}

// 11.80: R, lm(log(dist) ~ log(speed), cars), to four places. The 50 rows are
// from memory; their sums, 770 and 2149, are those of the published means 15.4
// and 42.98.
func TestCars(t *testing.T) {
	speed := []float64{
		4, 4, 7, 7, 8, 9, 10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13, 13, 13, 14, 14, 14, 14, 15, 15,
		15, 16, 16, 17, 17, 17, 18, 18, 18, 18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25,
	}
	dist := []float64{
		2, 10, 4, 22, 16, 10, 18, 26, 34, 17, 28, 14, 20, 24, 28, 26, 34, 34, 46, 26, 36, 60, 80, 20, 26,
		54, 32, 40, 32, 40, 50, 42, 56, 76, 84, 36, 46, 68, 32, 48, 52, 56, 64, 66, 54, 70, 92, 93, 120, 85,
	}
	l := equally(t, logs(speed), logs(dist))
	near(t, "intercept", l.Start, -.7297, .00005)
	near(t, "its error", l.StartError, .3758, .00005)
	near(t, "slope", l.Slope, 1.6024, .00005)
	near(t, "its error", l.SlopeError, .1395, .00005)
	near(t, "residual", l.Residual, .4053, .00005)
	x := fitOf(t, speed, dist)
	near(t, "slope of prices on areas", estimate.Float(x.Exponent), 1.6024, .00005)
	near(t, "its error", estimate.Float(x.StandardError), .1395, .00005)
	near(t, "sellers", estimate.Float(x.Effective), 50, 0)
	near(t, "half of its interval in errors", (estimate.Float(x.Interval.High)-estimate.Float(x.Interval.Low))/2/estimate.Float(x.StandardError), 2.0106, .0001) // t of 48, from memory
	plain := equally(t, speed, dist)                                                                                                                             // lm(dist ~ speed, cars), from memory
	near(t, "plain intercept", plain.Start, -17.5791, .00005)
	near(t, "plain slope", plain.Slope, 3.9324, .00005)
}

// fitOf fits whole prices on areas, each of a seller of its own.
func fitOf(t *testing.T, areas, prices []float64) Fit {
	t.Helper()
	var records []comparables.Record
	for i := range areas {
		records = append(records, comparables.Record{
			Product: "print", Venue: "web", Seller: fmt.Sprint(i), Sold: 1,
			Size: quoin.MustSize(fmt.Sprint(areas[i], " x 1 cm")), Price: quoin.AmountOf(int64(prices[i]), 0),
		})
	}
	x, err := FitExponent(records, "", Basis{}, Options{})
	fit, ok := x.Fit.Get()
	if err != nil || !ok {
		t.Fatalf("%+v, %v", x, err)
	}
	return fit
}

// Student's t at 95%, two sides, of any table; from memory.
func TestStudent(t *testing.T) {
	for degrees, want := range map[float64]float64{1: 12.706, 2: 4.303, 5: 2.571, 10: 2.228, 30: 2.042, 120: 1.980} {
		near(t, fmt.Sprint("t of ", degrees), estimate.StudentBeyond(.95, degrees), want, .0005)
	}
}

// 11.82: R, lm(log(Volume) ~ log(Girth) + log(Height), trees), rows from memory.
// A slope beside another is the slope between what each leaves of the rest
// (Frisch and Waugh, Econometrica 1 (1933) 387–401; from memory).
func TestTrees(t *testing.T) {
	girth := logs([]float64{
		8.3, 8.6, 8.8, 10.5, 10.7, 10.8, 11.0, 11.0, 11.1, 11.2, 11.3, 11.4, 11.4, 11.7, 12.0, 12.9,
		12.9, 13.3, 13.7, 13.8, 14.0, 14.2, 14.5, 16.0, 16.3, 17.3, 17.5, 17.9, 18.0, 18.0, 20.6,
	})
	height := logs([]float64{
		70, 65, 63, 72, 81, 83, 66, 75, 80, 75, 79, 76, 76, 69, 75, 74, 85, 86, 71, 64, 78, 80, 74, 72, 77, 81, 82, 80, 80, 80, 87,
	})
	volume := logs([]float64{
		10.3, 10.3, 10.2, 16.4, 18.8, 19.7, 15.6, 18.2, 22.6, 19.9, 24.2, 21.0, 21.4, 21.3, 19.1, 22.2,
		33.8, 27.4, 25.7, 24.9, 34.5, 31.7, 36.3, 38.3, 42.6, 55.4, 55.7, 58.3, 51.5, 51.0, 77.0,
	})
	of := func(y, x []float64) []float64 {
		l := equally(t, x, y)
		out := make([]float64, len(x))
		for i := range x {
			out[i] = y[i] - l.Start - l.Slope*x[i]
		}
		return out
	}
	onGirth := equally(t, of(girth, height), of(volume, height)).Slope
	onHeight := equally(t, of(height, girth), of(volume, girth)).Slope
	near(t, "on girth", onGirth, 1.98265, .000005)
	near(t, "on height", onHeight, 1.11712, .000005)
	mean := func(xs []float64) float64 {
		var sum float64
		for _, x := range xs {
			sum += x
		}
		return sum / float64(len(xs))
	}
	near(t, "intercept", mean(volume)-onGirth*mean(girth)-onHeight*mean(height), -6.63162, .000005)
}

// 11.83: R, lm(optden ~ carb, Formaldehyde), 6 rows, from memory.
func TestFormaldehyde(t *testing.T) {
	l := equally(t, []float64{.1, .3, .5, .6, .7, .9}, []float64{.086, .269, .446, .538, .626, .782})
	near(t, "intercept", l.Start, .005086, .0000005)
	near(t, "slope", l.Slope, .876286, .0000005)
	near(t, "its error", l.SlopeError, .013535, .0000005)
	near(t, "residual", l.Residual, .008649, .0000005)
}

// 11.84–11.87: R, example(anscombe), 11 rows each, from memory.
func TestAnscombe(t *testing.T) {
	x := []float64{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}
	for _, c := range []struct {
		id               string
		x, y             []float64
		intercept, slope float64
		within           float64
	}{
		{"11.84", x, []float64{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}, 3.0000909, .5000909, 5e-8},
		{"11.85", x, []float64{9.14, 8.14, 8.74, 8.77, 9.26, 8.10, 6.13, 3.10, 9.13, 7.26, 4.74}, 3.000909, .500000, 5e-7},
		{"11.86", x, []float64{7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73}, 3.0024545, .4997273, 5e-8},
		{"11.87", []float64{8, 8, 8, 8, 8, 8, 8, 19, 8, 8, 8}, []float64{6.58, 5.76, 7.71, 8.84, 8.47, 7.04, 5.25, 12.50, 5.56, 7.91, 6.89}, 3.0017273, .4999091, 5e-8},
	} {
		l := equally(t, c.x, c.y)
		near(t, c.id+" intercept", l.Start, c.intercept, c.within)
		near(t, c.id+" slope", l.Slope, c.slope, c.within)
	}
}

// A weight is as good as so many rows, but for the count of them.
func TestWeightsAreRows(t *testing.T) {
	rows, ok := estimate.Through([]float64{1, 1, 2, 4, 4, 4}, []float64{2, 2, 3, 9, 9, 9}, []float64{1, 1, 1, 1, 1, 1}, 6)
	weighed, and := estimate.Through([]float64{1, 2, 4}, []float64{2, 3, 9}, []float64{2, 1, 3}, 6)
	if !ok || !and {
		t.Fatal("no line")
	}
	near(t, "slope", weighed.Slope, rows.Slope, 1e-13)
	near(t, "its error", weighed.SlopeError, rows.SlopeError, 1e-13)
}

// A fit of 0.9 that is as sure as the default of 0.5 (half of its interval is
// 1.959964 × 0.25) meets it halfway, with a deviation of 0.25 ÷ √2; one that is
// three times less sure gets 1 ÷ (1 + 9) of the say, with 0.25 × √0.9.
func TestShrink(t *testing.T) {
	for _, c := range []struct{ low, high, used, weight, from, to string }{
		{"0.410009", "1.389991", "0.7", "50%", "0.353524", "1.04648"},
		{"-0.569973", "2.369973", "0.54", "10%", "0.0751538", "1.00485"},
	} {
		x := Exponent{Default: half(), Spread: quoin.MustFactor("0.25")}
		x.shrink(Fit{Exponent: quoin.MustFactor("0.9"), Interval: quoin.Between(quoin.MustFactor(c.low), quoin.MustFactor(c.high))}, estimate.NormalBeyond(.95))
		r, _ := x.Interval.Get()
		close := func(got quoin.Factor, want string) bool {
			return math.Abs(estimate.Float(got)-estimate.Float(quoin.MustFactor(want))) < 2e-6
		}
		if !close(x.Used, c.used) || !close(x.DataWeight.Factor(), quoin.MustRate(c.weight).Factor().String()) || !close(r.Low, c.from) || !close(r.High, c.to) {
			t.Errorf("%+v, wanted %+v", x, c)
		}
	}
}
