package cut_test

import (
	"errors"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		cut.Cut{},
		cut.Part(""), cut.Grain(""), cut.Layout(""),
		cut.Roll{},
		cut.Rows{},
		cut.RollCut{},
		cut.Sheet{},
		cut.SheetCut{},
		cut.Block{},
		cut.Stick{},
		cut.Rail{},
		cut.Saw{},
		cut.Sticks{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// Nothing is cut out of no stick, and nothing comes out of a stick that has no length.
func TestNothingCut(t *testing.T) {
	none, err := cut.Stick{}.Out()
	if err != nil || none.Sticks != 0 || !none.Proven || len(none.Saws) != 0 {
		t.Errorf("no rails: %+v, %v", none, err)
	}
	_, err = cut.Stick{}.Out(cut.Rail{Length: quoin.MustQuantity("30 cm"), Count: 1})
	if !errors.Is(err, quoin.Problem{Code: cut.NothingFits}) {
		t.Errorf("a rail out of no stick: %v", err)
	}
	if !(cut.SheetCut{}).PerPiece().IsZero() || !(cut.RollCut{}).PerPiece().IsZero() {
		t.Error("no piece takes a part of a sheet")
	}
}
