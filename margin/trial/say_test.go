package trial_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`period "march": channel "web", price 79, exposure (number 1000, kind visits), units 3`: trial.Period{ID: "march", Channel: "web", Price: quoin.MustAmount("79"), Units: 3, Exposure: trial.Exposure{Number: quoin.FactorOf(1000), Kind: trial.Visits}},
		`options: confidence 90%, looks 3`: trial.Options{Certainty: trial.Certainty{Confidence: quoin.Some(quoin.MustRate("90%"))}, Looks: 3},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
