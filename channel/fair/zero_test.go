package fair_test

import (
	"testing"

	"example.com/quoin/channel/fair"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		fair.PrintOperands{},
		fair.OutcomeOperands{},
		fair.Fair{},
		fair.Cost{},
		fair.Share{},
		fair.Base(""),
		fair.Print{},
		fair.Outcome{},
		fair.InThree{},
		fair.Average{},
		fair.Volume{},
		fair.Count{},
		fair.Verdict(""),
		fair.Reason(""),
		fair.Till,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
