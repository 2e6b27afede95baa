package machine_test

import (
	"testing"

	"example.com/quoin/cost/machine"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		machine.Machine{}, machine.Part{}, machine.Method(""), machine.Cost{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
