package trial_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/trial"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{
			trial.Options{},
			"",
		},
		{
			trial.Options{Certainty: trial.Certainty{Power: quoin.Some(quoin.MustRate("100%"))}, Looks: -1},
			"out_of_range power, out_of_range looks",
		},
		{
			trial.Certainty{Confidence: quoin.Some(quoin.MustRate("49%"))},
			"out_of_range confidence",
		},
		{
			trial.Choice{},
			"missing_field today, missing_field sold, missing_field move, missing_field horizon, missing_field kept",
		},
	} {
		if got := problemtest.Listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}
