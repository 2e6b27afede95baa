package trial

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mathext"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
)

// Ratio is how many times one figure is the other. Value is none where the other
// is zero, High where there is no upper end or it passes 10^12.
type Ratio struct {
	Value quoin.Optional[quoin.Factor] `json:"value,omitzero"`
	Low   quoin.Factor                 `json:"low"`
	High  quoin.Optional[quoin.Factor] `json:"high,omitzero"`
}

// Rates is two rates side by side, for one look.
type Rates struct {
	A Rate `json:"a"`
	B Rate `json:"b"`
	// Ratio is a's rate ÷ b's, with the exact conditional interval.
	Ratio Ratio `json:"ratio"`
	// P is the exact two-sided p of equal rates: the chance, were they equal, of
	// counts that are at most as likely as those seen.
	P quoin.Rate `json:"p"`
}

// CompareRates puts the rates of a and b side by side. Of all units sold, were
// the rates equal, each falls to a with a's share of the exposure; so the exact
// interval of the share that a has (Clopper–Pearson) is carried over to the
// ratio, and P is that of the binomial distribution (Przyborowski and Wilenski,
// "Homogeneity of results in testing samples from Poisson series", Biometrika 31,
// 1940; from memory). Confidence is 95% where none is given. The error is
// Problems.
func CompareRates(a, b SalesCount, confidence quoin.Optional[quoin.Rate]) (Rates, error) {
	c := checking()
	c.fields(form.In("a"), a)
	c.fields(form.In("b"), b)
	c.confidence(confidence)
	if err := c.err(); err != nil {
		return Rates{}, err
	}
	t := tie{float64(a.Units), float64(b.Units), math.Log(estimate.Float(a.Exposure)) - math.Log(estimate.Float(b.Exposure))}
	l := level(confidence)
	return Rates{rateOf(a, l), rateOf(b, l), t.ratio(l), share(t.p())}, nil
}

// tie is what a and b sold, and the odds that a sale falls to a were both equal,
// as a logarithm.
type tie struct{ a, b, odds float64 }

// even is the share of sales that falls to a were both equal.
func (t tie) even() float64 { return expit(t.odds) }

func expit(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// ratio is how many times the odds of a are those of equality.
func (t tie) ratio(confidence float64) Ratio {
	low, high := 0.0, math.Inf(1)
	n := t.a + t.b
	if n > 0 {
		pl, ph := clopper(t.a, n, confidence)
		low, high = t.times(pl), t.times(ph)
	}
	value := math.NaN()
	if t.b > 0 {
		value = t.a / t.b * math.Exp(-t.odds)
	}
	return Ratio{estimate.Six(value), figure(low), estimate.Six(high)}
}

func (t tie) times(p float64) float64 {
	if p >= 1 {
		return math.Inf(1)
	}
	return p / (1 - p) * math.Exp(-t.odds)
}

// nearlyEqual keeps counts that are as likely, but for the last digits, together.
const nearlyEqual = 1e-7

// p sums the binomial chances of all counts that are at most as likely as a.
func (t tie) p() float64 {
	n, even := t.a+t.b, t.even()
	if n == 0 || even <= 0 || even >= 1 {
		return 1
	}
	seen := logChance(t.a, n, even) + nearlyEqual
	mode := math.Floor((n + 1) * even)
	if t.a == mode {
		return 1
	}
	if t.a < mode { // the least count above the mode that is at most as likely
		k := sort.Search(int(n-mode)+1, func(i int) bool { return logChance(mode+float64(i), n, even) <= seen })
		return min(1, atMost(t.a, n, even)+atLeast(mode+float64(k), n, even))
	}
	k := sort.Search(int(mode)+1, func(i int) bool { return logChance(mode-float64(i), n, even) <= seen })
	return min(1, atLeast(t.a, n, even)+atMost(mode-float64(k), n, even))
}

func logChance(k, n, p float64) float64 {
	return -math.Log(n+1) - mathext.Lbeta(k+1, n-k+1) + k*math.Log(p) + (n-k)*math.Log1p(-p)
}

// atLeast is the binomial chance of k or more.
func atLeast(k, n, p float64) float64 {
	switch {
	case k <= 0:
		return 1
	case k > n:
		return 0
	}
	return mathext.RegIncBeta(k, n-k+1, p)
}

// atMost is the binomial chance of k or fewer.
func atMost(k, n, p float64) float64 { return atLeast(n-k, n, 1-p) }

// ahead is the probability that a's figure is the greater one, from gamma
// posteriors of shape units + ½: their share has a beta distribution.
func (t tie) ahead() float64 {
	return 1 - mathext.RegIncBeta(t.a+0.5, t.b+0.5, t.even())
}
