package pricelist_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		pricelist.Allowed{}, pricelist.Answer{}, pricelist.Apart{}, pricelist.Batch{}, pricelist.Beside{}, pricelist.Bought{}, pricelist.Bounded{},
		pricelist.Case{}, pricelist.Change(""), pricelist.Clash{}, pricelist.Covered{}, pricelist.Credited{}, pricelist.Deepest{}, pricelist.Detail(0),
		pricelist.Document{}, pricelist.FairPlan{}, pricelist.Going{}, pricelist.HomeCost{}, pricelist.InChannel{}, pricelist.Influence{}, pricelist.Limited{},
		pricelist.LineSheet{}, pricelist.Lot{}, pricelist.Machine{}, pricelist.Made{}, pricelist.Moved{}, pricelist.NamedAmount{}, pricelist.Ordered{},
		pricelist.Parceled{}, pricelist.Priced{}, pricelist.Product{}, pricelist.Public{}, pricelist.Quoted{}, pricelist.Reasons{}, pricelist.Remedy{},
		pricelist.Rising{}, pricelist.Set{}, pricelist.SetPrice{}, pricelist.SheetLine{}, pricelist.Shop{}, pricelist.Sold{},
		pricelist.Sourcing{}, pricelist.Spread{}, pricelist.Standing{}, pricelist.StepAsks{}, pricelist.Unsure{},
		pricelist.AnswerSchema, pricelist.Cautions, pricelist.Decide, pricelist.Decode, pricelist.DecodeLot, pricelist.DecodeShop, pricelist.DocumentSchema,
		pricelist.Open, pricelist.Price,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
