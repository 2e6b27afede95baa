package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// decidedShop decides a document that is written in a test.
func decidedShop(t testing.TB, document string) pricelist.Answer {
	t.Helper()
	a, err := pricelist.Price([]byte(document))
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Conflict) > 0 {
		t.Fatalf("conflict: %q", a.Conflict)
	}
	return a
}

// places writes an amount, a factor or a rate that may not be there, to so many
// digits.
func places[T interface{ Figure() quoin.Figure }](v quoin.Optional[T], digits int) string {
	x, given := v.Get()
	if !given {
		return "none"
	}
	return x.Figure().Rat().FloatString(digits)
}

func movedTo(m *pricelist.PriceChange) string {
	if m == nil {
		return "none"
	}
	return fmt.Sprintf("%s keeps %.2f, volume %s", m.By, m.Contribution, places(m.Volume, 6))
}

// A print of goods of 4.00 and six minutes of own time at 20.00 an hour, so 6.00,
// through an own shop that takes 10% and costs 30.00 a month over 60 prints, and a
// marketplace that takes 20% and 12.00 a month over 24 orders. All invented.
const onePublicPrice = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "supplies": [
    {"id": "kit", "quantity": "10 kit", "price": "40.00"},
    {"id": "time", "quantity": "1 h", "price": "20.00", "labour": "own"}
  ],
  "products": [{"id": "bittern", "bill": [{"supply": "kit", "quantity": "1 kit"}, {"supply": "time", "quantity": "6 min"}]}],
  "channels": [
    {"id": "shop", "fees": [{"name": "payment", "rate": "10%"}], "fixed_cost": {"cost": "30.00", "items": 60}},
    {"id": "market", "fees": [{"name": "commission", "rate": "20%"}, {"name": "subscription", "fixed": "12.00", "orders_together": 24}]}
  ],
  "overhead": {"cost": "100.00", "items": 100},
  "rules": [{"id": "five are left", "rule": "contribution", "at_least": "5.00"}]
}`

// Every figure is worked out by hand, beside it.
func TestOnePublicPrice(t *testing.T) {
	a := decidedShop(t, onePublicPrice)
	p := a.Products[0]
	channels := p.ByChannel.Channels()
	if p.Price.String() != "14.37" || len(channels) != 2 {
		t.Fatalf("%s in %d channels", p.Price, len(channels))
	}
	shop, market := channels[0], channels[1]
	for _, c := range []struct{ what, got, want string }{
		// 12.78 − 1.28 − 6.00 − 0.50 = 5.00, and 12.77 takes 1.28 too.
		{"floor of the shop", places(shop.Floor, 2), "12.78"},
		// 14.37 − 2.87 − 6.00 − 0.50 = 5.00, and 14.36 takes 2.87 too.
		{"floor of the marketplace", places(market.Floor, 2), "14.37"},
		{"which sets the price", fmt.Sprint(shop.SetsPrice, market.SetsPrice), "false true"},
		{"the shop keeps", fmt.Sprintf("%.2f", shop.Contribution), "6.43"}, // 14.37 − 1.44 − 6.50
		{"the marketplace keeps", fmt.Sprintf("%.2f", market.Contribution), "5.00"},
		{"an hour in the shop", places(shop.PerHour, 2), "84.30"}, // (6.43 + 2.00) ÷ 0.1
		{"an hour in the marketplace", places(market.PerHour, 2), "70.00"},
		// 10% off: 12.93 − 1.29 − 6.50; without the period's 0.50 it is 6.93 ÷ 5.64.
		{"a tenth off in the shop", movedTo(shop.TenthOff), "10% keeps 5.14, volume 1.228723"},
		// 12.93 − 2.59 − 6.50, and 5.00 ÷ 3.84.
		{"a tenth off in the marketplace", movedTo(market.TenthOff), "10% keeps 3.84, volume 1.302083"},
		// 15.807 is 15.81: 15.81 − 1.58 − 6.50, and 6.93 ÷ 8.23.
		{"a rise in the shop", movedTo(shop.Rise), "10% keeps 7.73, volume 0.842041"},
		// 15.81 − 3.16 − 6.50, and 5.00 ÷ 6.15.
		{"a rise in the marketplace", movedTo(market.Rise), "10% keeps 6.15, volume 0.813008"},
		// 11% off is 12.79, which leaves 12.79 − 1.28 − 6.50; 12% off, 12.65 − 1.27
		// − 6.50 = 4.88, is too much; 6.93 ÷ 5.51.
		{"the deepest discount in the shop", offBy(shop.Discount), "11% keeps 5.01, volume 1.257713, then five are left"},
		// 14.23 − 2.85 − 6.50 = 4.88 already at 1%.
		{"the deepest discount in the marketplace", offBy(market.Discount), "none"},
		// 30.00 ÷ (6.43 + 0.50), 100.00 ÷ 6.43.
		{"break-even of the shop", covers(shop), "fixed_cost channels[0].fixed_cost 30.00 4.329004; overhead overhead 100.00 15.552100"},
		// 12.00 ÷ (5.00 + 0.50), 100.00 ÷ 5.00.
		{"break-even of the marketplace", covers(market), "subscription channels[1].fees[1] 12.00 2.181818; overhead overhead 100.00 20.000000"},
		{"dead zones", fmt.Sprint(shop.Below, shop.Inside, shop.Above, market.Below, market.Inside, market.Above), "<nil> <nil> <nil> <nil> <nil> <nil>"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
}

func covers(c pricelist.InChannel) string {
	var out []string
	for _, b := range c.BreakEven {
		out = append(out, fmt.Sprintf("%s %s %.2f %s", b.What, b.Path, b.Cost, places(b.Items, 6)))
	}
	return strings.Join(out, "; ")
}

// The answer holds the same as JSON.
func TestPublicAsJSON(t *testing.T) {
	out, err := json.Marshal(decidedShop(t, onePublicPrice))
	if err != nil {
		t.Fatal(err)
	}
	var a struct {
		Products []struct {
			Public []struct {
				Channel, Floor string
				Sets           bool `json:"sets_price"`
				Discount       *struct{ By string }
				BreakEven      []struct{ What, Items string } `json:"break_even"`
			} `json:"by_channel"`
		}
	}
	if err := json.Unmarshal(out, &a); err != nil {
		t.Fatal(err)
	}
	p := a.Products[0].Public
	if len(p) != 2 || p[0].Channel != "shop" || p[0].Floor != "12.78" || p[1].Floor != "14.37" || !p[1].Sets || p[1].Discount != nil || p[0].Discount == nil || len(p[0].BreakEven) != 2 {
		t.Errorf("public: %+v", p)
	}
}

// What a rule between sizes asks is no channel's: the large print costs twice the
// small one, and its floors are those of the channels, 12.78 and 14.37.
func TestFloorsLeaveLaddersOut(t *testing.T) {
	document := strings.Replace(onePublicPrice, `"products": [`, `"products": [{"id": "small", "bill": [{"supply": "kit", "quantity": "1 kit"}, {"supply": "time", "quantity": "6 min"}]}, `, 1)
	document = strings.Replace(document, `"rules": [`, `"rules": [{"id": "twice", "rule": "size_ratio", "products": ["small", "bittern"], "at_least": "2"}, `, 1)
	p := decidedShop(t, document).Products[1]
	c := p.ByChannel.Channels()
	if p.Price.String() != "28.74" || places(c[0].Floor, 2) != "12.78" || places(c[1].Floor, 2) != "14.37" {
		t.Errorf("%s with floors of %s and %s", p.Price, places(c[0].Floor, 2), places(c[1].Floor, 2))
	}
}

// A subscription with tax that is not reclaimed costs 24.00, not 20.00: each order
// bears 1.00 of it. A payout of 1% and 2.00 over 10 orders bears 0.20 of the 2.00
// in each, which is all that has to be covered. Goods are nothing and the price is
// 20.00: the first keeps 19.00, so 24.00 ÷ 20.00; the second 20.00 − 0.20 − 0.20 =
// 19.60, so 2.00 ÷ 19.80.
func TestBreakEvenOfFees(t *testing.T) {
	for _, c := range []struct{ fee, want string }{
		{`{"name": "subscription", "fixed": "20.00", "orders_together": 20}`, "subscription channels[0].fees[0] 20.00 1.000000"},
		{`{"name": "subscription", "fixed": "20.00", "tax": "20%", "orders_together": 24}`, "subscription channels[0].fees[0] 24.00 1.200000"},
		// The tax of 0.054 is 0.05: a listing of 0.32 for 32 sales, of which each bears 0.01 and keeps 19.99.
		{`{"name": "listing", "fixed": "0.27", "tax": "20%", "orders_together": 32}`, "listing channels[0].fees[0] 0.32 0.016000"},
		{`{"name": "payout", "rate": "1%", "fixed": "2.00", "orders_together": 10}`, "payout channels[0].fees[0] 2.00 0.101010"},
		// Tiers: 20 orders come to 400.00. Of 40.00 from 300.00 on each bears 2.00 and keeps 18.00; of 10.00, and 10.00
		// and 1% of the rest from 300.00 on, each bears 1.00 + 0.05 and keeps 18.95: 20.00 ÷ (18.95 + 1.00).
		{`{"name": "subscription", "orders_together": 20, "tiers": [{"from": 0, "fixed": "20.00"}]}`, "subscription channels[0].fees[0] 20.00 1.000000"},
		{`{"name": "subscription", "orders_together": 20, "tier_mode": "whole", "tiers": [{"from": 0, "fixed": "20.00"}, {"from": "300.00", "fixed": "40.00"}]}`, "subscription channels[0].fees[0] 40.00 2.000000"},
		{`{"name": "subscription", "orders_together": 20, "tiers": [{"from": 0, "fixed": "10.00"}, {"from": "300.00", "fixed": "10.00", "rate": "1%"}]}`, "subscription channels[0].fees[0] 20.00 1.002506"},
		{`{"name": "subscription", "orders_together": 20, "tiers": [{"from": "400.01", "fixed": "10.00"}]}`, ""},
		{`{"name": "each item", "fixed": "2.00", "per": "item", "orders_together": 10}`, ""},
		{`{"name": "each order", "fixed": "2.00"}`, ""},
		{`{"name": "a click", "fixed": "0.05", "orders_together": "0.02"}`, ""}, // which brings less than an order
	} {
		a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shop", "fees": [`+c.fee+`]}], "rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`)
		if got := covers(a.Products[0].ByChannel.Channels()[0]); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.fee, got, c.want)
		}
	}
}

// A print that contributes nothing covers nothing, and no volume makes up for it.
func TestNothingKept(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "10.00",
		"supplies": [{"id": "kit", "quantity": "1 kit", "price": "10.00"}],
		"products": [{"id": "card", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
		"channels": [{"id": "shop", "fixed_cost": {"cost": "5.00", "items": 10}}],
		"rules": [{"id": "from", "rule": "price", "at_least": "10.00"}]}`)
	s := a.Products[0].ByChannel.Channels()[0]
	// 10.00 − 10.00 − 0.50; 9.00 − 10.50; 11.00 − 10.50.
	for what, c := range map[string][2]string{
		"break-even": {covers(s), "fixed_cost channels[0].fixed_cost 5.00 none"},
		"tenth off":  {movedTo(s.TenthOff), "10% keeps -1.50, volume none"},
		"rise":       {movedTo(s.Rise), "10% keeps 0.50, volume none"},
		"discount":   {offBy(s.Discount), "none"}, // it loses money already
		"an hour":    {places(s.PerHour, 2), "none"},
		"floor":      {fmt.Sprint(places(s.Floor, 2), " ", s.NoRule), "none true"},
	} {
		if c[0] != c[1] {
			t.Errorf("%s: %s, want %s", what, c[0], c[1])
		}
	}
}

// The marketplace asks for 14.37 and so sets the price; the shop alone would ask
// less, and bears a discount.
func ExampleByChannel() {
	answer, err := pricelist.Price([]byte(onePublicPrice))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range answer.Products[0].ByChannel.Channels() {
		fmt.Printf("%s: floor %.2f, sets the price: %t, keeps %.2f\n", c.Channel, c.Floor.Or(quoin.Amount{}), c.SetsPrice, c.Contribution)
		if d := c.Discount; d != nil {
			fmt.Printf("  %s off keeps %.2f, and takes %.2f sales for each one now\n", d.By, d.Contribution, d.Volume.Or(quoin.Factor{}))
		}
		for _, b := range c.BreakEven {
			fmt.Printf("  %s of %.2f is covered by %.1f sales\n", b.What, b.Cost, b.Items.Or(quoin.Factor{}))
		}
	}
	// Output:
	// shop: floor 12.78, sets the price: false, keeps 6.43
	//   11% off keeps 5.01, and takes 1.26 sales for each one now
	//   fixed_cost of 30.00 is covered by 4.3 sales
	//   overhead of 100.00 is covered by 15.6 sales
	// market: floor 14.37, sets the price: true, keeps 5.00
	//   subscription of 12.00 is covered by 2.2 sales
	//   overhead of 100.00 is covered by 20.0 sales
}
