package paper_test

import (
	"testing"

	"example.com/quoin/cost/paper"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		paper.Mass, paper.Grammage, paper.BasisWeight,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
