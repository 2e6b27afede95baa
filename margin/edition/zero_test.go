package edition_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/edition"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		edition.Edition{},
		edition.PriceStep{},
		edition.PricedStep{},
		edition.Entry{},
		edition.State(""),
		edition.Limit{},
		edition.ExpectedProceeds{},
		edition.Numbering{},
		edition.Tally{},
		edition.Span{},
		edition.Current, edition.Expected, edition.NumberingOf,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
