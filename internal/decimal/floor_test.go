package decimal

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// In whole numbers as in long ones, and above 64 bits the nearest that they hold.
func TestFloorsAgree(t *testing.T) {
	var within, beyond, below int
	rapid.Check(t, func(t *rapid.T) {
		x, y := anyNumber(t, "x"), anyNumber(t, "y")
		if y.Sign() < 0 {
			y = y.Neg()
		}
		if y.Snap().Sign() == 0 {
			return
		}
		want := x.Floor(y)
		up := x.Neg().Floor(y)
		for _, c := range []struct {
			what string
			got  int64
			want *big.Int
		}{{"floor", x.FloorInt(y), want}, {"ceil", x.CeilInt(y), up.Neg(up)}} {
			switch {
			case c.want.IsInt64():
				if within++; c.got != c.want.Int64() {
					t.Fatalf("%s of %s ÷ %s: %d, want %s", c.what, x, y, c.got, c.want)
				}
			case c.want.Sign() < 0:
				if below++; c.got != math.MinInt64 {
					t.Fatalf("%s of %s ÷ %s: %d, want the least", c.what, x, y, c.got)
				}
			default:
				if beyond++; c.got != math.MaxInt64 {
					t.Fatalf("%s of %s ÷ %s: %d, want the greatest", c.what, x, y, c.got)
				}
			}
		}
	})
	if within == 0 || beyond == 0 || below == 0 {
		t.Errorf("drawn: %d within, %d beyond, %d below", within, beyond, below)
	}
}

func TestFloorsOfTable(t *testing.T) {
	for _, c := range []struct {
		x, y        string
		floor, ceil int64
	}{
		{"10", "3", 3, 4},
		{"-10", "3", -4, -3},
		{"9", "3", 3, 3},
		{"-9", "3", -3, -3},
		{"0", "0.01", 0, 0},
		{"17.50", "0.01", 1750, 1750},
		{"17.505", "0.01", 1750, 1751},
		{"0.001", "1000000000000", 0, 1},
		{"-0.001", "1000000000000", -1, 0},
		{"9223372036854775807", "1", math.MaxInt64, math.MaxInt64},
		{"9223372036854775808", "1", math.MaxInt64, math.MaxInt64},
		{"170141183460469231731687303715884105727", "170141183460469231731687303715884105727", 1, 1}, // 127 bits each
		{"170141183460469231731687303715884105726", "170141183460469231731687303715884105727", 0, 1},
	} {
		x, y := num(t, c.x), num(t, c.y)
		if floor, ceil := x.FloorInt(y), x.CeilInt(y); floor != c.floor || ceil != c.ceil {
			t.Errorf("%s ÷ %s: %d and %d, want %d and %d", c.x, c.y, floor, ceil, c.floor, c.ceil)
		}
	}
}
