package market_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/market"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		market.Basis{},
		market.AdjustedPrice{},
		market.LeftOut{},
		market.Missing{},
		market.LoneSeller{},
		market.Exponent{},
		market.Fit{},
		market.Options{},
		market.Bounds{},
		market.Quantile{},
		market.Position{},
		market.Scale(""),
		market.Spread{},
		market.Outlier{},
		market.Summary{},
		market.WeightedRecord{},
		market.Venue{},
		market.FitExponent, market.Check, market.Summarize,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
