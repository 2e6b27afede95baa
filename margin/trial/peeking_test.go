package trial_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"example.com/quoin/margin/trial"
)

// poisson draws a count, by multiplying chances (Knuth, The Art of Computer
// Programming 2, 3.4.1; from memory).
func poisson(r *rand.Rand, mean float64) float64 {
	n, left := 0.0, math.Exp(mean)
	for left *= r.Float64(); left > 1; left *= r.Float64() {
		n++
	}
	return n
}

// schedule is the exposures of a period of a and of the period of b beside it.
type schedule func(r *rand.Rand) (a, b float64)

// misled is in what share of trials somebody who looks after every pair of periods
// is told better or worse at some look, where a keeps 40 and b keeps 50 and both
// earn the same.
func misled(r *rand.Rand, trials, looks int, pace float64, exposures schedule) float64 {
	wrong := 0
	for range trials {
		var pairs [][3]float64
		for range looks {
			a, b := exposures(r)
			pairs = append(pairs, [3]float64{poisson(r, pace*a/40), poisson(r, pace*b/50), math.Log(a*50) - math.Log(b*40)})
			if trial.Boundary(0.05, pairs) != trial.CannotTell {
				wrong++
				break
			}
		}
	}
	return float64(wrong) / float64(trials)
}

func TestEndlessLookersAreSeldomMisled(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, c := range []struct {
		what string
		of   schedule
		pace float64
	}{
		{"months alike", func(*rand.Rand) (float64, float64) { return 1, 1 }, 200},
		{"few sales", func(*rand.Rand) (float64, float64) { return 1, 1 }, 20},
		{"a little of a", func(*rand.Rand) (float64, float64) { return 0.1, 1 }, 200},
		{"never the same", func(r *rand.Rand) (float64, float64) { return 0.2 + 2*r.Float64(), 0.2 + 2*r.Float64() }, 200},
	} {
		if share := misled(r, 2000, 30, c.pace, c.of); share > 0.05 {
			t.Errorf("%s: %.3f are misled, wanted at most 0.05", c.what, share)
		} else {
			t.Logf("%s: %.4f", c.what, share)
		}
	}
}

// Compare answers as the boundary does, at a look after every period: whoever
// looks in the middle of a pair is told what the pairs before it told.
func TestCompareGoesByTheBoundary(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for n := range 20 {
		var a, b []trial.Period
		var pairs [][3]float64
		for i := range 16 {
			x, y := poisson(r, 5+float64(n)), poisson(r, 4)
			a = append(a, heron(fmt.Sprint("a", i), 2*i, "79", "40", "1000", int64(x)))
			if i > 0 {
				answers(t, a, b, trial.Boundary(0.05, pairs))
			}
			b = append(b, heron(fmt.Sprint("b", i), 2*i+1, "89", "50", "1000", int64(y)))
			pairs = append(pairs, [3]float64{x, y, math.Log(50.0 / 40)})
			answers(t, a, b, trial.Boundary(0.05, pairs))
		}
	}
}

func answers(t *testing.T, a, b []trial.Period, want trial.Answer) {
	t.Helper()
	if got := compare(t, a, b).Answer; got != want {
		t.Fatalf("%d and %d periods: %s, want %s", len(a), len(b), got, want)
	}
}

// With p the same in all pairs, the bets are the beta-binomial mixture over all
// sales at once, which is worked out here from factorials: B(½+x, ½+y) ÷ B(½, ½).
func TestBetsAreOneMixture(t *testing.T) {
	lg := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	for x := 0.0; x < 60; x++ {
		mixture := lg(x+0.5) + lg(30.5) - lg(x+31) - math.Log(math.Pi) + (x+30)*math.Log(2)
		want := mixture >= math.Log(20)
		pairs := [][3]float64{{math.Floor(x / 3), 7, 0}, {0, 0, 0}, {x - math.Floor(x/3), 23, 0}}
		if got := trial.Boundary(0.05, pairs) != trial.CannotTell; got != want {
			t.Errorf("%g against 30: told is %v, want %v", x, got, want)
		}
	}
}

// The table of Armitage, McPherson and Rowe is from memory, so it is tried out:
// sums of normal steps, looked at after each, at 1.96 of their deviation.
func TestInflationIsSeen(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	const trials = 40_000
	first := map[int]int{}
	for range trials {
		sum := 0.0
		for k := 1; k <= 50; k++ {
			if sum += r.NormFloat64(); math.Abs(sum) > 1.959964*math.Sqrt(float64(k)) {
				first[k]++
				break
			}
		}
	}
	seen := 0
	for k := 1; k <= 50; k++ {
		seen += first[k]
		switch k {
		case 1, 2, 3, 4, 5, 10, 20, 50:
			near(t, fmt.Sprint(k, " looks"), float64(seen)/trials, float(trial.Inflation(int64(k)).Factor()), 0.0075) // three deviations
		}
	}
	for looks, want := range map[int64]string{1: "5%", 2: "8.3%", 3: "10.7%", 4: "12.6%", 5: "14.2%", 10: "19.3%", 20: "24.8%", 50: "32%", 49: "24.8%", -1: "0%"} {
		if got := trial.Inflation(looks); !got.Equal(rate(want)) {
			t.Errorf("%d looks: %s, want %s", looks, got, want)
		}
	}
	if !trial.Inflation(7).Equal(trial.Inflation(5)) || !trial.Inflation(0).IsZero() || !trial.Inflation(1<<40).Equal(rate("32%")) {
		t.Error("between and beyond the rows")
	}
}
