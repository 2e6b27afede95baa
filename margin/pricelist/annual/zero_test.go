package annual_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist/annual"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		annual.Year{},
		annual.Terms{},
		annual.Exposure{},
		annual.Results{},
		annual.MarketStanding{},
		annual.TriedPrice{},
		annual.LeftOutTrials{},
		annual.Next{},
		annual.DecodeTerms, annual.DecodeMarket, annual.Review, annual.Text, annual.Markdown,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
