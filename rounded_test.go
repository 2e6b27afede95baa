package quoin_test

import (
	"math"
	"strings"
	"testing"

	"example.com/quoin"
)

// TestRoundedRoundsItsOwnStep: 10.00 ÷ 3 is 3.33, and stays so where another step came
// between: that one, 0.10 × 1.005, keeps all its digits.
func TestRoundedRoundsItsOwnStep(t *testing.T) {
	trail, nowhere := quoin.NewTrail(2), quoin.Path{}
	third := trail.Quotient("third", nowhere, quoin.Given("whole", nowhere, quoin.MustAmount("10.00").Figure()), quoin.FactorOf(3).Named("three"))
	fine := trail.Product("fine", nowhere, quoin.Given("price", nowhere, quoin.MustAmount("0.10").Figure()), quoin.MustFactor("1.005").Named("by"))
	rounded := trail.Rounded(2, quoin.HalfUp, third)
	if got := rounded.Value.String(); got != "3.33" || trail.Steps()[0].Value.String() != "3.33" {
		t.Errorf("a third of 10.00 is %s, and in its step %s", got, trail.Steps()[0].Value)
	}
	if got := trail.Steps()[1]; got.Places != -1 || got.Value.String() != "0.1005" {
		t.Errorf("the step between is %s to %d places", got.Value, got.Places)
	}
	if err := quoin.Replay(trail.Steps()); err != nil {
		t.Error(err)
	}
	trail.Sum("sum", nowhere, rounded, fine)
	for name, o := range map[string]quoin.Operand{
		"rests on step 1": rounded, "no step of this trail": quoin.Given("price", nowhere, quoin.MustAmount("1").Figure()), "value of no step": {Step: 9}, "no step": {Step: -1},
	} {
		if said := panicOf(func() { trail.Rounded(1, quoin.Up, o) }); !strings.HasPrefix(said, "quoin: Trail.Rounded: ") || !strings.Contains(said, name) {
			t.Errorf("%+v: %q, want %s", o, said, name)
		}
	}
}

// How many steps there will be is only a hint.
func TestTrailsOfAnyRoom(t *testing.T) {
	for _, n := range []int{-1, 0, math.MinInt, math.MaxInt} {
		trail := quoin.NewTrail(n)
		trail.Sum("sum", quoin.Path{}, quoin.FactorOf(2).Named("two"))
		if len(trail.Steps()) != 1 {
			t.Errorf("room for %d: %v", n, trail.Steps())
		}
	}
}

// panicOf is what f panics with, as text; empty where it does not.
func panicOf(f func()) (said string) {
	defer func() {
		if r := recover(); r != nil {
			if err, ok := r.(error); ok {
				said = err.Error()
				return
			}
			said, _ = r.(string)
		}
	}()
	f()
	return ""
}

// A silent trail comes to the same as one that is told, keeps nothing and takes no memory.
func TestSilentTrails(t *testing.T) {
	price, rate := quoin.MustAmount("25.00").Figure(), quoin.MustRate("7.4%").Figure()
	fee := func(trail *quoin.Trail) quoin.Operand {
		trail.On("card")
		rated := trail.Product("rated", quoin.Path{}, quoin.Given("price", quoin.Path{}, price), quoin.Given("rate", quoin.Path{}, rate))
		return trail.Rounded(2, quoin.HalfUp, trail.Quotient("each", quoin.Path{}, rated, quoin.FactorOf(3).Named("items")))
	}
	told, silent := quoin.NewTrail(2), quoin.Silent()
	if got, want := fee(silent), fee(told); !got.Value.Equal(want.Value) || got.Value.String() != "0.62" { // 1.85 ÷ 3
		t.Errorf("%s without steps and %s with them, want 0.62", got, want)
	}
	if len(silent.Steps()) != 0 || len(told.Steps()) != 2 {
		t.Errorf("%s without, %s with", silent, told)
	}
	unrounded := func(trail *quoin.Trail) string { // below 0, to no place
		return trail.Rounded(-1, quoin.HalfUp, trail.Sum("all", quoin.Path{}, quoin.Given("price", quoin.Path{}, price))).Value.String()
	}
	if got, want := unrounded(quoin.Silent()), unrounded(quoin.NewTrail(1)); got != want || got != "25.00" {
		t.Errorf("rounded to no place: %s without steps, %s with them, want 25.00", got, want)
	}
	if n := testing.AllocsPerRun(100, func() { fee(silent) }); n > 0 {
		t.Errorf("it allocates %v times", n)
	}
}
