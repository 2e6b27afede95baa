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

// Every line has its own figure, and a sign.
func TestEveryLine(t *testing.T) {
	amount := quoin.MustAmount
	c := pricelist.ChannelResult{
		Buyer: channel.BuyerPays{Item: amount("20"), Postage: amount("4"), Surcharge: amount("0.50"), TaxOnTop: amount("1")},
		Statement: margin.Statement{ // 25.50 − 2 = 23.50; − 9 − 3 − 1.50 − 0.25 = 9.75; − 1.75 − 2.50 = 5.50
			Revenue: amount("23.50"), Tax: amount("2"), Goods: amount("9"), OwnTime: amount("3.50"), PaidTime: amount("1.25"), Fees: amount("3"),
			Fulfilment: amount("1.50"), FixedCost: amount("0.25"), Contribution: amount("9.75"), Overhead: amount("1.75"), IncomeTax: amount("2.50"), Net: amount("5.50"),
		},
	}
	const want = `price of one print 20.00
postage buyer pays 4.00
surcharge buyer pays 0.50
tax on top 1.00
tax, passed on -2.00
you receive 23.50
materials and packing -4.25
your own time -3.50
paid time -1.25
selling fees -3.00
postage you pay -1.50
fixed cost of channel -0.25
stays with you 9.75
part of yearly costs -1.75
income tax -2.50
yours in the end 5.50
`
	got := ""
	for _, g := range breakdown.Of(c, quoin.MustCurrency("EUR")) {
		for _, l := range append(g.Lines, g.Left) {
			got += l.Name() + " " + l.Amount.WithPlaces(2).String() + "\n"
		}
	}
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Remainders that are the same on 12 places are the same, and the cent goes to the first.
func TestRemaindersOn12Places(t *testing.T) {
	tiny := quoin.AmountOf(4, 13)
	c := pricelist.ChannelResult{
		Buyer:     channel.BuyerPays{Item: quoin.MustAmount("20.005"), Postage: quoin.MustAmount("4.005").Add(tiny)},
		Statement: margin.Statement{Revenue: quoin.MustAmount("24.01")},
	}
	lines := breakdown.Of(c, quoin.MustCurrency("EUR"))[0].Lines
	if item, postage := lines[0].Amount, lines[1].Amount; !item.Equal(quoin.MustAmount("20.01")) || !postage.Equal(quoin.MustAmount("4.00")) {
		t.Errorf("%s and %s, want 20.01 and 4.00", item, postage)
	}
}
