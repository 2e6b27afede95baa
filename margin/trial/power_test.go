package trial_test

import (
	"math"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// passes sums the binomial chances of all counts at which the boundary answers
// as it should, one by one.
func passes(n int64, differ, odds float64) float64 {
	lg := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	q := 1 / (1 + math.Exp(-odds-differ))
	want, sum := trial.Better, 0.0
	if differ < 0 {
		want = trial.Worse
	}
	for x := range n + 1 {
		k, m := float64(x), float64(n)
		if trial.Boundary(0.05, [][3]float64{{k, m - k, odds}}) == want {
			sum += math.Exp(lg(m+1) - lg(k+1) - lg(m-k+1) + k*math.Log(q) + (m-k)*math.Log1p(-q))
		}
	}
	return sum
}

// The number of sales that is needed has the power that it is said to have.
func TestSalesNeededHaveTheirPower(t *testing.T) {
	for _, c := range []struct{ differ, odds float64 }{
		{math.Log(2), 0}, {-math.Log(2), 0}, {math.Log(1.25), 0.5}, {-math.Log(1.25), 0.5}, {math.Log(1.5), -2}, {-math.Log(1.5), -2}, {math.Log(30), 1},
	} {
		n, ok := trial.Anytime(c.differ, c.odds, trial.Certainty{})
		if !ok {
			t.Fatal(c)
		}
		// A tooth of whole sales is less than a twentieth of so few.
		if at, before := passes(n, c.differ, c.odds), passes(n*19/20-1, c.differ, c.odds); at < 0.8 || before >= 0.8 {
			t.Errorf("%v: %d sales pass with %.4f, fewer with %.4f", c, n, at, before)
		}
	}
	// 0 of 7 where half was due: B(½, 7½) ÷ B(½, ½) × 2^7 = 26.8; of 6 it is 14.4, below 20.
	for _, differ := range []float64{math.Log(1000), -math.Log(1000)} {
		if n, ok := trial.Anytime(differ, 0, trial.Certainty{}); n != 7 || !ok {
			t.Errorf("a thousand times is told by %d, want 7", n)
		}
	}
	// Halving a difference takes a little more than four times as many; 10^9 is the most that is said.
	few, _ := trial.Anytime(0.0008, 0, trial.Certainty{})
	if n, ok := trial.Anytime(0.0004, 0, trial.Certainty{}); !ok || n < 4*few || n > 9*few/2 || n < 1<<29 || n > 1_000_000_000 {
		t.Errorf("a difference of 0.0004 takes %d, %t, of 0.0008 %d", n, ok, few)
	}
	if n, ok := trial.Anytime(0.0003, 0, trial.Certainty{}); ok {
		t.Errorf("a difference of 0.0003 takes %d", n)
	}
	if n, ok := trial.Anytime(0, 0, trial.Certainty{}); ok {
		t.Errorf("no difference is told by %d", n)
	}
}

// E[(1 − e^Z)+], added up in small steps of Z.
func TestShortfall(t *testing.T) {
	for _, c := range []struct{ mean, sd float64 }{{0, 0.1}, {-0.02, 0.2}, {0.3, 0.2}, {-0.5, 0.3}, {0.1, 1}} {
		sum := 0.0
		const steps = 200_000
		for i := range steps {
			z := -8 + 16*(float64(i)+0.5)/steps
			sum += max(0, 1-math.Exp(c.mean+c.sd*z)) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * 16 / steps
		}
		near(t, "shortfall", trial.Short(c.mean, c.sd), sum, 1e-7)
	}
	near(t, "a certain loss", trial.Short(math.Log(0.75), 0), 0.25, 0)
	near(t, "a certain gain", trial.Short(0.1, 0), 0, 0)
}

func TestSizesRefused(t *testing.T) {
	none := quoin.Optional[quoin.Rate]{}
	for _, c := range []struct {
		what string
		err  func() error
		want string
	}{
		{"the same share", func() error { _, err := trial.VisitorsToTell(rate("2%"), rate("2%"), trial.Certainty{}); return err }, "out_of_range b"},
		{"all buy", func() error { _, err := trial.VisitorsToTell(rate("100%"), rate("2%"), trial.Certainty{}); return err }, "out_of_range a"},
		{"too close", func() error {
			_, err := trial.VisitorsToTell(rate("2%"), rate("2.0000001%"), trial.Certainty{})
			return err
		}, "out_of_range "},
		{"the same rate", func() error { _, err := trial.ExposureToTell(factor("2"), factor("2"), trial.Certainty{}); return err }, "out_of_range b"},
		{"no rate", func() error { _, err := trial.ExposureToTell(factor("0"), factor("2"), trial.Certainty{}); return err }, "out_of_range a"},
		{"no difference", func() error { _, err := trial.SalesToTell(factor("1"), trial.Certainty{}); return err }, "out_of_range times"},
		{"no power", func() error { _, err := trial.SalesToTell(factor("2"), trial.Certainty{Power: at("10%")}); return err }, "out_of_range power"},
		{"more buyers than visitors", func() error { _, err := trial.ShareOf(2, 1, none); return err }, "out_of_range buyers"},
		{"fewer than none", func() error {
			_, err := trial.RateOf(trial.SalesCount{Units: -1, Exposure: factor("1")}, none)
			return err
		}, "out_of_range units"},
		{"two at once", func() error {
			_, err := trial.CompareRates(trial.SalesCount{Units: 1}, trial.SalesCount{Units: 1}, none)
			return err
		}, "missing_field a.exposure missing_field b.exposure"},
	} {
		if got := codes(c.err()); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}
