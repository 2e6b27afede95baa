package decimal

import (
	"testing"

	"pgregory.net/rapid"
)

// A quotient that was cut, and what Snap writes of it, are the same number, also where its digits beyond the 28th place
// take it over a tie.
func TestSnappedIsTheSame(t *testing.T) {
	for _, c := range []struct {
		number  string
		same    bool
		written string
	}{
		{"17.1178470560625", true, "17.117847056062"},
		{"17.117847056062500000000000000003", true, "17.117847056062"},  // 3 on the 30th place: a tie
		{"17.1178470560624999999999999999998", true, "17.117847056062"}, // from below
		{"17.1178470560635000000000000000003", true, "17.117847056064"}, // half to even
		{"17.1178470560625000000000000001", true, "17.117847056063"},    // on the 28th: above it
		{"17.1178470560625000000000000001", false, "17.117847056062"},
	} {
		x := num(t, c.number)
		x.inexact = true
		y := num(t, c.written)
		if got := x.Snap().Trim().String(); c.same && got != c.written {
			t.Errorf("%s snaps to %s, want %s", c.number, got, c.written)
		}
		if (x.Cmp(y) == 0) != c.same || (y.Cmp(x) == 0) != c.same {
			t.Errorf("%s and %s: %d", c.number, c.written, x.Cmp(y))
		}
	}
}

func TestSnappedIsTheSameAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := New(rapid.Int64Range(-1<<40, 1<<40).Draw(t, "n"), -rapid.Int32Range(0, 14).Draw(t, "places"))
		tail := New(rapid.Int64Range(-1000, 1000).Draw(t, "tail"), -rapid.Int32Range(26, 33).Draw(t, "at"))
		x = x.Add(tail)
		x.inexact = true
		if y := x.Snap(); x.Cmp(y) != 0 || y.Cmp(x) != 0 {
			t.Fatalf("%s is not what it snaps to, %s", x.Trim(), y.Trim())
		}
	})
}
