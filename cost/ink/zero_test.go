package ink_test

import (
	"testing"

	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		ink.Job{}, ink.Period{}, ink.Use{}, ink.Upkeep{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
