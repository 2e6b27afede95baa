package frame_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/frame"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`moulding: width 20 mm, together 5`:    frame.Moulding{Width: quoin.MustQuantity("20 mm"), Together: 5},
		`united: size 210 x 297 mm, whole up`:  frame.United{Size: quoin.MustSize("A4"), WholeUp: true},
		`mat: image 210 x 297 mm, reveal 5 mm`: frame.Mat{Image: quoin.MustSize("A4"), Reveal: quoin.MustQuantity("5 mm")},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
