package rule

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// Endings that the step divides are found without fractions, and are the same.
func TestDividingEndingsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := func(name string, most int64) quoin.Amount {
			return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), rapid.IntRange(0, 3).Draw(t, name+" places"))
		}
		step := quoin.AmountOf(rapid.Int64Range(1, 50).Draw(t, "step"), 2)
		g, err := quoin.NewGrid(step, step.Times(quoin.FactorOf(rapid.Int64Range(1, 2000).Draw(t, "prices"))))
		if err != nil {
			t.Fatal(err)
		}
		k := Ending{Every: amount("modulus", 500)}
		for range rapid.IntRange(1, 4).Draw(t, "endings") {
			k.EndsIn = append(k.EndsIn, amount("ending", 600))
		}
		if c, ok := k.dividing(g); ok && !c.equal(k.comb(g)) {
			t.Fatalf("%v of %v on %v: %v, want %v", k.EndsIn, k.Mod(), g, c, k.comb(g))
		}
	})
}
