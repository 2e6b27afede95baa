package margin_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin"
)

func TestStatementLines(t *testing.T) {
	s := margin.Statement{
		Revenue: quoin.AmountOf(1, 0), Tax: quoin.AmountOf(2, 0), Goods: quoin.AmountOf(3, 0), OwnTime: quoin.AmountOf(4, 0), PaidTime: quoin.AmountOf(5, 0),
		Gross: quoin.AmountOf(6, 0), Fees: quoin.AmountOf(7, 0), Fulfilment: quoin.AmountOf(8, 0), FixedCost: quoin.AmountOf(9, 0), Contribution: quoin.AmountOf(10, 0),
		Overhead: quoin.AmountOf(11, 0), Operating: quoin.AmountOf(12, 0), IncomeTax: quoin.AmountOf(13, 0), Net: quoin.AmountOf(14, 0),
	}
	want := []quoin.StepCode{
		"revenue", "tax_passed_on", "goods", "own_time", "paid_time", "gross", "fees", "fulfilment", "fixed_cost", "contribution",
		"overhead", "operating", "income_tax", "net",
	}
	n := 0
	for code, amount := range s.Lines() {
		if code != want[n] || !amount.Equal(quoin.AmountOf(int64(n+1), 0)) {
			t.Errorf("line %d is %s of %s, wanted %d of %s", n+1, amount, code, n+1, want[n])
		}
		n++
	}
	if n != len(want) {
		t.Errorf("found %d lines, wanted %d", n, len(want))
	}
	for range s.Lines() {
		break // a loop that is left
	}
}
