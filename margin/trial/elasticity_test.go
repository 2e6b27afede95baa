package trial_test

import (
	"math"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

func TestElasticityIsNotGiven(t *testing.T) {
	for _, c := range []struct {
		what         string
		p, q, p2, q2 string
		want         string
	}{
		{"more sells at the higher price", "10", "1", "30", "3", "1"},
		{"nothing sells any more", "10", "5", "30", "0", "-2"}, // −2 ÷ 1, by hand
		{"from a gift", "0", "5", "30", "1", "-0.67"},          // (−4 ÷ 3) ÷ 2
		{"the same price", "10", "5", "10", "3", "none"},
		{"nothing sold at either", "10", "0", "30", "0", "none"},
		{"fewer than none", "10", "-1", "30", "1", "none"},
	} {
		e := trial.Elasticity(trial.Point{Price: amount(c.p), Sales: factor(c.q)}, trial.Point{Price: amount(c.p2), Sales: factor(c.q2)})
		v, given := e.Get()
		if want := c.want; given != (want != "none") || given && !v.Round(2, quoin.HalfUp).Equal(factor(want)) {
			t.Errorf("%s: %s, want %s", c.what, e, want)
		}
	}
}

func priced(id string, price string, units int64) trial.Period {
	return heron(id, 0, price, "1", "1000", units)
}

func TestSlope(t *testing.T) {
	for _, c := range []struct {
		what  string
		ps    []trial.Period
		half  bool
		slope string
		why   []trial.SlopeMark
		held  bool
	}{
		{"one price", list(priced("1", "70", 5), priced("2", "70", 9)), false, "none", []trial.SlopeMark{trial.OnePrice}, false},
		{"half the price, twice as many", list(priced("1", "80", 5), priced("2", "40", 10)), false, "-1", []trial.SlopeMark{trial.TwoPrices}, false},
		{"twice the price, twice as many", list(priced("1", "80", 10), priced("2", "40", 5)), false, "1", []trial.SlopeMark{trial.TwoPrices}, false},
		{"nothing at 80", list(priced("1", "80", 0), priced("2", "40", 10), priced("3", "20", 20)), false, "none", []trial.SlopeMark{trial.ZeroSales}, false},
		{"nothing at 80, with a half", list(priced("1", "80", 0), priced("2", "40", 0), priced("3", "20", 0)), true, "0", nil, true},
		{"three prices on one curve", list(priced("1", "80", 5), priced("2", "40", 10), priced("3", "20", 20)), false, "-1", nil, true},
		{"10 before 2,000 visits is 5 before 1,000", list(priced("1", "80", 2), priced("2", "40", 10), priced("3", "20", 20), priced("4", "80.00", 8)), false, "-1", nil, true},
	} {
		s, err := trial.SlopeOf(c.ps, trial.SlopeOptions{AddHalf: c.half})
		if err != nil {
			t.Fatal(err)
		}
		if _, held := s.Interval.Get(); s.Elasticity.String() != c.slope || !slices.Equal(s.Why, c.why) || held != c.held {
			t.Errorf("%s: %s %v, interval %v, want %s %v", c.what, s.Elasticity, s.Why, s.Interval, c.slope, c.why)
		}
	}
}

// Student's t with one degree of freedom is 12.706 at 95%, the tangent of 85.5°.
func TestSlopeInterval(t *testing.T) {
	s, err := trial.SlopeOf(list(priced("1", "80", 6), priced("2", "40", 9), priced("3", "20", 21)), trial.SlopeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	r, _ := s.Interval.Get()
	e, _ := s.Error.Get()
	near(t, "half the interval", (float(r.High)-float(r.Low))/2, math.Tan(0.475*math.Pi)*float(e), 1e-4)
}

func TestSlopeProblems(t *testing.T) {
	ps := list(priced("1", "80", 5), priced("2", "0", 5), priced("3", "20", 5))
	ps[2].Occasion = "fair"
	_, err := trial.SlopeOf(ps, trial.SlopeOptions{Confidence: at("10%")})
	if got, want := codes(err), "out_of_range confidence out_of_range periods[1].price unlike_periods periods[2]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if _, err := trial.SlopeOf(nil, trial.SlopeOptions{}); codes(err) != "empty_list periods" {
		t.Error(err)
	}
}
