package trial_test

import (
	"fmt"
	"testing"

	"example.com/quoin/margin/trial"
)

func BenchmarkCompare(b *testing.B) {
	var one, other []trial.Period
	for i := range 24 {
		one = append(one, heron(fmt.Sprint("a", i), 2*i, "79", "40", "1000", 12))
		other = append(other, heron(fmt.Sprint("b", i), 2*i+1, "89", "50", "1000", 9))
	}
	for b.Loop() {
		if _, err := trial.Compare(one, other, trial.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
