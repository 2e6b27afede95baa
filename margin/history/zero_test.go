package history_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/history"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		history.Days{},
		history.History{},
		history.Placed[history.Price]{},
		history.Lowest{},
		history.Kind(""),
		history.Record{},
		history.Price{},
		history.Reduction{},
		history.Sale{},
		history.Trial{},
		history.ExposureUnit(""),
		history.EditionSales{},
		history.Month{},
		history.Unsold{},
		history.Run{},
		history.Timeline{},
		history.Stretch{},
		history.Change{},
		history.TrialsIn{},
		history.Append, history.New, history.Read, history.ReadAll,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
