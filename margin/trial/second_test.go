package trial_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// Every figure that this package prints has a second definition in these tests: sums of chances as
// fractions, integrals added up in small steps, and the formulas of the sources named beside them.

// within fails where a figure of six digits is not the one wanted.
func within(t rapid.TB, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 6e-6*math.Abs(want)+1e-15) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// z is the normal quantile, by halving what erf says.
func z(p float64) float64 {
	low, high := -10.0, 10.0
	for range 100 {
		if middle := (low + high) / 2; (1+math.Erf(middle/math.Sqrt2))/2 < p {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// integral adds up f between two ends (Simpson's rule).
func integral(from, to float64, f func(float64) float64) float64 {
	const steps = 600
	h, sum := (to-from)/steps, f(from)+f(to)
	for i := 1; i < steps; i++ {
		sum += float64(2+2*(i%2)) * f(from+float64(i)*h)
	}
	return sum * h / 3
}

// chance is the binomial chance of k of n as a fraction.
func chance(k, n int64, p *big.Rat) *big.Rat {
	power := func(x *big.Rat, e int64) *big.Rat {
		return new(big.Rat).SetFrac(new(big.Int).Exp(x.Num(), big.NewInt(e), nil), new(big.Int).Exp(x.Denom(), big.NewInt(e), nil))
	}
	c := new(big.Rat).SetInt(new(big.Int).Binomial(n, k))
	c.Mul(c, power(p, k))
	return c.Mul(c, power(new(big.Rat).Sub(big.NewRat(1, 1), p), n-k))
}

func TestExactP(t *testing.T) {
	far := 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(0, 25).Draw(t, "a"), rapid.Int64Range(0, 25).Draw(t, "b")
		ea, eb := rapid.Int64Range(1, 9).Draw(t, "exposure of a"), rapid.Int64Range(1, 9).Draw(t, "of b")
		r, err := trial.CompareRates(trial.SalesCount{Units: a, Exposure: quoin.FactorOf(ea)}, trial.SalesCount{Units: b, Exposure: quoin.FactorOf(eb)}, at("90%"))
		if err != nil {
			t.Fatal(err)
		}
		even, sum := big.NewRat(ea, ea+eb), new(big.Rat)
		seen := chance(a, a+b, even)
		for k := range a + b + 1 {
			if c := chance(k, a+b, even); c.Cmp(seen) <= 0 {
				sum.Add(sum, c)
			}
		}
		want, _ := sum.Float64()
		within(t, "p", float(r.P.Factor()), want)
		if want < 0.5 {
			far++
		}
		// Of all sold a has x: the interval of that share, as odds, over those of equality.
		value, given := r.Ratio.Value.Get()
		if given != (b > 0) {
			t.Fatalf("%d and %d: a ratio of %v", a, b, r.Ratio)
		}
		if b > 0 {
			within(t, "ratio", float(value), float64(a*eb)/float64(b*ea))
		}
		high, bounded := r.Ratio.High.Get()
		if bounded != (b > 0) || (a > 0) == r.Ratio.Low.IsZero() {
			t.Fatalf("%d and %d: from %s to %s", a, b, r.Ratio.Low, r.Ratio.High)
		}
		// Clopper and Pearson: at each end one in twenty sees as much, or as little.
		share := func(ratio quoin.Factor) *big.Rat {
			odds := new(big.Rat).Mul(ratio.Rat(), big.NewRat(ea, eb))
			return new(big.Rat).Quo(odds, new(big.Rat).Add(odds, big.NewRat(1, 1)))
		}
		tail := func(from, to int64, p *big.Rat) float64 {
			sum := new(big.Rat)
			for k := from; k <= to; k++ {
				sum.Add(sum, chance(k, a+b, p))
			}
			f, _ := sum.Float64()
			return f
		}
		if a > 0 && math.Abs(tail(a, a+b, share(r.Ratio.Low))-0.05) > 1e-5 {
			t.Errorf("%d of %d: the lower end %s is seen with %g", a, a+b, r.Ratio.Low, tail(a, a+b, share(r.Ratio.Low)))
		}
		if b > 0 && math.Abs(tail(0, a, share(high))-0.05) > 1e-5 {
			t.Errorf("%d of %d: the upper end %s is seen with %g", a, a+b, high, tail(0, a, share(high)))
		}
	})
	if far < 20 {
		t.Errorf("only %d were below one half", far)
	}
}

// Garwood's ends are the rates at which so many, or so few, come up with the chance of a tail; and
// those of a share likewise. Wilson's are where (p̂ − p)² is z² × p(1 − p) ÷ n.
func TestIntervals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, visitors := rapid.Int64Range(0, 40).Draw(t, "units"), rapid.Int64Range(40, 90).Draw(t, "visitors")
		level := rapid.SampledFrom([]string{"50%", "90%", "95%", "99%"}).Draw(t, "confidence")
		tail := (1 - float(rate(level).Factor())) / 2
		r, err := trial.RateOf(trial.SalesCount{Units: n, Exposure: factor("8")}, at(level))
		s, err2 := trial.ShareOf(n, visitors, at(level))
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		within(t, "rate", float(r.Value), float64(n)/8)
		within(t, "share", float(s.Value.Factor()), float64(n)/float64(visitors))
		below := func(k int64, mean float64) (sum float64) { // Poisson chances of at most k
			for term, i := math.Exp(-mean), int64(0); i <= k; i++ {
				sum += term
				term *= mean / float64(i+1)
			}
			return sum
		}
		if low := float(r.Interval.Low) * 8; n == 0 && low != 0 || n > 0 && math.Abs(1-below(n-1, low)-tail) > 1e-5 {
			t.Errorf("%d: the lower end %g is seen with %g", n, low, 1-below(n-1, low))
		}
		if high := float(r.Interval.High) * 8; math.Abs(below(n, high)-tail) > 1e-5 {
			t.Errorf("%d: the upper end %g is seen with %g", n, high, below(n, high))
		}
		atMost := func(k int64, p quoin.Rate) float64 {
			sum := new(big.Rat)
			for i := range k + 1 {
				sum.Add(sum, chance(i, visitors, p.Factor().Rat()))
			}
			f, _ := sum.Float64()
			return f
		}
		if low := s.Exact.Low; n == 0 && !low.IsZero() || n > 0 && math.Abs(1-atMost(n-1, low)-tail) > 2e-5 {
			t.Errorf("%d of %d: the lower end %s", n, visitors, low)
		}
		if high := s.Exact.High; n == visitors && !high.Equal(rate("100%")) || n < visitors && math.Abs(atMost(n, high)-tail) > 2e-5 {
			t.Errorf("%d of %d: the upper end %s", n, visitors, high)
		}
		for _, end := range []quoin.Rate{s.Wilson.Low, s.Wilson.High} {
			p, q := float(end.Factor()), float64(n)/float64(visitors)
			if off := math.Abs(p-q) - z(1-tail)*math.Sqrt(p*(1-p)/float64(visitors)); math.Abs(off) > 1e-5 {
				t.Errorf("%d of %d: an end at %s is off by %g", n, visitors, end, off)
			}
		}
	})
}

// Sizes of trials with quantiles of the test's own, and the formulas as they are printed there.
func TestSizesByTheirFormulas(t *testing.T) {
	for _, c := range []struct{ a, b, confidence, power string }{
		{"0.02", "0.03", "95%", "80%"}, {"0.03", "0.02", "95%", "80%"}, {"0.5", "0.75", "90%", "90%"}, {"0.001", "0.9", "99%", "50%"}, {"0.35", "0.3", "50%", "99%"},
	} {
		p := trial.Certainty{Confidence: at(c.confidence), Power: at(c.power)}
		a, b := float(factor(c.a)), float(factor(c.b))
		sure, power := z(0.5+float(rate(c.confidence).Factor())/2), z(float(rate(c.power).Factor()))
		mean := (a + b) / 2
		for _, x := range []struct {
			what string
			got  func() (int64, error)
			want float64
		}{
			{
				"visitors", func() (int64, error) { return trial.VisitorsToTell(rate(c.a), rate(c.b), p) },
				math.Pow(sure*math.Sqrt(2*mean*(1-mean))+power*math.Sqrt(a*(1-a)+b*(1-b)), 2) / math.Pow(a-b, 2),
			},
			{
				"exposure", func() (int64, error) { return trial.ExposureToTell(factor(c.a), factor(c.b), p) },
				math.Pow((sure+power)/(math.Sqrt(a)-math.Sqrt(b)), 2) / 2,
			},
			{
				"sales", func() (int64, error) { return trial.SalesToTell(factor(c.a).Over(factor(c.b)), p) },
				math.Pow((sure+power)/(2*math.Asin(math.Sqrt(a/(a+b)))-math.Pi/2), 2),
			},
		} {
			got, err := x.got()
			if want := int64(math.Ceil(x.want)); err != nil || got != want {
				t.Errorf("%s to tell %s from %s at %s and %s: %d, %v, want %.3f rounded up", x.what, c.a, c.b, c.confidence, c.power, got, err, x.want)
			}
		}
	}
	for _, c := range []struct{ what, confidence, power string }{{"the defaults", "95%", "80%"}} {
		plain, _ := trial.SalesToTell(factor("2"), trial.Certainty{})
		given, _ := trial.SalesToTell(factor("2"), trial.Certainty{Confidence: at(c.confidence), Power: at(c.power)})
		// 2.80159 ÷ (2 × asin √⅔ − π ÷ 2) = 2.80159 ÷ 0.339837 = 8.24391, and its square 67.96
		if plain != given || plain != 68 {
			t.Errorf("%s: %d and %d sales, want 68", c.what, plain, given)
		}
	}
	// A thousandth and its double take at least one sale, whatever the difference.
	if n, err := trial.SalesToTell(factor("1000000000"), trial.Certainty{Confidence: at("50%"), Power: at("50%")}); n != 1 || err != nil {
		t.Errorf("%d, %v sales", n, err)
	}
}

// Elasticity is a fraction, and the same both ways round.
func TestElasticityIsAFraction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) int64 { return rapid.Int64Range(0, 400).Draw(t, what) }
		p, q, p2, q2 := draw("price"), draw("sales"), draw("other price"), draw("other sales")
		e, given := trial.Elasticity(trial.Point{Price: quoin.AmountOf(p, 2), Sales: quoin.FactorOf(q)}, trial.Point{Price: quoin.AmountOf(p2, 2), Sales: quoin.FactorOf(q2)}).Get()
		if p == p2 || q+q2 == 0 {
			if given {
				t.Fatalf("%s at %d and %d", e, p, p2)
			}
			return
		}
		want := big.NewRat((q2-q)*(p2+p), (q2+q)*(p2-p))
		off := new(big.Rat).Sub(e.Rat(), want)
		if !given || off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000_000)) > 0 {
			t.Errorf("%s, want %s", e, want.FloatString(12))
		}
	})
}

// A slope and its error by the normal equations, in fractions of floats; Student's t has closed forms
// for one degree of freedom, tan(π × c ÷ 2), and for two, c × √(2 ÷ (1 − c²)) (from memory).
func TestSlopeByNormalEquations(t *testing.T) {
	for _, c := range []struct {
		what  string
		units []int64
		half  float64
		level string
	}{
		{"three prices", []int64{6, 9, 21}, 0, "95%"},
		{"four", []int64{6, 9, 21, 20}, 0, "95%"},
		{"four, with a half, one of none, rising", []int64{30, 9, 0, 7}, 0.5, "80%"},
	} {
		var ps []trial.Period
		var w, x, y []float64
		for i, n := range c.units {
			price := []int64{80, 40, 20, 10}[i]
			p := heron(string(rune('a'+i)), i, "1", "1", "1000", n)
			p.Price, p.Exposure.Number = quoin.AmountOf(price, 0), quoin.FactorOf(int64(500*(i+1)))
			ps = append(ps, p)
			w = append(w, float64(n)+c.half)
			x = append(x, math.Log(float64(price)))
			y = append(y, math.Log((float64(n)+c.half)/float64(500*(i+1))))
		}
		var sw, sx, sy, sxx, sxy float64
		for i := range w {
			sw, sx, sy, sxx, sxy = sw+w[i], sx+w[i]*x[i], sy+w[i]*y[i], sxx+w[i]*x[i]*x[i], sxy+w[i]*x[i]*y[i]
		}
		slope := (sw*sxy - sx*sy) / (sw*sxx - sx*sx)
		start, left := (sy-slope*sx)/sw, 0.0
		for i := range w {
			left += w[i] * math.Pow(y[i]-start-slope*x[i], 2)
		}
		free := float64(len(w) - 2)
		failed := math.Sqrt(left / free * sw / (sw*sxx - sx*sx))
		level := float(rate(c.level).Factor())
		student := math.Tan(math.Pi * level / 2)
		if free == 2 {
			student = level * math.Sqrt(2/(1-level*level))
		}
		s, err := trial.SlopeOf(ps, trial.SlopeOptions{Confidence: at(c.level), AddHalf: c.half > 0})
		if err != nil {
			t.Fatal(err)
		}
		got, _ := s.Elasticity.Get()
		e, _ := s.Error.Get()
		r, _ := s.Interval.Get()
		within(t, c.what+": slope", float(got), slope)
		within(t, c.what+": error", float(e), failed)
		within(t, c.what+": low", float(r.Low), slope-student*failed)
		within(t, c.what+": high", float(r.High), slope+student*failed)
		// The prices stand there with what sold, the lowest first.
		if last := s.Prices[len(s.Prices)-1]; !last.Price.Equal(amount("80")) || last.Units != c.units[0] || !last.Exposure.Equal(factor("500")) {
			t.Errorf("%s: %v", c.what, s.Prices)
		}
	}
}
