package trial

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mathext"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Certainty is how sure a trial is to be.
type Certainty struct {
	// Confidence is 95% where none is given: common practice.
	Confidence quoin.Optional[quoin.Rate] `json:"confidence,omitzero" range:"[0.5,0.9999]"`
	// Power is the chance that the trial tells the difference where it is there,
	// 80% where none is given: common practice.
	Power quoin.Optional[quoin.Rate] `json:"power,omitzero" range:"[0.5,0.9999]"`
}

func (p Certainty) power() float64 { return likely(p.Power, "0.8") }
func (p Certainty) alpha() float64 { return 1 - level(p.Confidence) }

// reach is the sum of the normal quantiles of confidence, two-sided, and power.
func (p Certainty) reach() float64 {
	return estimate.Normal(1-p.alpha()/2) + estimate.Normal(p.power())
}

// VisitorsToTell returns how many visitors each of two prices takes to tell one
// share of buyers from another by a single look, rounded up:
//
//	n = (z(1−α/2)·√(2·m·(1−m)) + z(power)·√(a(1−a) + b(1−b)))² ÷ (a − b)²,
//
// m being the mean of both shares (Fleiss, Levin and Paik, Statistical Methods
// for Rates and Proportions, chapter 4, without the correction for continuity;
// from memory). The error is Problems: shares not between 0% and 100%, equal, or
// so close that it takes more than 10^12.
func VisitorsToTell(a, b quoin.Rate, p Certainty) (int64, error) {
	c := checking()
	c.fields(nil, p)
	c.inside("a", a)
	c.inside("b", b)
	if a.Equal(b) {
		c.outOf("b", b.String(), "another share than a")
	}
	if err := c.err(); err != nil {
		return 0, err
	}
	x, y := estimate.Float(a.Factor()), estimate.Float(b.Factor())
	m := (x + y) / 2
	root := estimate.Normal(1-p.alpha()/2)*math.Sqrt(2*m*(1-m)) + estimate.Normal(p.power())*math.Sqrt(x*(1-x)+y*(1-y))
	return c.whole(root * root / ((x - y) * (x - y)))
}

// ExposureToTell returns how much exposure each of two prices takes to tell the
// rate a from the rate b, in sales per exposure, by a single look, rounded up:
//
//	E = (z(1−α/2) + z(power))² ÷ (2·(√a − √b)²),
//
// since the root of a Poisson count has a variance of nearly ¼ (Anscombe, "The
// transformation of Poisson, binomial and negative-binomial data", Biometrika 35,
// 1948; from memory). The error is Problems: rates of zero or less, above 10^6,
// equal, or so close that it takes more than 10^12.
func ExposureToTell(a, b quoin.Factor, p Certainty) (int64, error) {
	c := checking()
	c.fields(nil, p)
	for i, r := range []quoin.Factor{a, b} {
		if r.Sign() <= 0 || r.Cmp(quoin.FactorOf(1_000_000)) > 0 {
			c.outOf([]string{"a", "b"}[i], r.String(), "a value above 0 and at most 1000000")
		}
	}
	if a.Equal(b) {
		c.outOf("b", b.String(), "another rate than a")
	}
	if err := c.err(); err != nil {
		return 0, err
	}
	z, d := p.reach(), math.Sqrt(estimate.Float(a))-math.Sqrt(estimate.Float(b))
	return c.whole(z * z / (2 * d * d))
}

// SalesToTell returns how many units, of both prices together, it takes to tell
// that one earns times as much per exposure as the other by a single look, both
// prices having the same exposure and keeping the same of a sale, rounded up:
//
//	n = ((z(1−α/2) + z(power)) ÷ (2·(asin √q − asin √½)))², q = times ÷ (1 + times),
//
// since of n units each falls to the better price with the chance q, and the arc
// sine of the root of a share has a variance of nearly 1 ÷ 4n (Cohen, Statistical
// Power Analysis for the Behavioral Sciences, chapter 6; from memory). What
// Compare needs is more, since it holds at every look. The error is Problems:
// times of zero or less, or 1, or so close to 1 that it takes more than 10^12.
func SalesToTell(times quoin.Factor, p Certainty) (int64, error) {
	c := checking()
	c.fields(nil, p)
	if times.Sign() <= 0 || times.Equal(quoin.FactorOf(1)) {
		c.outOf("times", times.String(), "a value above 0, and not 1")
	}
	if err := c.err(); err != nil {
		return 0, err
	}
	return c.whole(arcsine(math.Log(estimate.Float(times)), 0, p))
}

// arcsine is the sales it takes to tell odds that differ by so much, as
// logarithms, from those of equality.
func arcsine(differ, odds float64, p Certainty) float64 {
	d := 2 * (math.Asin(math.Sqrt(expit(odds+differ))) - math.Asin(math.Sqrt(expit(odds))))
	return p.reach() * p.reach() / (d * d)
}

func (c *checker) inside(at string, r quoin.Rate) {
	if r.Sign() <= 0 || r.Cmp(quoin.MustRate("1")) >= 0 {
		c.outOf(at, r.String(), "a value above 0% and below 100%")
	}
}

// whole rounds up, but for what is nothing but the last digits of a float.
func (c *checker) whole(x float64) (int64, error) {
	if !(x < 1e12) {
		c.fault(quoin.OutOfRange, nil, "a difference that takes more than 10^12 to tell", "a greater one")
		return 0, c.err()
	}
	return max(1, int64(math.Ceil(x*(1-1e-12)))), nil
}

// anytime returns how many sales, of both together, it takes to pass the boundary
// that holds at any time with the power of the plan, where a's earnings are really
// e^differ times b's; false above 10^9. All sales are looked at as one pair, so
// who looks earlier too may know earlier. In whole sales power goes up in little
// teeth, so a few sales less may do.
func anytime(differ, odds float64, p Certainty) (int64, bool) {
	enough := func(n float64) bool { return tells(n, odds, differ, p) }
	low, high := 0.0, 1.0 // low is not enough
	for !enough(high) {
		if high >= mostSales {
			return 0, false
		}
		low, high = high, min(2*high, mostSales)
	}
	more := sort.Search(int(high-low)-1, func(i int) bool { return enough(low + 1 + float64(i)) })
	return int64(low) + 1 + int64(more), true
}

// mostSales is how many sales a trial is said to take at most.
const mostSales = 1e9

func tells(n, odds, differ float64, p Certainty) bool {
	limit := -math.Log(p.alpha())
	against := func(k float64) float64 {
		return mathext.Lbeta(begin+k, begin+n-k) - mathext.Lbeta(begin, begin) + k*softplus(-odds) + (n-k)*softplus(odds)
	}
	even := math.Floor(n * expit(odds))
	if differ < 0 {
		k := even - float64(sort.Search(int(even)+1, func(i int) bool { return against(even-float64(i)) >= limit }))
		return k >= 0 && atMost(k, n, expit(odds+differ)) >= p.power()
	}
	k := even + float64(sort.Search(int(n-even)+1, func(i int) bool { return against(even+float64(i)) >= limit }))
	return k <= n && atLeast(k, n, expit(odds+differ)) >= p.power()
}
