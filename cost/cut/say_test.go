package cut_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`rail: length 24 in, count 2`:           cut.Rail{Length: quoin.MustQuantity("24 in"), Count: 2},
		`cut: of frame, bleed 3 mm, grain long`: cut.Cut{Of: cut.Glass, Bleed: quoin.MustQuantity("3 mm"), Grain: cut.Long},
		`sticks: sticks 2, bound 2, proven`:     cut.Sticks{Sticks: 2, Bound: 2, Proven: true},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
