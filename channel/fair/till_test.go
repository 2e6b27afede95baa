package fair_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
)

func TestTill(t *testing.T) {
	for _, c := range []struct{ price, step, want string }{
		// taxtips.ca/smallbusiness/penny-elimination.htm
		{"1.01", "0.05", "1.00"},
		{"1.02", "0.05", "1.00"},
		{"1.03", "0.05", "1.05"},
		{"1.04", "0.05", "1.05"},
		{"1.06", "0.05", "1.05"},
		{"1.07", "0.05", "1.05"},
		{"1.08", "0.05", "1.10"},
		{"1.09", "0.05", "1.10"},
		// Office de la protection du consommateur (opc.gouv.qc.ca)
		{"5.98", "0.05", "6.00"},
		{"5.97", "0.05", "5.95"},
		// A New Tax System (Goods and Services Tax) Regulations, Australia, 168-5.11: 2.5 cents up
		{"10.025", "0.05", "10.05"},
		// Worked out by hand.
		{"10.024", "0.05", "10.00"},
		{"18.15", "0.50", "18.00"},
		{"18.25", "0.50", "18.50"},
		{"18.15", "1", "18.00"},
		{"0.02", "0.05", "0.00"},
		{"0", "0.05", "0"},
		{"-10.025", "0.05", "-10.05"},
		{"-1.02", "0.05", "-1.00"},
		{"0.1049", "0.03", "0.09"},
		{"0.105", "0.03", "0.12"},
		{"7.03", "0", "7.03"},
		{"7.03", "-1", "7.03"},
	} {
		if got := fair.Till(amount(c.price), amount(c.step)); !got.Equal(amount(c.want)) {
			t.Errorf("%s in steps of %s: %s, want %s", c.price, c.step, got, c.want)
		}
	}
	// A third of 0.45 went through a quotient and is 0.15 to the digit.
	if got := fair.Till(amount("1").Over(factor("3")).Times(factor("0.45")), amount("0.10")); !got.Equal(amount("0.20")) {
		t.Errorf("0.15: %s, want 0.20", got)
	}
}

// What is paid is a multiple of the step, no farther from the total than half of it.
func TestTillLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := quoin.AmountOf(rapid.Int64Range(-1e9, 1e9).Draw(t, "total"), 3)
		step := quoin.AmountOf(rapid.Int64Range(1, 500).Draw(t, "step"), 2)
		paid := fair.Till(total, step)
		difference := paid.Sub(total)
		if steps := new(big.Rat).Quo(paid.Rat(), step.Rat()); !steps.IsInt() {
			t.Fatalf("%s is no multiple of %s", paid, step)
		}
		twice := new(big.Rat).Add(difference.Rat(), difference.Rat())
		switch c := twice.Abs(twice).Cmp(step.Rat()); {
		case c > 0:
			t.Fatalf("%s for %s in steps of %s", paid, total, step)
		case c == 0 && difference.Sign() != total.Sign():
			t.Fatalf("a tie toward zero: %s for %s", paid, total)
		}
	})
}
