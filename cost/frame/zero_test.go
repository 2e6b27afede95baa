package frame_test

import (
	"testing"

	"example.com/quoin/cost/frame"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		frame.Mat{}, frame.Moulding{}, frame.United{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
