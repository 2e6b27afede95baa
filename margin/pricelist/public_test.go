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

func movedTo(m *pricelist.Moved) string {
	if m == nil {
		return "none"
	}
	return fmt.Sprintf("%s keeps %.2f, volume %s", m.By, m.Keeps, places(m.Volume, 6))
}

func offBy(d *pricelist.Deepest) string {
	if d == nil {
		return "none"
	}
	text := movedTo(&d.Moved)
	for _, id := range d.Rules {
		text += ", then " + id
	}
	if d.Loss {
		text += ", then a loss"
	}
	return text
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
    {"id": "shop", "fees": [{"name": "payment", "rate": "10%"}], "period": {"cost": "30.00", "items": 60}},
    {"id": "market", "fees": [{"name": "commission", "rate": "20%"}, {"name": "subscription", "fixed": "12.00", "over": 24}]}
  ],
  "overhead": {"cost": "100.00", "items": 100},
  "rules": [{"id": "five are left", "rule": "contribution", "at_least": "5.00"}]
}`

// Every figure is worked out by hand, beside it.
func TestOnePublicPrice(t *testing.T) {
	a := decidedShop(t, onePublicPrice)
	p := a.Products[0]
	channels := p.Public.Channels()
	if p.Price.String() != "14.37" || len(channels) != 2 {
		t.Fatalf("%s in %d channels", p.Price, len(channels))
	}
	shop, market := channels[0], channels[1]
	for _, c := range []struct{ what, got, want string }{
		// 12.78 − 1.28 − 6.00 − 0.50 = 5.00, and 12.77 takes 1.28 too.
		{"floor of the shop", places(shop.Floor, 2), "12.78"},
		// 14.37 − 2.87 − 6.00 − 0.50 = 5.00, and 14.36 takes 2.87 too.
		{"floor of the marketplace", places(market.Floor, 2), "14.37"},
		{"which sets the price", fmt.Sprint(shop.Sets, market.Sets), "false true"},
		{"the shop keeps", fmt.Sprintf("%.2f", shop.Keeps), "6.43"}, // 14.37 − 1.44 − 6.50
		{"the marketplace keeps", fmt.Sprintf("%.2f", market.Keeps), "5.00"},
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
		{"break-even of the shop", covers(shop), "period channels[0].period 30.00 4.329004; overhead overhead 100.00 15.552100"},
		// 12.00 ÷ (5.00 + 0.50), 100.00 ÷ 5.00.
		{"break-even of the marketplace", covers(market), "subscription channels[1].fees[1] 12.00 2.181818; overhead overhead 100.00 20.000000"},
		{"dead zones", fmt.Sprint(shop.Below, shop.In, shop.Above, market.Below, market.In, market.Above), "<nil> <nil> <nil> <nil> <nil> <nil>"},
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
				Sets           bool
				Discount       *struct{ By string }
				BreakEven      []struct{ What, Items string } `json:"break_even"`
			}
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
	document = strings.Replace(document, `"rules": [`, `"rules": [{"id": "twice", "rule": "step", "products": ["small", "bittern"], "at_least": "2"}, `, 1)
	p := decidedShop(t, document).Products[1]
	c := p.Public.Channels()
	if p.Price.String() != "28.74" || places(c[0].Floor, 2) != "12.78" || places(c[1].Floor, 2) != "14.37" {
		t.Errorf("%s with floors of %s and %s", p.Price, places(c[0].Floor, 2), places(c[1].Floor, 2))
	}
}

// 6% up to 12.00, 14% of the whole above: 12.01 to 13.11 keep less than the 11.28 of
// 12.00, as 13.12 − 1.84 = 11.28 does not (see TestCliffOfTheCommission).
func TestDeadZonesNextToThePrice(t *testing.T) {
	for _, c := range []struct{ price, want string }{
		{"9.00", "- - 12.01–13.11"},
		{"12.00", "- - 12.01–13.11"},
		{"12.01", "- 12.01–13.11 -"},
		{"13.11", "- 12.01–13.11 -"},
		{"13.12", "12.01–13.11 - -"},
		{"14.00", "12.01–13.11 - -"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shop", "fees": [{"name": "commission", "tier_mode": "whole", "tiers": [{"from": "0", "rate": "6%%"}, {"from": "12.01", "rate": "14%%"}]}]}],
			"rules": [{"id": "from", "rule": "price", "at_least": %q}]}`, c.price))
		if got := zonesBeside(a.Products[0].Public.Channels()[0]); got != c.want {
			t.Errorf("at %s: %s, want %s", c.price, got, c.want)
		}
	}
}

func zonesBeside(s pricelist.InChannel) string {
	out := []string{"-", "-", "-"}
	if s.Below != nil {
		out[0] = fmt.Sprintf("%.2f–%.2f", s.Below.First, s.Below.Last)
	}
	if s.In != nil {
		out[1] = fmt.Sprintf("%.2f–%.2f", s.In.First, s.In.Last)
	}
	if s.Above != nil {
		out[2] = fmt.Sprintf("%.2f–%.2f", s.Above.First, s.Above.Last)
	}
	return strings.Join(out, " ")
}

// Of several zones the nearest counts on either side: postage of 6.00 that is
// charged below 20.00 and below 30.00, by two kinds of order of half each. At
// 25.00 the one from 20.00 on has ended at 22.99, since 3.00 are missed on average.
func TestTheNearestDeadZones(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "orders": [
			{"share": "50%", "shipping": "6.00", "free_from": "20.00"}, {"share": "50%", "shipping": "6.00", "free_from": "30.00"}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "25.00"}]}`)
	// From 30.00 on another 3.00 are missed, until 32.99.
	if got, want := zonesBeside(a.Products[0].Public.Channels()[0]), "20.00–22.98 - 30.00–32.98"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// What a zone is depends on the prices that there are.
func TestDeadZonesOfCoarsePrices(t *testing.T) {
	for _, c := range []struct{ what, step, channel, want string }{
		// Postage of 0.50 is free from 20.00 on. At cents 19.99 keeps 20.49, and so does 20.49 again.
		{"cents", "0.01", `"orders": [{"shipping": "0.50", "free_from": "20.00"}]`, "- - 20.00–20.48"},
		// From 19.00 to 20.00 the price brings 1.00, and the postage takes 0.50: nothing is lost.
		{"a step that outweighs the drop", "1.00", `"orders": [{"shipping": "0.50", "free_from": "20.00"}]`, "- - -"},
		// 19.00 keeps 22.50, 20.00 20.00, 22.00 22.00, and 23.00 is more.
		{"a step that does not", "1.00", `"orders": [{"shipping": "3.50", "free_from": "20.00"}]`, "- - 20.00–22.00"},
		// The half of 0.50 from 20.00 on is nothing beside a step of 1.00, and hides no zone behind it:
		// 24.00 keeps 27.00, 25.00 keeps 25.00, up to 26.00.
		{"one behind another that is none", "1.00", `"orders": [{"share": "50%", "shipping": "0.50", "free_from": "20.00"}, {"share": "50%", "shipping": "6.00", "free_from": "25.00"}]`,
			"- - 25.00–26.00"},
		// Prices that can be asked every 5.00, and a code of 8.00 from 20.00 on: up to 17.49 is asked as
		// 15.00 and keeps that; 17.50 to 22.49 as 20.00, less 8.00; 22.50 as 25.00, less 8.00.
		{"price points", "0.01", `"tag": {"step": "5.00"}, "orders": [{"codes": ["eight"]}], "promotions": [{"id": "eight", "amount": "8.00", "from": "20.00"}]`,
			"- - 17.50–22.49"},
		{"price points and a step of 1.00", "1.00", `"tag": {"step": "5.00"}, "orders": [{"codes": ["eight"]}], "promotions": [{"id": "eight", "amount": "8.00", "from": "20.00"}]`,
			"- - 18.00–22.00"},
		// A code of 3.00 takes less than the 5.00 from point to point: 20.00 keeps 17.00.
		{"price points that outweigh the drop", "0.01", `"tag": {"step": "5.00"}, "orders": [{"codes": ["three"]}], "promotions": [{"id": "three", "amount": "3.00", "from": "20.00"}]`,
			"- - -"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_step": %q, "price_limit": "60.00", "products": [{"id": "card", "price": "10.00"}],
			"channels": [{"id": "shop", %s}]}`, c.step, c.channel))
		if got := zonesBeside(a.Products[0].Public.Channels()[0]); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// Two fees of 10% both round up at 10.05: 10.04 keeps 8.04, 10.05 keeps 8.03, and
// from 10.06 on each takes 20%. At 10.05 the zone still begins above.
func TestDeadZoneAboveACentOfRounding(t *testing.T) {
	fee := `{"name": "fee", "tier_mode": "whole", "tiers": [{"from": "0", "rate": "10%"}, {"from": "10.06", "rate": "20%"}]}`
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "fees": [`+fee+`, `+fee+`]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "10.05"}]}`)
	if got := zonesBeside(a.Products[0].Public.Channels()[0]); !strings.HasPrefix(got, "- - 10.06") {
		t.Errorf("at 10.05: %s", got)
	}
}

// A subscription with tax that is not reclaimed costs 24.00, not 20.00: each order
// bears 1.00 of it. A payout of 1% and 2.00 over 10 orders bears 0.20 of the 2.00
// in each, which is all that has to be covered. Goods are nothing and the price is
// 20.00: the first keeps 19.00, so 24.00 ÷ 20.00; the second 20.00 − 0.20 − 0.20 =
// 19.60, so 2.00 ÷ 19.80.
func TestBreakEvenOfFees(t *testing.T) {
	for _, c := range []struct{ fee, want string }{
		{`{"name": "subscription", "fixed": "20.00", "over": 20}`, "subscription channels[0].fees[0] 20.00 1.000000"},
		{`{"name": "subscription", "fixed": "20.00", "tax": "20%", "over": 24}`, "subscription channels[0].fees[0] 24.00 1.200000"},
		// The tax of 0.054 is 0.05: a listing of 0.32 for 32 sales, of which each bears 0.01 and keeps 19.99.
		{`{"name": "listing", "fixed": "0.27", "tax": "20%", "over": 32}`, "listing channels[0].fees[0] 0.32 0.016000"},
		{`{"name": "payout", "rate": "1%", "fixed": "2.00", "over": 10}`, "payout channels[0].fees[0] 2.00 0.101010"},
		{`{"name": "each item", "fixed": "2.00", "per": "item", "over": 10}`, ""},
		{`{"name": "each order", "fixed": "2.00"}`, ""},
		{`{"name": "a click", "fixed": "0.05", "over": "0.02"}`, ""}, // which brings less than an order
	} {
		a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shop", "fees": [`+c.fee+`]}], "rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`)
		if got := covers(a.Products[0].Public.Channels()[0]); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.fee, got, c.want)
		}
	}
}

// A print that contributes nothing covers nothing, and no volume makes up for it.
func TestNothingKept(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "10.00",
		"supplies": [{"id": "kit", "quantity": "1 kit", "price": "10.00"}],
		"products": [{"id": "card", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
		"channels": [{"id": "shop", "period": {"cost": "5.00", "items": 10}}],
		"rules": [{"id": "from", "rule": "price", "at_least": "10.00"}]}`)
	s := a.Products[0].Public.Channels()[0]
	// 10.00 − 10.00 − 0.50; 9.00 − 10.50; 11.00 − 10.50.
	for what, c := range map[string][2]string{
		"break-even": {covers(s), "period channels[0].period 5.00 none"},
		"tenth off":  {movedTo(s.TenthOff), "10% keeps -1.50, volume none"},
		"rise":       {movedTo(s.Rise), "10% keeps 0.50, volume none"},
		"discount":   {offBy(s.Discount), "none"}, // it loses money already
		"an hour":    {places(s.PerHour, 2), "none"},
		"floor":      {fmt.Sprint(places(s.Floor, 2), " ", s.Silent), "none true"},
	} {
		if c[0] != c[1] {
			t.Errorf("%s: %s, want %s", what, c[0], c[1])
		}
	}
}

// A deeper discount may hold where a shallower one does not: at 25.00, shipping of
// 5.00 is free from 20.00 on and costs 4.00. A rule that 17.00 are left holds up to
// 16% off, 21.00 − 4.00; not at 17% to 20%; and again from 21% on, 19.75 + 5.00 −
// 4.00, down to 36%, 16.00 + 1.00. Whichever end is found, it holds there and not
// one per cent further.
func TestDiscountPastFreeShipping(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "orders": [{"shipping": "5.00", "free_from": "20.00", "postage": "4.00"}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "25.00"}, {"id": "left", "rule": "contribution", "at_least": "17.00"}]}`)
	d := a.Products[0].Public.Channels()[0].Discount
	if d == nil || !d.By.Equal(quoin.MustRate("16%")) && !d.By.Equal(quoin.MustRate("36%")) || !d.Keeps.Equal(quoin.MustAmount("17.00")) {
		t.Errorf("discount: %s", offBy(d))
	}
}

// A promotion that the channel has already is taken off too: 10% of 20.00 leave
// 18.00; another 50% leave 9.00 of a rule that asks 9.00; 51% leave 8.82.
func TestDiscountBesideAPromotion(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "promotion": "10%"}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}, {"id": "left", "rule": "contribution", "at_least": "9.00"}]}`)
	s := a.Products[0].Public.Channels()[0]
	if got := offBy(s.Discount); got != "50% keeps 9.00, volume 2.000000, then left" {
		t.Errorf("discount: %s", got)
	}
	if got := movedTo(s.TenthOff); got != "10% keeps 16.20, volume 1.111111" {
		t.Errorf("a tenth off: %s", got)
	}
}

// A discount ends where a rule breaks, or where a sale would contribute less than
// nothing, whichever comes first, and says which.
func TestWhatStopsADiscount(t *testing.T) {
	for _, c := range []struct{ what, cost, channel, rules, want string }{
		// A print at 20.00 that costs 8.00. A multiple of the cost looks at the price alone: at 61%
		// off buyers pay 7.80, and each sale loses 0.20.
		{"a multiple of cost does not see it", "8.00", ``, `{"id": "twice", "rule": "cost_multiple", "at_least": "2"}`, "60% keeps 0.00, volume none, then a loss"},
		{"no rule asks anything", "8.00", ``, ``, "60% keeps 0.00, volume none, then a loss"},
		{"a rule comes first", "8.00", ``, `{"id": "two stay", "rule": "contribution", "at_least": "2.00"}`, "50% keeps 2.00, volume 6.000000, then two stay"},
		// 59% off leaves 8.20, and 0.20 of it is 2.4%; 8.00 at 60% leaves nothing, and no share of it.
		{"a margin of nothing is as deep as no loss", "8.00", ``, `{"id": "some", "rule": "gross_margin", "at_least": "1%"}`, "59% keeps 0.20, volume 60.000000, then some"},
		{"two rules at once", "8.00", ``, `{"id": "two stay", "rule": "contribution", "at_least": "2.00"}, {"id": "a fifth", "rule": "gross_margin", "at_least": "20%"}`,
			"50% keeps 2.00, volume 6.000000, then two stay, then a fifth"},
		// Postage of 4.00 counts: 12.00 − 8.00 − 4.00 at 40% off.
		{"postage is a loss too", "8.00", `"orders": [{"postage": "4.00"}]`, ``, "40% keeps 0.00, volume none, then a loss"},
		{"it loses money already", "21.00", ``, ``, "none"},
		// What costs nothing never loses: 0.20 is left of 99% off.
		{"nothing stops it", "0.00", ``, ``, "99% keeps 0.20, volume 100.000000"},
	} {
		channel := `{"id": "shop"}`
		if c.channel != "" {
			channel = `{"id": "shop", ` + c.channel + `}`
		}
		a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00",
			"supplies": [{"id": "kit", "quantity": "1 kit", "price": "`+c.cost+`"}],
			"products": [{"id": "card", "price": "20.00", "bill": [{"supply": "kit", "quantity": "1 kit"}]}],
			"channels": [`+channel+`], "rules": [`+c.rules+`]}`)
		if got := offBy(a.Products[0].Public.Channels()[0].Discount); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// The discount comes off before codes and what they are tested at. A code of 5.00 from
// 18.00 on: at 20.00 buyers pay 15.00. With 10% off 18.00 still get the code, 13.00; with 11% off
// 17.80 do not. A rule that 13.00 stay holds down to 35%, 13.00 without the code, and from 11% on.
func TestDiscountBeforeCodes(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card", "price": "20.00"}],
		"channels": [{"id": "shop", "orders": [{"codes": ["five"]}], "promotions": [{"id": "five", "amount": "5.00", "from": "18.00"}]}],
		"rules": [{"id": "left", "rule": "contribution", "at_least": "13.00"}]}`)
	s := a.Products[0].Public.Channels()[0]
	if got := movedTo(s.TenthOff); got != "10% keeps 13.00, volume 1.153846" {
		t.Errorf("a tenth off: %s", got)
	}
	if got := offBy(s.Discount); got != "35% keeps 13.00, volume 1.153846, then left" {
		t.Errorf("discount: %s", got)
	}
}

// The marketplace asks for 14.37 and so sets the price; the shop alone would ask
// less, and bears a discount.
func ExamplePublic() {
	answer, err := pricelist.Price([]byte(onePublicPrice))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range answer.Products[0].Public.Channels() {
		fmt.Printf("%s: floor %.2f, sets the price: %t, keeps %.2f\n", c.Channel, c.Floor.Or(quoin.Amount{}), c.Sets, c.Keeps)
		if d := c.Discount; d != nil {
			fmt.Printf("  %s off keeps %.2f, and takes %.2f sales for each one now\n", d.By, d.Keeps, d.Volume.Or(quoin.Factor{}))
		}
		for _, b := range c.BreakEven {
			fmt.Printf("  %s of %.2f is covered by %.1f sales\n", b.What, b.Cost, b.Items.Or(quoin.Factor{}))
		}
	}
	// Output:
	// shop: floor 12.78, sets the price: false, keeps 6.43
	//   11% off keeps 5.01, and takes 1.26 sales for each one now
	//   period of 30.00 is covered by 4.3 sales
	//   overhead of 100.00 is covered by 15.6 sales
	// market: floor 14.37, sets the price: true, keeps 5.00
	//   subscription of 12.00 is covered by 2.2 sales
	//   overhead of 100.00 is covered by 20.0 sales
}
