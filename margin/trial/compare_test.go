package trial_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

func compare(t rapid.TB, a, b []trial.Period) trial.Comparison {
	t.Helper()
	c, err := trial.Compare(a, b, trial.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestTwelveAgainstNine(t *testing.T) {
	a, b := two("40", "40", 12, 9)
	c := compare(t, a, b)
	if c.Answer != trial.CannotTell || !slices.Equal(c.Why, []trial.Mark{trial.NotPassed, trial.AfterOther}) {
		t.Errorf("%s, %v", c.Answer, c.Why)
	}
	// 21 tosses of a coin: P(≥12) + P(≤9) is 1 − (C(21,10) + C(21,11)) ÷ 2^21,
	// C(21,10) being 352716.
	p, _ := c.Groups[0].Once.P.Get()
	near(t, "two-sided p", float(p.Factor()), 1-2*352716.0/(1<<21), 0)
	if n, given := c.Needed.Get(); !given || n.More != n.Sales-21 || n.Once >= n.Sales || n.Once < 500 {
		t.Errorf("needed %+v", n)
	}
}

// Answers that leave no doubt, and those that none can give.
func TestAnswers(t *testing.T) {
	fair := func(p trial.Period) trial.Period {
		p.Channel, p.Occasion, p.Exposure.Kind = "spring fair", "fair", trial.StandDays
		return p
	}
	christmas := func(p trial.Period) trial.Period { p.Occasion = "christmas"; return p }
	days := func(p trial.Period) trial.Period { p.Exposure.Kind = trial.Online; return p }
	a := heron("a", 0, "79", "40", "1000", 120)
	b := heron("b", 0, "89", "48", "1000", 40)
	for _, c := range []struct {
		what string
		a, b []trial.Period
		want trial.Answer
		why  string
	}{
		{"three to one, less kept", list(a), list(b), trial.Better, "boundary_passed"},
		{"the other way round", list(b), list(a), trial.Worse, "boundary_passed"},
		{"six to five in sales, five to six kept: as much earned", list(heron("a", 0, "79", "40", "1000", 120)), list(heron("b", 0, "89", "48", "1000", 100)), trial.CannotTell, "boundary_not_passed"},
		{"more sold, less earned", list(heron("a", 0, "49", "5", "1000", 120)), list(heron("b", 0, "89", "48", "1000", 100)), trial.Worse, "boundary_passed"},
		{"nothing sold", list(heron("a", 0, "79", "40", "1000", 0)), list(heron("b", 0, "89", "48", "1000", 0)), trial.CannotTell, "boundary_not_passed"},
		{"none against hundred", list(heron("a", 0, "79", "40", "1000", 0)), list(heron("b", 0, "89", "48", "1000", 100)), trial.Worse, "boundary_passed"},
		{"another month", list(a), list(heron("b", 1, "89", "48", "1000", 40)), trial.Better, "boundary_passed one_after_other"},
		{"days against visits", list(a), list(days(b)), trial.CannotTell, "nothing_alike other_kind"},
		{"christmas", list(a), list(christmas(b)), trial.CannotTell, "nothing_alike other_occasion"},
		{"a fair against the web", list(a), list(fair(b)), trial.CannotTell, "nothing_alike other_channel"},
		{"a fair beside the web", list(a, fair(heron("a2", 0, "79", "40", "2", 900))), list(b), trial.Better, "boundary_passed other_channel"},
		{"a period without counterpart", list(a, heron("a2", 1, "79", "40", "1000", 3)), list(b), trial.Better, "boundary_passed unmatched_periods"},
		{"a loses", list(heron("a", 0, "29", "-2", "1000", 120)), list(b), trial.Worse, "one_price_loses"},
		{"b keeps nothing, a sells", list(a), list(heron("b", 0, "29", "0", "1000", 900)), trial.Better, "one_price_loses"},
		{"b keeps nothing, a does not sell", list(heron("a", 0, "79", "40", "1000", 0)), list(heron("b", 0, "29", "0", "1000", 900)), trial.CannotTell, "one_price_loses"},
		{"both lose", list(heron("a", 0, "29", "-2", "1000", 1)), list(heron("b", 0, "39", "-1", "1000", 900)), trial.CannotTell, "neither_earns"},
		{"better on line, worse at the fair", list(a, fair(heron("a2", 0, "79", "40", "2", 10))), list(b, fair(heron("b2", 0, "89", "48", "2", 90))), trial.CannotTell, "boundary_passed occasions_disagree"},
	} {
		got := compare(t, c.a, c.b)
		if why := words(got.Why); got.Answer != c.want || why != c.why {
			t.Errorf("%s: %s (%s), want %s (%s)", c.what, got.Answer, why, c.want, c.why)
		}
		if _, err := json.Marshal(got); err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

func words(marks []trial.Mark) string {
	var out []string
	for _, m := range marks {
		out = append(out, string(m))
	}
	return strings.Join(out, " ")
}

func TestLeftOut(t *testing.T) {
	a := list(heron("a", 0, "79", "40", "1000", 12), heron("a2", 1, "79", "40", "1000", 5))
	a[1].Occasion = "christmas"
	c := compare(t, a, list(heron("b", 0, "89", "48", "1000", 9)))
	if len(c.LeftOut) != 1 || c.LeftOut[0] != (trial.LeftOut{ID: "a2", Mark: trial.OtherOccasion}) || len(c.Groups) != 1 || c.Groups[0].A.Units != 12 {
		t.Errorf("left out %v, groups %+v", c.LeftOut, c.Groups)
	}
}

// Earnings are worked out by hand: 12 × 40 = 480 before 1,000 visits.
func TestFigures(t *testing.T) {
	a, b := two("40", "50", 12, 9)
	c := compare(t, a, b)
	g := c.Groups[0]
	ratio, _ := g.Once.Earnings.Get()
	value, _ := ratio.Value.Get()
	switch {
	case !g.A.Earned.Equal(amount("480")) || !g.Once.A.Earnings.Equal(amount("0.48")) || !g.Once.B.Earnings.Equal(amount("0.45")):
		t.Errorf("earned %s, %s a visit", g.A.Earned, g.Once.A.Earnings)
	case !value.Equal(factor("1.06667")): // 480 ÷ 450
		t.Errorf("earnings %s times", value)
	case !c.Confidence.Equal(rate("95%")) || c.Look != 1 || !c.Inflation.Equal(rate("5%")):
		t.Errorf("%s, look %d, %s", c.Confidence, c.Look, c.Inflation)
	}
}

// With one pair the probability is that of a beta distribution: Beta(½, ½) has
// the arcsine law, 2 ÷ π × asin √p.
func TestProbabilityOfNothing(t *testing.T) {
	a, b := two("10", "30", 0, 0)
	got := compare(t, a, b).Groups[0].Probability
	near(t, "P with p of ¾", float(got.Factor()), 1.0/3, 0) // 1 − 2/π × π/3
}

func TestShareOfVisitors(t *testing.T) {
	a, b := two("40", "50", 12, 9)
	a[0].Exposure.Kind, b[0].Exposure.Kind = trial.Visitors, trial.Visitors
	s, given := compare(t, a, b).Groups[0].Once.A.Share.Get()
	if want, _ := trial.ShareOf(12, 1000, quoin.Optional[quoin.Rate]{}); !given || !s.Value.Equal(want.Value) {
		t.Errorf("%+v, want %+v", s, want)
	}
}

func TestProblems(t *testing.T) {
	good := func() ([]trial.Period, []trial.Period) { return two("40", "50", 12, 9) }
	for _, c := range []struct {
		what   string
		change func(a, b []trial.Period, o *trial.Options) ([]trial.Period, []trial.Period)
		want   string
	}{
		{"no a", func(_, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) { return nil, b }, "empty_list a"},
		{"an id twice", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			b[0].ID = "a"
			return a, b
		}, "duplicate_id b[0].id"},
		{"no time", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			b[0].To = b[0].From
			return a, b
		}, "empty_period b[0].to"},
		{"fewer than none", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			a[0].Units = -1
			return a, b
		}, "out_of_range a[0].units"},
		{"no exposure", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			a[0].Exposure.Number = quoin.Factor{}
			return a, b
		}, "missing_field a[0].exposure.number"},
		{"no kind", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			a[0].Exposure.Kind = ""
			return a, b
		}, "missing_field a[0].exposure.kind"},
		{"two products", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			b[0].Product = "avocet"
			return a, b
		}, "mixed_products b[0].product"},
		{"two prices", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			return append(a, heron("c", 2, "80", "40", "1", 0)), b
		}, "mixed_prices a[1].price"},
		{"two kept", func(a, b []trial.Period, _ *trial.Options) ([]trial.Period, []trial.Period) {
			return append(a, heron("c", 2, "79", "41", "1", 0)), b
		}, "mixed_kept a[1].kept"},
		{"sure", func(a, b []trial.Period, o *trial.Options) ([]trial.Period, []trial.Period) {
			o.Confidence = at("100%")
			return a, b
		}, "out_of_range confidence"},
		{"all at once", func(a, b []trial.Period, o *trial.Options) ([]trial.Period, []trial.Period) {
			o.Looks, o.Power, o.Difference, a[0].Units = -1, at("0%"), at("0%"), -1
			return a, b
		}, "out_of_range a[0].units out_of_range power out_of_range difference out_of_range looks"},
	} {
		a, b := good()
		var o trial.Options
		a, b = c.change(a, b, &o)
		_, err := trial.Compare(a, b, o)
		if got := codes(err); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

func codes(err error) string {
	ps, _ := err.(quoin.Problems)
	var out []string
	for _, p := range ps {
		out = append(out, string(p.Code), p.Path)
	}
	return strings.Join(out, " ")
}

func TestPeriodReadsJSON(t *testing.T) {
	const text = `{"id":"m1","product":"heron-a3","channel":"shop","price":"79","kept":"40","from":"2026-01-01","to":"2026-02-01","exposure":{"number":"1000","kind":"visits"},"units":12,"occasion":"web"}`
	var p trial.Period
	if err := json.Unmarshal([]byte(text), &p); err != nil {
		t.Fatal(err)
	}
	back, err := json.Marshal(p)
	if err != nil || string(back) != text {
		t.Errorf("%s, %v", back, err)
	}
	if json.Unmarshal([]byte(`{"exposure":{"kind":"visit"}}`), &p) == nil {
		t.Error("read a kind that is none")
	}
}

// What a sale keeps is worked out, and may be no cents at all.
func TestKeptIsComputed(t *testing.T) {
	p := heron("a", 0, "79", "0", "1000", 3)
	p.Kept = amount("100").Over(quoin.FactorOf(3))
	if err := p.Check(); err != nil {
		t.Error(err)
	}
}
