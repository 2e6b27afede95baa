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
