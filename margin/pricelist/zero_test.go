package pricelist_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		pricelist.AllowedPrices{},
		pricelist.Answer{},
		pricelist.Alternative{},
		pricelist.Batch{},
		pricelist.WhyNot{},
		pricelist.SupplyCost{},
		pricelist.LimitStatus{},
		pricelist.RangeResult{},
		pricelist.RemedyChange(""),
		pricelist.RuleBounds{},
		pricelist.BreakEven{},
		pricelist.EarlyPayment{},
		pricelist.DeepestDiscount{},
		pricelist.Detail(0),
		pricelist.Document{},
		pricelist.FairResult{},
		pricelist.RunStarts{},
		pricelist.HomeCost{},
		pricelist.InChannel{},
		pricelist.Influence{},
		pricelist.EditionStatus{},
		pricelist.LineSheet{},
		pricelist.Lot{},
		pricelist.MarketPosition{},
		pricelist.Machine{},
		pricelist.DerivedLine{},
		pricelist.PriceChange{},
		pricelist.NamedAmount{},
		pricelist.OrderResult{},
		pricelist.Shipping{},
		pricelist.ProductResult{},
		pricelist.Product{},
		pricelist.ByChannel{},
		pricelist.QuoteResult{},
		pricelist.Reasons{},
		pricelist.Remedy{},
		pricelist.EditionPrices{},
		pricelist.Set{},
		pricelist.SetPrice{},
		pricelist.LineSheetLine{},
		pricelist.Shop{},
		pricelist.ChannelResult{},
		pricelist.Sourcing{},
		pricelist.Uncertainty{},
		pricelist.StockValue{},
		pricelist.EditionStep{},
		pricelist.StatementRange{},
		pricelist.AnswerSchema, pricelist.Cautions, pricelist.Decide, pricelist.Decode, pricelist.DecodeLot, pricelist.DecodeShop, pricelist.DocumentSchema,
		pricelist.Open, pricelist.Price,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
