package breakdown_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/breakdown"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// Three thirds of a cent are one cent, and it goes to the first of the largest remainders.
func TestColumnsAddUp(t *testing.T) {
	amount := quoin.MustAmount
	c := pricelist.ChannelResult{
		Buyer: channel.BuyerPays{Item: amount("20.00"), Postage: amount("4.00"), Surcharge: amount("0.50"), TaxOnTop: amount("1.00")},
		Statement: margin.Statement{
			Revenue: amount("24.50"), Tax: amount("1.00"), Goods: amount("6.006"), OwnTime: amount("1.003"), Gross: amount("18.494"), Fees: amount("0.333"),
			Fulfilment: amount("0.333"), FixedCost: amount("0.333"), Contribution: amount("17.495"), Overhead: amount("20.00"), Operating: amount("-2.505"), Net: amount("-2.505"),
		},
	}
	// 24.50 − 17.495, which is 17.50 (halves up), are 7.00: 5.003 + 1.003 + 0.333 × 3 is 7.005. Each is rounded down but those with
	// the largest remainders, below zero towards it: 0.333 is 0.33 three times, 5.00, 1.00, and one cent more for one of them.
	want := `  price of one print 20.00, + postage buyer pays 4.00, + surcharge buyer pays 0.50, + tax on top 1.00, - tax, passed on -1.00, = you receive 24.50
- materials and packing -5.00, - your own time -1.00, - paid time 0.00, - selling fees -0.33, - postage you pay -0.33, - fixed cost of channel -0.34, = stays with you 17.50
- part of yearly costs -20.00, - income tax 0.00, = yours in the end -2.50`
	var out []string
	var before quoin.Amount
	for _, g := range breakdown.Of(c, quoin.MustCurrency("EUR")) {
		var line []string
		sum := before
		for _, l := range g.Lines {
			line, sum = append(line, fmt.Sprintf("%s %s", l.Label, l.Amount)), sum.Add(l.Amount)
		}
		if before = g.Left.Amount; !sum.Equal(before) {
			t.Errorf("%s: the lines come to %s, not %s", g.Left.Label, sum, before)
		}
		out = append(out, strings.Join(append(line, fmt.Sprintf("%s %s", g.Left.Label, g.Left.Amount)), ", "))
	}
	if got := strings.Join(out, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if l := breakdown.Of(c, quoin.MustCurrency("EUR"))[1].Lines[3]; l.Name() != "selling fees" {
		t.Errorf("%q", l.Name())
	}
}
