package paper_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		paper.Explain, paper.Mass, paper.Grammage, paper.BasisWeight, paper.Reams,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}

func TestReams(t *testing.T) {
	for _, c := range []struct {
		ream int64
		want string
	}{{500, "2"}, {250, "4"}, {0, "2"}} { // 1000 sheets
		if got := paper.Reams(quoin.FactorOf(1000), c.ream); !got.Equal(quoin.MustFactor(c.want)) {
			t.Errorf("reams of %d: %v, want %s", c.ream, got, c.want)
		}
	}
}
