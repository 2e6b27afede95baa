package pricelist_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// The figures of the page about tax.
func TestPageFiguresOfTax(t *testing.T) {
	const classes = `"tax": {"rate": "20%", "in_price": true, "classes": [{"class": "prints", "rate": "5.5%"}]}`
	classed := func(class, order string) string {
		return overlaid(ofPrint(`"tax_class": "`+class+`"`), onWeb(classes), onWeb(`"orders": [{`+order+`}]`))
	}
	three := func(per string) string {
		return overlaid(ofPrint(`"price": "9.99"`), onWeb(`"orders": [{"items": 3}], "tax": {"rate": "19%", "in_price": true, "per": "`+per+`"}`))
	}
	spread := func(per string) string {
		return overlaid(ofPrint(`"price": "10.00"`), onWeb(`"promotions": [{"id": "c", "amount": "1.00"}], "orders": [{"items": 3, "codes": ["c"]}], "tax": {"rate": "19%", "in_price": true, "per": "`+per+`"}`))
	}
	rounded := func(figure string) string {
		return overlaid(ofPrint(`"price": "2.99"`), onWeb(`"tax": {"rate": "4%", "in_price": true, "rounded": "`+figure+`"}`))
	}
	off := func(of, more string) string {
		return onWeb(`"promotion": "10%", "tax": {"rate": "20%", "in_price": true, "of": "` + of + `"}` + more)
	}
	code := func(rounding string) string {
		return overlaid(ofPrint(`"price": "1725.05"`), onWeb(`"promotions": [{"id": "c", "rate": "10%", "rounding": "`+rounding+`"}], "orders": [{"codes": ["c"]}]`))
	}
	early := func(figure string) string {
		return overlaid(ofPrint(`"price": "1725.05"`), onWeb(`"trade": {"credit": {"days": 30, "early": "10%", "early_days": 10, "early_rounded": "`+figure+`"}}`))
	}
	const bill = `"price": "24.00", "bill": [{"supply": "time", "quantity": "15 min"}]`
	mixed := overlaid(ofPrint(bill+`, "tax_class": "prints"}, {"id": "egret", `+bill), onWeb(classes), onWeb(`"orders": [{"postage": "8.00"}]`),
		`{"sets": [{"id": "pair", "channel": "web", "products": ["heron", "egret"]}]}`)
	checkShown(t, []shown{
		{"a print at 20.00 holds 1.04, anything else 3.33.", classed("prints", ""), []string{"tax 1.04"}},
		{"a print at 20.00 holds 1.04, anything else 3.33.", onWeb(classes), []string{"tax 3.33"}},
		{"A print in an order with a `tax_rate` of 10% holds 1.82", classed("prints", `"tax_rate": "10%"`), []string{"tax 1.82"}},
		{"7% for prints in that order it holds 1.31.", classed("prints", `"tax_rate": "10%", "tax_classes": [{"class": "prints", "rate": "7%"}]`), []string{"tax 1.31"}},
		{"and 1.60 each, 4.80 together, per `unit`.", three("unit"), []string{"tax 1.60"}},
		{"2.99 with 4% in it is 2.87 and 0.12 of tax", rounded("tax"), []string{"revenue 2.87", "tax 0.12"}},
		{"with `rounded` `net`, 2.88 and 0.11.", rounded("net"), []string{"revenue 2.88", "tax 0.11"}},
		{"costs 18.00. It holds 3.00, and 15.00 is left.", off("paid", ""), []string{"tax 3.00", "revenue 15.00"}},
		{"With `full_price` it holds 3.33, and 14.67 is left.", off("full_price", ""), []string{"tax 3.33", "revenue 14.67"}},
		{"172.51 off and 1552.54 due, or, with `half_down`, 172.50 off", code("half_up"), []string{"revenue 1552.54", "products.0.channels.0.orders.0.discount 172.51"}},
		{"172.50 off and 1552.55 due", code("half_down"), []string{"revenue 1552.55", "products.0.channels.0.orders.0.discount 172.50"}},
		{"10% of 1725.05 is 172.50 off and 1552.55 due; with `discount`", early("due"), []string{"fees 172.50"}},
		{"with `discount` 172.51 off and 1552.54 due.", early("discount"), []string{"fees 172.51"}},
		{"`expected` is 16.75, and the lowest price of the set is 39.02.", mixed, []string{"sets.0.expected 16.75", "sets.0.least 39.02"}},
	})
	// Figures of one order, of which the statement shows the average of an item.
	checkWhole(t, map[string]string{three("order"): "4.79", three("unit"): "4.80", spread("order"): "4.63", spread("unit"): "4.62"})
}

// checkWhole holds three times the tax of an item against that of an order of three.
func checkWhole(t *testing.T, want map[string]string) {
	t.Helper()
	for doc, tax := range want {
		text, _ := standsAt(pagePriced(t, shown{says: tax, doc: doc}), "products.0.channels.0.statement.tax").(string)
		if got := quoin.MustAmount(pageFigure(text, "0.00000000")).Times(quoin.FactorOf(3)).Round(2, quoin.HalfUp); !got.Equal(quoin.MustAmount(tax)) {
			t.Errorf("three hold %s, and the page says %s", got, tax)
		}
	}
}

// A set in the reasons of a price stands on the parts of its products; a rate on its class.
func TestRateStandsAtItsClass(t *testing.T) {
	const doc = `{
  "version": 1, "currency": "EUR", "supplies": [{"id": "paper", "quantity": "50 sheet", "price": "62.00"}],
  "products": [
    {"id": "heron", "tax_class": "prints", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet"}]},
    {"id": "heron-framed", "extends": "heron", "price": "60.00"}
  ],
  "channels": [{
    "id": "web", "tax": {"rate": "20%", "in_price": true, "classes": [{"class": "frames", "rate": "21%"}, {"class": "prints", "rate": "5.5%"}]},
    "orders": [{"share": "50%"}, {"share": "50%", "tax_rate": "10%", "tax_classes": [{"class": "prints", "rate": "7%"}]}]
  }],
  "rules": [{"id": "floor", "rule": "price", "at_least": "1.00"}]
}`
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range [][2]string{{"channels[0].tax.classes[1].rate", "channels[0].orders[1].tax_classes[0].rate"}, {"channels[0].tax.rate", "channels[0].orders[1].tax_rate"}} {
		var at []string
		for _, s := range a.Products[i].Channels[0].Steps.Steps() {
			for _, o := range s.Operands {
				if o.Name == "tax rate" {
					at = append(at, o.Path.String())
				}
			}
		}
		if text := strings.Join(at, " "); !strings.Contains(text, want[0]) || !strings.Contains(text, want[1]) {
			t.Errorf("%s is taxed at %s, want %v", a.Products[i].ID, text, want)
		}
	}
	// The frame is not a print: 20% of it, not 5.5%.
	if tax := a.Products[1].Channels[0].Statement.Tax; !tax.Equal(quoin.MustAmount("7.725")) { // (10.00 + 5.45) ÷ 2
		t.Errorf("the framed print holds %s", tax)
	}
}

// A line sheet says the rate of each product.
func TestLineSheetSaysOwnTaxes(t *testing.T) {
	const doc = `{
  "version": 1, "currency": "EUR",
  "products": [{"id": "heron", "tax_class": "prints", "price": "20.00"}, {"id": "heron-framed", "price": "60.00"}],
  "channels": [{"id": "shops", "trade": {}, "trade_discount": ["50%"], "tax": {"rate": "20%", "classes": [{"class": "prints", "rate": "5.5%"}]}}],
  "rules": [{"id": "floor", "rule": "price", "at_least": "1.00"}]
}`
	a, err := pricelist.Price([]byte(doc))
	if err != nil {
		t.Fatal(err)
	}
	s := a.LineSheets[0]
	if own, ok := s.Lines[0].Tax.Get(); !ok || !own.Equal(quoin.MustRate("5.5%")) || !s.Lines[1].Tax.IsZero() || !s.Tax.Equal(quoin.MustRate("20%")) {
		t.Errorf("taxes of %v, %v and %v", s.Tax, s.Lines[0].Tax, s.Lines[1].Tax)
	}
}
