package trial_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// width is how wide an interval is beside another at the same rate.
func width(r quoin.Range[quoin.Factor]) float64 { return float(r.High) - float(r.Low) }

func TestMoreDataNeverWidens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units, exposure := rapid.Int64Range(0, 200).Draw(t, "units"), rapid.Int64Range(200, 5000).Draw(t, "exposure")
		more := rapid.Int64Range(1, 50).Draw(t, "times")
		confidence := at(rapid.SampledFrom([]string{"80%", "95%", "99%"}).Draw(t, "confidence"))
		few, _ := trial.RateOf(trial.SalesCount{Units: units, Exposure: quoin.FactorOf(exposure)}, confidence)
		many, err := trial.RateOf(trial.SalesCount{Units: units * more, Exposure: quoin.FactorOf(exposure * more)}, confidence)
		if err != nil {
			t.Fatal(err)
		}
		// Both ends are rounded to six digits.
		room := 2e-5 * float(few.Interval.High)
		if width(many.Interval) > width(few.Interval)+room {
			t.Errorf("rate: %v, %v with more", few, many)
		}
		s, _ := trial.ShareOf(units, exposure, confidence)
		u, err := trial.ShareOf(units*more, exposure*more, confidence)
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range [][2]quoin.Range[quoin.Rate]{{s.Wilson, u.Wilson}, {s.Exact, u.Exact}} {
			few, many := pair[0].High.Sub(pair[0].Low), pair[1].High.Sub(pair[1].Low)
			if float(many.Factor()) > float(few.Factor())+room {
				t.Errorf("share: %v, %v with more", few, many)
			}
		}
	})
}

// The ratio that holds at any time, and the one that holds once, as logarithms.
func TestMoreDataNeverWidensARatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(1, 100).Draw(t, "a"), rapid.Int64Range(1, 100).Draw(t, "b")
		e := rapid.Int64Range(100, 1000).Draw(t, "exposure")
		more := rapid.Int64Range(2, 30).Draw(t, "times")
		few, many := grown(t, a, b, e, 1), grown(t, a, b, e, more)
		once := func(c trial.Comparison) trial.Ratio { r, _ := c.Groups[0].Once.Earnings.Get(); return r }
		anytime := func(c trial.Comparison) trial.Ratio { r, _ := c.Anytime.Get(); return r }
		for _, r := range [][2]trial.Ratio{{once(few), once(many)}, {anytime(few), anytime(many)}} {
			if span(r[1]) > span(r[0])+2e-5 {
				t.Errorf("%v, %v with %d times as much", r[0], r[1], more)
			}
		}
	})
}

func grown(t rapid.TB, a, b, exposure, times int64) trial.Comparison {
	one, other := heron("a", 0, "79", "40", fmt.Sprint(exposure*times), a*times), heron("b", 1, "89", "50", fmt.Sprint(1000*times), b*times)
	return compare(t, list(one), list(other))
}

func span(r trial.Ratio) float64 {
	high, given := r.High.Get()
	if !given || r.Low.IsZero() {
		return math.Inf(1)
	}
	return math.Log(float(high)) - math.Log(float(r.Low))
}

// drawTrial draws some periods at two prices, in two channels.
func drawTrial(t *rapid.T) (a, b []trial.Period) {
	kept := [2][2]int64{}
	for i := range kept {
		for j := range kept[i] {
			kept[i][j] = rapid.Int64Range(-2, 60).Draw(t, "kept")
		}
	}
	for i := range rapid.IntRange(2, 12).Draw(t, "periods") {
		side, channel := rapid.IntRange(0, 1).Draw(t, "side"), rapid.IntRange(0, 1).Draw(t, "channel")
		if i < 2 {
			side = i // both have one at least
		}
		p := heron(fmt.Sprint("p", i), i, []string{"79", "89"}[side], "0", "1", rapid.Int64Range(0, 80).Draw(t, "units"))
		p.Kept = quoin.AmountOf(kept[side][channel], 0)
		p.Exposure.Number = quoin.FactorOf(rapid.Int64Range(1, 3000).Draw(t, "exposure"))
		p.Channel = []string{"shop", "fair"}[channel]
		if side == 0 {
			a = append(a, p)
		} else {
			b = append(b, p)
		}
	}
	return a, b
}

func mirrored(a trial.Answer) trial.Answer {
	return map[trial.Answer]trial.Answer{trial.Better: trial.Worse, trial.Worse: trial.Better, trial.CannotTell: trial.CannotTell}[a]
}

func TestSwappingMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawTrial(t)
		c, d := compare(t, a, b), compare(t, b, a)
		if d.Answer != mirrored(c.Answer) || words(c.Why) != words(d.Why) || len(c.LeftOut) != len(d.LeftOut) || len(c.Groups) != len(d.Groups) {
			t.Fatalf("%s %v, swapped %s %v", c.Answer, c.Why, d.Answer, d.Why)
		}
		for i, g := range c.Groups {
			h := d.Groups[i]
			if h.Answer != mirrored(g.Answer) || math.Abs(float(g.Probability.Factor())+float(h.Probability.Factor())-1) > 2e-6 {
				t.Errorf("%s with %s, swapped %s with %s", g.Answer, g.Probability, h.Answer, h.Probability)
			}
			p, _ := g.Once.P.Get()
			q, _ := h.Once.P.Get()
			if math.Abs(float(p.Factor())-float(q.Factor())) > 1e-5 {
				t.Errorf("p is %s, swapped %s", p, q)
			}
		}
	})
}

func TestScalingExposureChangesNoAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawTrial(t)
		c := compare(t, a, b)
		times := quoin.MustFactor(rapid.SampledFrom([]string{"0.01", "0.25", "3", "1000", "99999"}).Draw(t, "times"))
		for _, side := range [][]trial.Period{a, b} {
			for i := range side {
				side[i].Exposure.Number = side[i].Exposure.Number.Times(times)
			}
		}
		d := compare(t, a, b)
		if d.Answer != c.Answer || words(d.Why) != words(c.Why) || math.Abs(float(c.Misled.Factor())-float(d.Misled.Factor())) > 1e-5 {
			t.Fatalf("%s, %s; scaled %s, %s", c.Answer, c.Misled, d.Answer, d.Misled)
		}
		for i, g := range c.Groups {
			if math.Abs(float(g.Probability.Factor())-float(d.Groups[i].Probability.Factor())) > 1e-5 {
				t.Errorf("%s, scaled %s", g.Probability, d.Groups[i].Probability)
			}
		}
	})
}

func TestOrderChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawTrial(t)
		c := compare(t, a, b)
		d := compare(t, rapid.Permutation(a).Draw(t, "a"), rapid.Permutation(b).Draw(t, "b"))
		if d.Answer != c.Answer || !d.Misled.Equal(c.Misled) || words(d.Why) != words(c.Why) {
			t.Errorf("%s %s, in another order %s %s", c.Answer, c.Misled, d.Answer, d.Misled)
		}
	})
}

// At a true difference, the counts of which are just what the rates make them,
// an answer comes and stays, whatever the difference; and the smallest that is
// still told goes to nothing as data grow.
func TestCannotTellShrinksToNothing(t *testing.T) {
	least := math.Inf(1)
	for _, n := range []int64{100, 1_000, 10_000, 100_000, 1_000_000} {
		told := n
		for extra := n; extra > 0; extra = extra * 9 / 10 {
			a, b := two("40", "40", n+extra, n)
			if compare(t, a, b).Answer != trial.Better {
				break
			}
			told = extra
		}
		if part := float64(told) / float64(n); part >= least {
			t.Errorf("of %d, %g more is told; of fewer %g", n, part, least)
		} else {
			least = part
		}
	}
	if least > 0.01 {
		t.Errorf("with a million sales, less than %g is not told", least)
	}
}

func TestAnAnswerStaysAsDataGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(0, 60).Draw(t, "a"), rapid.Int64Range(0, 60).Draw(t, "b")
		e := rapid.Int64Range(100, 1000).Draw(t, "exposure")
		first, later := grown(t, a, b, e, 1), grown(t, a, b, e, rapid.Int64Range(2, 100).Draw(t, "times"))
		if first.Answer != trial.CannotTell && later.Answer != first.Answer {
			t.Errorf("%s, later %s", first.Answer, later.Answer)
		}
		even := a*40*1000 == b*50*e
		if sure := grown(t, a, b, e, 100_000/max(a+b, 1)); a+b > 0 && !even && math.Abs(math.Log(float64(a*40*1000)/float64(b*50*e))) > 0.1 && sure.Answer == trial.CannotTell {
			t.Errorf("%d and %d can't be told with 100,000 sales", a, b)
		}
	})
}

// What holds once lies within what holds at any time.
func TestAnytimeIsWider(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := grown(t, rapid.Int64Range(0, 500).Draw(t, "a"), rapid.Int64Range(0, 500).Draw(t, "b"), rapid.Int64Range(100, 1000).Draw(t, "exposure"), 1)
		once, _ := c.Groups[0].Once.Earnings.Get()
		anytime, _ := c.Anytime.Get()
		low, bound := once.High.Get()
		high, also := anytime.High.Get()
		if anytime.Low.Cmp(once.Low) > 0 || also && (!bound || high.Cmp(low) < 0) {
			t.Errorf("once %v, at any time %v", once, anytime)
		}
		one := quoin.FactorOf(1)
		if excluded := anytime.Low.Cmp(one) > 0 || also && high.Cmp(one) < 0; excluded != (c.Answer != trial.CannotTell) {
			t.Errorf("%s with %v", c.Answer, anytime)
		}
	})
}

// A constant elasticity comes back, from arcs as they get short and from the
// slope, whatever its sign.
func TestConstantElasticityIsRecovered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := float64(rapid.IntRange(-30, 20).Draw(t, "tenths")) / 10
		var ps []trial.Period
		for i, price := range []int64{60, 70, 79, 95} {
			p := heron(fmt.Sprint(i), i, "1", "1", "100", 0)
			p.Price, p.Units = quoin.AmountOf(price, 0), int64(math.Round(1e6*math.Pow(float64(price)/70, e)))
			ps = append(ps, p)
		}
		s, err := trial.SlopeOf(ps, trial.SlopeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if got, given := s.Elasticity.Get(); !given || math.Abs(float(got)-e) > 1e-4 {
			t.Errorf("slope %v, want %v", got, e)
		}
		at := func(price quoin.Amount) trial.Point {
			sales := quoin.FactorOf(int64(math.Round(1e9 * math.Pow(float(price)/70, e))))
			return trial.Point{Price: price, Sales: sales}
		}
		there, _ := trial.Elasticity(at(amount("70")), at(amount("70.70"))).Get()
		back, _ := trial.Elasticity(at(amount("70.70")), at(amount("70"))).Get()
		if math.Abs(float(there)-e) > 1e-3 || !there.Equal(back) {
			t.Errorf("arc %s, back %s, want %v", there, back, e)
		}
	})
}

func TestMoreIsNeededForLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trial.Certainty{Power: at(rapid.SampledFrom([]string{"60%", "80%", "95%"}).Draw(t, "power"))}
		n := rapid.Int64Range(2, 100).Draw(t, "percent")
		small, large := quoin.FactorOf(100+n).Over(factor("100")), quoin.FactorOf(101+n).Over(factor("100"))
		more, err := trial.SalesToTell(small, p)
		fewer, err2 := trial.SalesToTell(large, p)
		if err != nil || err2 != nil || fewer > more {
			t.Errorf("%d for %s, %d for %s", more, small, fewer, large)
		}
		down, _ := trial.SalesToTell(factor("1").Over(small), p)
		if down != more {
			t.Errorf("%d one way, %d the other", more, down)
		}
		// A rate of one sale for a visit makes sales of exposure.
		exposure, _ := trial.ExposureToTell(factor("1"), small, p)
		if sales := float64(exposure) * (1 + float(small)); math.Abs(sales-float64(more)) > 0.05*sales+3 {
			t.Errorf("%v sales by exposure, %d by sales", sales, more)
		}
	})
}
