package estimate_test

import (
	"testing"

	"example.com/quoin/internal/estimate"
)

// Six significant digits, without zeros at the end, and at most 16 places after the
// point: small numbers have fewer, and the smallest are nothing.
func TestDigitsOfAnEstimate(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{1.23456789, "1.23457"},
		{1234567, "1234570"},
		{0.5, "0.5"},
		{1.23456789e-11, "0.0000000000123457"},
		{1.23456789e-12, "0.0000000000012346"},
		{1.23456789e-15, "0.0000000000000012"},
	} {
		if got, ok := estimate.Six(c.x).Get(); !ok || got.String() != c.want {
			t.Errorf("%g leaves as %s, want %s", c.x, got, c.want)
		}
	}
	if got, ok := estimate.Six(4e-17).Get(); !ok || !got.IsZero() {
		t.Errorf("4e-17 leaves as %s, want nothing", got)
	}
}
