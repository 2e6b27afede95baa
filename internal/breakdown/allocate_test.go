package breakdown

import (
	"strings"
	"testing"

	"example.com/quoin"
)

func TestAllocate(t *testing.T) {
	for _, c := range []struct {
		exact []string
		total string
		want  string
	}{
		{[]string{"1.004", "1.006"}, "2.01", "1.00 1.01"},   // the largest remainder first
		{[]string{"1.005", "1.005"}, "2.01", "1.01 1.00"},   // of equal ones the first
		{[]string{"0.009", "0.001"}, "-0.01", "0.00 -0.01"}, // down: the smallest first
		{[]string{"-1.004", "2.00"}, "1.00", "-1.00 2.00"},
	} {
		var exact []quoin.Amount
		for _, e := range c.exact {
			exact = append(exact, quoin.MustAmount(e))
		}
		var got []string
		for _, a := range (money{2}).allocate(exact, quoin.MustAmount(c.total)) {
			got = append(got, a.WithPlaces(2).String())
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v to %s: %v, wanted %s", c.exact, c.total, got, c.want)
		}
	}
}

// Halves go up, also below zero, and what is half on 12 places is one.
func TestNearest(t *testing.T) {
	for exact, want := range map[string]string{
		"2.504": "2.50", "2.505": "2.51", "2.506": "2.51", "-2.504": "-2.50", "-2.505": "-2.50", "-2.506": "-2.51", "-2.5": "-2.50", "0": "0.00",
		"2.5049999999995": "2.51", "2.5049999999994": "2.50", "2.5049999999991": "2.50", "-2.51": "-2.51", "-0.004": "0.00", "-0.006": "-0.01",
	} {
		q := quoin.MustFactor(exact)
		a := quoin.AmountOf(1, 0).Times(q)
		if got := (money{2}).nearest(a); !got.Equal(quoin.MustAmount(want)) {
			t.Errorf("%s is nearest to %s, want %s", exact, got, want)
		}
	}
	if got := (money{0}).nearest(quoin.MustAmount("1749.5")); !got.Equal(quoin.MustAmount("1750")) {
		t.Errorf("1749.5 is nearest to %s", got)
	}
}

// No line is moved by more than two units, whatever the total.
func TestAllocateTooMuch(t *testing.T) {
	three := []quoin.Amount{quoin.MustAmount("1.00"), quoin.MustAmount("1.00"), quoin.MustAmount("1.00")}
	for total, want := range map[string]string{"9.00": "1.02", "-9.00": "0.98"} {
		for _, a := range (money{2}).allocate(three, quoin.MustAmount(total)) {
			if !a.Equal(quoin.MustAmount(want)) {
				t.Errorf("to %s: %s, want %s", total, a, want)
			}
		}
	}
}
