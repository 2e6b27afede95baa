package cost_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/cut"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`no supply`: cost.Supply{},
		`supply "paper": name "Cotton rag", quantity 50 sheet, price 62.00, sheet (size 500 x 700 mm)`: cost.Supply{ID: "paper", Name: "Cotton rag", Quantity: quoin.MustQuantity("50 sheet"), Price: quoin.MustAmount("62.00"), Sheet: &cut.Sheet{Size: quoin.MustSize("500 x 700 mm")}},
		`bill line: supply "ink", quantity 4 ml, stage "print", per run`:                               cost.BillLine{Supply: "ink", Quantity: quoin.MustQuantity("4 ml"), Stage: "print", Per: cost.EachRun},
		`unit cost: amount ≈3.33333333, unit sheet, labour own`:                                        cost.UnitCost{Amount: quoin.MustAmount("10").Over(quoin.FactorOf(3)), Unit: "sheet", Labour: cost.OwnTime},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
