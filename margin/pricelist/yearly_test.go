package pricelist_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

const byYear = `{
  "version": 1, "currency": "EUR",
  "supplies": [{"id": "ink", "yearly": {"spent": "380.00", "spent_range": {"low": "350.00", "high": "400.00"}, "printed": "900 prints", "printed_range": {"low": "700 prints", "high": "1000 prints"}}}],
  "products": [{"id": "heron", "price": "20.00", "image": "200 x 300 mm", "bill": [{"supply": "ink", "quantity": "1 print"}]}],
  "channels": [{"id": "web"}]
}`

// 380.00 over 900 prints is 0.42 a print; at best 350.00 over 1,000, 0.35; at worst 400.00 over
// 700, 0.571428….
func TestInkByTheYear(t *testing.T) {
	a, err := pricelist.Price([]byte(byYear))
	if err != nil {
		t.Fatal(err)
	}
	c := a.Products[0].Channels[0]
	if got := c.Statement.Goods.Round(4, quoin.HalfUp).String(); got != "0.4222" {
		t.Errorf("goods are %s, want 0.4222", got)
	}
	low, high := c.Range.Goods.Low.String(), c.Range.Goods.High.Round(4, quoin.HalfUp).String()
	if low != "0.35" || high != "0.5714" {
		t.Errorf("goods lie between %s and %s, want 0.35 and 0.5714", low, high)
	}
	var said []string
	for _, s := range c.Steps.Steps() {
		for _, o := range s.Operands {
			said = append(said, o.Path.String())
		}
	}
	text := strings.Join(said, "\n")
	for _, want := range []string{"supplies[0].yearly.spent", "supplies[0].yearly.printed"} {
		if !strings.Contains(text, want) {
			t.Errorf("no step takes a figure from %s:\n%s", want, text)
		}
	}
	if err := quoin.Replay(c.Steps.Steps()); err != nil {
		t.Error(err)
	}
}

// By area: 380.00 over 66 m2, and an image of 0.06 m2, are 0.345454….
func TestInkByTheArea(t *testing.T) {
	text := strings.NewReplacer(`"900 prints", "printed_range": {"low": "700 prints", "high": "1000 prints"}`, `"66 m2"`, `"quantity": "1 print"`, `"area": "image"`).Replace(byYear)
	a, err := pricelist.Price([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	c := a.Products[0].Channels[0]
	if got := c.Statement.Goods.Round(6, quoin.HalfUp).String(); got != "0.345455" {
		t.Errorf("goods are %s, want 0.345455", got)
	}
	if err := quoin.Replay(c.Steps.Steps()); err != nil {
		t.Error(err)
	}
}

func TestYearsThatAreNone(t *testing.T) {
	for _, c := range []struct {
		old, new string
		code     quoin.Code
		path     string
	}{
		{`"spent": "380.00", `, ``, quoin.MissingField, "supplies[0].yearly.spent"},
		{`"900 prints"`, `"0 prints"`, quoin.OutOfRange, "supplies[0].yearly.printed"},
		{`"yearly": {`, `"price": "3.00", "yearly": {`, quoin.RivalFields, "supplies[0].yearly"},
		{`"quantity": "1 print"`, `"quantity": "1 print", "area": "image"`, quoin.RivalFields, "products[0].bill[0].area"},
		{`"quantity": "1 print"`, `"area": "sheet"`, "unknown_size", "products[0].bill[0].area"},
		{`"quantity": "1 print"`, `"area": "image"`, quoin.UnitMismatch, "products[0].bill[0].area"},
		{`"quantity": "1 print"`, `"ink": {"per_m2": "9 ml"}`, "year_holds_upkeep", "products[0].bill[0].ink"},
		{`"high": "1000 prints"`, `"high": "800 prints"`, quoin.RangeOrder, "supplies[0].yearly.printed_range"},
	} {
		_, err := pricelist.Price([]byte(strings.Replace(byYear, c.old, c.new, 1)))
		problems, _ := err.(quoin.Problems)
		if len(problems) != 1 || problems[0].Code != c.code || problems[0].Path != c.path {
			t.Errorf("%s: %v, want %s at %s", c.new, err, c.code, c.path)
		}
	}
}
