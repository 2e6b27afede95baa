package buy_test

import (
	"testing"

	"example.com/quoin"

	"example.com/quoin/cost/buy"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		quoin.Date{},
		buy.Offer{},
		buy.Order{},
		buy.Cover{},
		buy.DominatedQuantities{},
		buy.EconomicOrder{},
		buy.Purchase{},
		buy.PurchaseLine{},
		buy.SharedCost{},
		buy.By(""),
		buy.LandedLine{},
		buy.Scale{},
		buy.PriceBreak{},
		buy.Mode(""),
		buy.Stock{},
		buy.Receipt{},
		buy.Use{},
		buy.Basis(""),
		buy.StockLevel{},
		quoin.ParseDate, quoin.MustDate, buy.Economic,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all[1:]...) // no date prints as nothing
}
