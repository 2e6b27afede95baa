package market

import (
	"math"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Wilson's interval. 11.22–11.26: tests of a scientific library, values from R
// 3.6.2 prop.test; 11.28–11.35: tests of a statistics library, values from R;
// 11.36: R prop.test(52, 100, correct = FALSE); 11.37–11.40: Newcombe, Statistics
// in Medicine 17 (1998) 857–872, Table I, from memory. 11.24 has a continuity
// correction and 11.27 is its one-sided form, at 90% of two sides.
func TestPublishedWilson(t *testing.T) {
	for _, c := range []struct {
		id         string
		x, n       float64
		confidence float64
		low, high  float64
		within     float64
	}{
		{"11.22", 3, 10, .95, .1077913, .6032219, 5e-8},
		{"11.23", 3, 10, .99, .07956632, .6799753, 5e-8},
		{"11.25", 0, 10, .95, 0, .2775328, 5e-8},
		{"11.26", 10, 10, .95, .7224672, 1, 5e-8},
		{"11.27", 3, 10, .90, .1268766, .5583002, 5e-8},
		{"11.28", 19, 38, .95, .348499283643951, .651500716356049, 1e-13},
		{"11.30", 18, 20, .95, .6989663547715, .9721335187862, 1e-12},
		{"11.31", 4, 20, .95, .0806576625798, .4160174322519, 1e-12},
		{"11.32", 4, 200, .95, .0078044264163, .0502870869058, 1e-12},
		{"11.33", 190, 200, .95, .9104218518612, .9726173543992, 1e-12},
		{"11.35", 0, 30, .95, 0, .11351339, 5e-9},
		{"11.36", 52, 100, .95, .4231658, .6153545, 5e-8},
		{"11.37", 81, 263, .95, .2553, .3662, 5e-5},
		{"11.38", 15, 148, .95, .0624, .1605, 5e-5},
		{"11.39", 0, 20, .95, 0, .1611, 5e-5},
		{"11.40", 1, 29, .95, .0061, .1718, 5e-5},
	} {
		low, high := estimate.Wilson(c.x/c.n, c.n, c.confidence)
		near(t, c.id+" low", low, c.low, c.within)
		near(t, c.id+" high", high, c.high, c.within)
	}
}

// ranks is a cloud of the values 1 to n, all of the same weight.
func ranks(n int64) cloud {
	var points []point
	for i := range n {
		points = append(points, point{quoin.FactorOf(i + 1), quoin.FactorOf(1).Over(quoin.FactorOf(n))})
	}
	return cloudOf(points)
}

// Order statistics that hold the median at 95%, of tables of the sign test
// (Conover, Practical Nonparametric Statistics, 1971; from memory), each
// checked by its own sum: the r-th lowest and r-th highest of n hold it but with
// 2 × P(at most r − 1 of n tosses), which is at most 5%.
func TestPublishedOrderStatistics(t *testing.T) {
	for n, r := range map[int64]int64{5: 0, 6: 1, 8: 1, 9: 2, 10: 2, 12: 3, 15: 4, 20: 6, 25: 8, 30: 10, 50: 18} {
		low, high := ranks(n).bounds(.5, .95, float64(n))
		if r == 0 {
			if !low.IsZero() || !high.IsZero() {
				t.Errorf("%d: %s to %s, wanted no ends", n, low, high)
			}
			continue
		}
		if !low.Equal(quoin.Some(quoin.FactorOf(r))) || !high.Equal(quoin.Some(quoin.FactorOf(n+1-r))) {
			t.Errorf("%d: %s to %s, wanted %d to %d", n, low, high, r, n+1-r)
		}
		if miss, next := tosses(n, r-1), tosses(n, r); miss > .025 || next <= .025 {
			t.Errorf("%d: %g and %g are not on both sides of 2.5%%", n, miss, next)
		}
	}
}

// tosses is the chance of at most r heads of n.
func tosses(n, r int64) float64 {
	sum, term := 0.0, math.Pow(.5, float64(n))
	for k := int64(0); k <= r; k++ {
		sum += term
		term *= float64(n-k) / float64(k+1)
	}
	return sum
}

// The bounds of a share with more of the same never move out, at whatever
// number of sellers, whole or not.
func TestMoreNeverWidensBounds(t *testing.T) {
	shape := ranks(97)
	for _, confidence := range []float64{.5, .8, .95, .999} {
		for share := 0.0; share <= 1; share += .05 {
			var low, high quoin.Optional[quoin.Factor]
			for n := 1.0; n < 400; n *= 1.09 {
				l, h := shape.bounds(share, confidence, n)
				if out(low, l, 1) || out(high, h, -1) {
					t.Fatalf("%g at %g of %g: %s to %s, with fewer %s to %s", share, confidence, n, l, h, low, high)
				}
				low, high = l, h
			}
		}
	}
}

// out reports whether an end was lost or moved against a direction.
func out(was, is quoin.Optional[quoin.Factor], up int) bool {
	a, had := was.Get()
	b, has := is.Get()
	return had && (!has || b.Cmp(a) == -up)
}

// Cormen and others, Introduction to Algorithms, problem 9-2 (11.21): values
// that are their own weights. The lower weighted median is the first value that
// half of the weight is at or below, .2; the median of positions lies between
// it and the value before, .15, since a position is the middle of a weight.
func TestCormen(t *testing.T) {
	var points []point
	for _, w := range []string{".1", ".35", ".05", ".1", ".15", ".05", ".2"} {
		points = append(points, point{quoin.MustFactor("0" + w), quoin.MustFactor("0" + w)})
	}
	c := cloudOf(points)
	half := quoin.MustFactor("0.5")
	for i := range c.points {
		if first := c.upTo[i].Cmp(half) >= 0; first {
			if !c.points[i].value.Equal(quoin.MustFactor("0.2")) {
				t.Errorf("half is reached at %s", c.points[i].value)
			}
			break
		}
	}
	// Positions .375 of .15 and .55 of .2, so .15 + .125 ÷ .175 × .05.
	want := quoin.MustFactor("0.15").Add(quoin.MustFactor("0.125").Over(quoin.MustFactor("0.175")).Times(quoin.MustFactor("0.05")))
	if got := c.median(); !got.Equal(want) {
		t.Errorf("median %s, wanted %s", got, want)
	}
}
