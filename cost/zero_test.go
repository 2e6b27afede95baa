package cost_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		cost.BillLine{},
		cost.Bill{},
		cost.Charge{},
		cost.Starts(nil), cost.Driver(""),
		cost.Run{},
		cost.Supply{},
		cost.Labour(""),
		cost.UnitCost{},
		cost.Sizes{},
		cost.DerivedQuantity{},
		cost.Yearly{},
		cost.PerItem, cost.PerOrder, cost.UnitCosts, cost.OneTest,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// A charge of no line is one for each item.
func TestChargeWithoutLine(t *testing.T) {
	charges := []cost.Charge{{Amount: quoin.MustAmount("2.50")}, {Amount: quoin.MustAmount("0.50")}}
	if got := cost.PerItem(charges); !got.Equal(quoin.MustAmount("3.00")) || !cost.PerOrder(charges).IsZero() {
		t.Errorf("%v an item, %v an order", got, cost.PerOrder(charges))
	}
}
