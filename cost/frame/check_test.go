package frame_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/frame"
	"example.com/quoin/internal/problemtest"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{
			frame.Moulding{Width: quoin.MustQuantity("20 mm"), Rabbet: quoin.MustQuantity("5 mm")},
			"",
		},
		{
			frame.Moulding{},
			"missing_field width",
		},
		{
			frame.Moulding{Width: quoin.MustQuantity("20 g"), Allowance: quoin.MustQuantity("-1 mm"), Together: -1},
			"unit_mismatch width, out_of_range allowance, out_of_range together",
		},
		{
			frame.Moulding{Width: quoin.MustQuantity("20 mm"), Rabbet: quoin.MustQuantity("2 cm")},
			"rabbet_above_width rabbet",
		},
	} {
		if got := problemtest.Listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}
