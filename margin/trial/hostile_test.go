package trial_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// Whatever is given, an answer or problems come out, without panics, and what
// comes out is written and has no number that is none.
func TestHostile(t *testing.T) {
	numbers := []string{"0", "-1", "0.001", "0.00000001", "1", "999999999999.99999999", "1000000000", "-999999999999", "0.0009"}
	counts := []int64{0, 1, -1, 10_000_000, 10_000_001, 1 << 62, -1 << 63, 9_999_999}
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string) string { return rapid.SampledFrom(numbers).Draw(t, name) }
		side := func(name string) []trial.Period {
			var ps []trial.Period
			price, kept := number("price"), number("kept")
			for i := range rapid.IntRange(0, 3).Draw(t, name) {
				ps = append(ps, heron(fmt.Sprint(name, i), i, price, kept, number("exposure"), rapid.SampledFrom(counts).Draw(t, "units")))
			}
			return ps
		}
		a, b := side("a"), side("b")
		results := []any{}
		add := func(v any, err error) {
			if _, ok := err.(quoin.Problems); err != nil && !ok {
				t.Errorf("an error that is no problem: %v", err)
			}
			results = append(results, v)
		}
		c, err := trial.Compare(a, b, trial.Options{})
		add(c, err)
		s, err := trial.SlopeOf(a, trial.SlopeOptions{AddHalf: true})
		add(s, err)
		sold := trial.SalesCount{Units: rapid.SampledFrom(counts).Draw(t, "sold"), Exposure: factor(number("before"))}
		other := trial.SalesCount{Units: rapid.SampledFrom(counts).Draw(t, "other"), Exposure: factor(number("before it"))}
		rates, err := trial.CompareRates(sold, other, quoin.Optional[quoin.Rate]{})
		add(rates, err)
		n, err := trial.SalesToTell(factor(number("times")), trial.Certainty{})
		add(n, err)
		n, err = trial.ExposureToTell(factor(number("one rate")), factor(number("other rate")), trial.Certainty{})
		add(n, err)
		share, err := trial.ShareOf(sold.Units, other.Units, quoin.Optional[quoin.Rate]{})
		add(share, err)
		kept := amount(number("kept"))
		next, err := trial.Next(trial.Choice{
			Today: amount(number("today")), Sold: sold, Allowed: amounts(number("allowed"), number("allowed"), "0.00000001", "1.1"),
			Kept: func(quoin.Amount) quoin.Amount { return kept }, Move: rate("50%"), Horizon: factor(number("horizon")),
		})
		add(next, err)
		for _, r := range results {
			text, err := json.Marshal(r)
			if err != nil || strings.Contains(string(text), "NaN") || strings.Contains(string(text), "Inf") {
				t.Errorf("%s, %v", text, err)
			}
		}
	})
}

func TestManyPeriods(t *testing.T) {
	var a, b []trial.Period
	for i := range 100_000 {
		a = append(a, heron(fmt.Sprint("a", i), i%1000, "79", "40", "1000", 3))
		b = append(b, heron(fmt.Sprint("b", i), i%1000, "89", "40", "1000", 2))
	}
	if c := compare(t, a, b); c.Answer != trial.Better || c.Groups[0].Pairs != 100_000 {
		t.Error(c.Answer)
	}
	if _, err := trial.Compare(append(a, a[0]), b, trial.Options{}); codes(err) != "too_many a" {
		t.Error(err)
	}
	if _, err := trial.Compare(b, append(list(), heron("c", 0, "79", "1", "1", 10_000_000), heron("d", 0, "79", "1", "1", 10_000_000)), trial.Options{}); !strings.Contains(codes(err), "too_many b") {
		t.Error(err)
	}
}

// At the ends of what is allowed, everything answers.
func TestEndsAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) []trial.Period {
			price := rapid.SampledFrom([]string{"0", "0.00000001", "79", "999999999999.99999999"}).Draw(t, "price")
			kept := rapid.SampledFrom([]string{"0", "-1", "0.00000001", "40", "999999999999.99999999"}).Draw(t, "kept")
			var ps []trial.Period
			for i := range rapid.IntRange(1, 3).Draw(t, name) {
				exposure := rapid.SampledFrom([]string{"0.001", "1", "1000", "1000000000"}).Draw(t, "exposure")
				p := heron(fmt.Sprint(name, i), i, price, kept, exposure, rapid.SampledFrom([]int64{0, 1, 7, 3_333_333}).Draw(t, "units"))
				if rapid.Bool().Draw(t, "people") {
					p.Exposure.Kind = trial.Visitors
				}
				ps = append(ps, p)
			}
			return ps
		}
		a, b := side("a"), side("b")
		c := compare(t, a, b)
		if text, err := json.Marshal(c); err != nil || !json.Valid(text) {
			t.Errorf("%s, %v", text, err)
		}
		if _, err := trial.SlopeOf(a, trial.SlopeOptions{AddHalf: true}); err != nil && a[0].Price.Sign() > 0 && !strings.Contains(codes(err), "unlike_periods") {
			t.Error(err)
		}
		choice := trial.Choice{
			Today: amount("1"), Sold: trial.SalesCount{Units: a[0].Units, Exposure: a[0].Exposure.Number}, Allowed: amounts("0.5", "0.99999999", "1.00000001", "1.5"),
			Kept: func(p quoin.Amount) quoin.Amount { return a[0].Kept.Times(p.Ratio(amount("1"))) }, Move: rate("50%"), Horizon: b[0].Exposure.Number,
		}
		if rapid.Bool().Draw(t, "believes") {
			choice.Belief = quoin.Some(trial.Belief{
				Elasticity: quoin.FactorOf(rapid.SampledFrom([]int64{-50, 0, 50}).Draw(t, "elasticity")), Spread: quoin.FactorOf(rapid.SampledFrom([]int64{0, 20}).Draw(t, "spread")),
			})
		}
		p, err := trial.Next(choice)
		if _, failed := json.Marshal(p); err != nil || failed != nil {
			t.Error(err, failed)
		}
	})
}

// Problems are bounded too.
func TestProblemsAreBounded(t *testing.T) {
	a := make([]trial.Period, 5000)
	_, err := trial.Compare(a, a, trial.Options{})
	if ps, _ := err.(quoin.Problems); len(ps) == 0 || len(ps) > 1001 {
		t.Errorf("%d problems", len(ps))
	}
}
