package picture_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
	"example.com/quoin/margin/rule"
)

func eur(s string) quoin.Amount { return quoin.MustAmount(s) }

func decided(channels ...pricelist.ChannelResult) pricelist.Answer {
	return pricelist.Answer{Currency: quoin.MustCurrency("EUR"), Products: []pricelist.ProductResult{{ID: "heron", Price: eur("25.00"), Channels: channels}}}
}

// The table has what is not 0 in some channel, and all three totals. Of 25.00 a fair leaves 25.00 − 4.17 = 20.83, less
// 5.00 of goods, of which 1.50 are own and 0.50 paid time, and 0.33 of fees 15.50, less 2.00 and 3.38 10.12.
func TestTableOfABreakdown(t *testing.T) {
	p, ok := picture.Breakdown(decided(pricelist.ChannelResult{ID: "fair", Buyer: channel.BuyerPays{Item: eur("25.00")}, Statement: margin.Statement{
		Revenue: eur("20.83"), Tax: eur("4.17"), Goods: eur("5.00"), OwnTime: eur("1.50"), PaidTime: eur("0.50"), Gross: eur("15.83"), Fees: eur("0.33"), Contribution: eur("15.50"),
		Overhead: eur("2.00"), Operating: eur("13.50"), IncomeTax: eur("3.38"), Net: eur("10.12"),
	}}), "heron")
	var got []string
	for _, row := range p.Rows {
		got = append(got, strings.Join(row, ": "))
	}
	want := []string{
		"price of one print: 25.00", "- tax, passed on: -4.17", "= you receive: 20.83", "- materials and packing: -3.00", "- your own time: -1.50", "- paid time: -0.50", "- selling fees: -0.33",
		"= stays with you: 15.50", "- part of yearly costs: -2.00", "- income tax: -3.38", "= yours in the end: 10.12",
	}
	if !ok || strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if want := "fair: the buyer pays 25.00, tax, passed on 4.17, materials and packing 3.00, your own time 1.50, paid time 0.50, selling fees 0.33, part of yearly costs 2.00, income tax 3.38, yours in the end 10.12."; p.Text != want {
		t.Errorf("it says %s", p.Text)
	}
}

// straight is a line of so many points from a price on, a euro apart, that keeps half of it.
func straight(id string, from, points int) pricelist.ChannelResult {
	c := pricelist.ChannelResult{ID: id}
	for i := range points {
		price := quoin.AmountOf(int64(from+i), 0)
		c.Curve = append(c.Curve, margin.CurvePoint{Price: price, Contribution: price.Times(quoin.MustFactor("0.5"))})
	}
	return c
}

// A table has at most 200 pieces of lines, one fewer than its points each.
func TestPiecesOfLines(t *testing.T) {
	for _, c := range []struct{ first, second, want int }{{3, 4, 5}, {101, 101, 200}, {151, 60, 200}, {201, 2, 200}, {300, 2, 200}} {
		p, ok := picture.Keeps(decided(straight("web", 10, c.first), straight("fair", 10, c.second)), "heron")
		if !ok || len(p.Rows) != c.want {
			t.Errorf("%d and %d points have %d rows", c.first, c.second, len(p.Rows))
		}
		if got := strings.Join(p.Rows[0], " "); got != "web 10.00 5.00 11.00 5.50" {
			t.Errorf("first %s", got)
		}
	}
}

// Allowed prices are a band where they lie within the picture, here 10.00 to 50.00; those that only touch its ends stand there,
// as wide as can be seen. One more band explains them.
func TestAllowedBandWithinThePicture(t *testing.T) {
	for ends, bands := range map[[2]string]int{{"1.00", "9.99"}: 0, {"1.00", "10.00"}: 1, {"50.00", "60.00"}: 1, {"50.01", "60.00"}: 0, {"20.00", "30.00"}: 1, {"1.00", "60.00"}: 1} {
		a := decided(straight("web", 10, 41))
		a.Products[0].MayLie = []rule.AllowedRange{{First: eur(ends[0]), Last: eur(ends[1])}}
		p, _ := picture.Keeps(a, "heron")
		if got := strings.Count(p.SVG(), `<rect class="may"`) - 1; got != bands {
			t.Errorf("%v: %d bands, want %d", ends, got, bands)
		}
	}
}

// Six lines can be told apart. What more there is, is said.
func TestChannelsThatAreNotDrawn(t *testing.T) {
	for n, want := range map[int]string{5: "", 6: "", 8: "2 channels more stand in the table."} {
		var all []pricelist.ChannelResult
		for i := range n {
			all = append(all, straight(fmt.Sprintf("c%d", i), 10, 5))
		}
		p, _ := picture.Keeps(decided(all...), "heron")
		if said := strings.Contains(p.Text, "more stand"); said != (want != "") || !strings.Contains(p.Text, want) {
			t.Errorf("%d channels: %s", n, p.Text)
		}
		if got := strings.Count(p.SVG(), `<path class="line l`); got != 2*min(n, 6) { // one each, and in the key
			t.Errorf("%d channels: %d lines", n, got)
		}
	}
}

// Without a channel, or in a brief answer that does not say what buyers pay, there is no picture; what is free has one. What
// is left is kept, if it is nothing, too, and what costs more is a loss.
func TestWhatABreakdownNeeds(t *testing.T) {
	paid := func(item, revenue, goods, net string) pricelist.ChannelResult {
		return pricelist.ChannelResult{ID: "fair", Buyer: channel.BuyerPays{Item: eur(item)}, Statement: margin.Statement{
			Revenue: eur(revenue), Goods: eur(goods), Gross: eur(net), Contribution: eur(net), Operating: eur(net), Net: eur(net),
		}}
	}
	for name, c := range map[string]struct {
		a    pricelist.Answer
		want string
	}{
		"no channel": {decided(), ""}, "brief": {decided(paid("0", "5.00", "2.00", "3.00")), ""}, "free": {decided(paid("0", "0", "0", "0")), "the buyer pays 0.00, you keep 0.00"},
		"a gain": {decided(paid("5.00", "5.00", "2.00", "3.00")), "the buyer pays 5.00, you keep 3.00"}, "nothing": {decided(paid("5.00", "5.00", "5.00", "0")), "the buyer pays 5.00, you keep 0.00"},
		"a loss": {decided(paid("5.00", "5.00", "6.50", "-1.50")), "the buyer pays 5.00, you lose 1.50"},
	} {
		p, ok := picture.Breakdown(c.a, "heron")
		if ok != (c.want != "") || ok && !strings.Contains(p.SVG(), ">"+c.want+"<") {
			t.Errorf("%s: drawn %t: %s", name, ok, p.SVG())
		}
		if warned := ok && strings.Contains(p.SVG(), `class="e warn"`); warned != (name == "a loss") {
			t.Errorf("%s: warned %t", name, warned)
		}
	}
	if _, ok := picture.Breakdown(decided(paid("5.00", "5.00", "2.00", "3.00")), "wren"); ok {
		t.Error("a wren is drawn")
	}
}

// Which prices are allowed is said: one, several, and without an end.
func TestAllowedPricesAreSaid(t *testing.T) {
	a := decided(straight("web", 10, 41))
	a.Products[0].MayLie = []rule.AllowedRange{{First: eur("12.00"), Last: eur("12.00")}, {First: eur("15.00"), Last: eur("20.00")}, {First: eur("30.00"), Last: eur("90.00"), NoneHigher: true}}
	if p, _ := picture.Keeps(a, "heron"); !strings.Contains(p.Text, " It may be 12.00, or 15.00 to 20.00, or 30.00 and up.") {
		t.Error(p.Text)
	}
}

// Twelve channels have a bar each; a table holds the rest.
func TestTwelveBars(t *testing.T) {
	for n, want := range map[int]string{12: "", 14: "The table holds 2 channels more."} {
		var all []pricelist.ChannelResult
		for i := range n {
			all = append(all, pricelist.ChannelResult{ID: fmt.Sprintf("c%d", i), Buyer: channel.BuyerPays{Item: eur("5.00")}, Statement: margin.Statement{
				Revenue: eur("5.00"), Gross: eur("5.00"), Contribution: eur("5.00"), Operating: eur("5.00"), Net: eur("5.00"),
			}})
		}
		p, _ := picture.Breakdown(decided(all...), "heron")
		if strings.Contains(p.Text, "table") != (want != "") || !strings.HasSuffix(p.Text, want) || strings.Count(p.SVG(), "the buyer pays 5.00, you keep 5.00<") != 12 || len(p.Head) != n+1 {
			t.Errorf("%d channels: %s", n, p.Text)
		}
		if p.String() != p.Title {
			t.Errorf("a picture is called %q", p.String())
		}
	}
}
