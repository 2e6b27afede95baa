package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Two prints with goods of 4.00 and 8.00, at 20.00 and 35.00, in a shop that takes
// 10% and 0.30, charges 3.00 for sending and pays 2.00. By themselves they keep
// 20.00 + 3.00 − 4.00 − 2.30 − 2.00 = 14.70 and 35.00 + 3.00 − 8.00 − 3.80 − 2.00 =
// 24.20. All invented.
func soldTogether(sets string) string {
	return `{
	  "version": 1, "currency": "EUR", "price_limit": "90.00",
	  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}],
	  "products": [
	    {"id": "warbler", "bill": [{"supply": "kit", "quantity": "1 kit"}]},
	    {"id": "bittern", "bill": [{"supply": "kit", "quantity": "2 kit"}]}
	  ],
	  "channels": [
	    {"id": "shelf"},
	    {"id": "shop", "orders": [{"shipping": "3.00", "postage": "2.00"}], "fees": [{"name": "payment", "rate": "10%", "fixed": "0.30"}],
	     "fixed_cost": {"cost": "60.00", "items": 20}}
	  ],
	  "sets": [` + sets + `],
	  "rules": [
	    {"id": "warbler from", "rule": "price", "products": ["warbler"], "at_least": "20.00"},
	    {"id": "bittern from", "rule": "price", "products": ["bittern"], "at_least": "35.00"}
	  ]
	}`
}

func setFigures(s pricelist.SetPrice) string {
	return fmt.Sprintf("apart %.2f, expected %.4f, least %s keeps %s, saves %s", s.SumOfPrices, s.Expected, places(s.Least, 2), places(s.Contribution, 4), places(s.Saves, 6))
}

// A set of both keeps p + 3.00 − 12.00 − fee − 2.00. What the channel's period adds
// is in none of the figures.
func TestLeastPriceOfASet(t *testing.T) {
	for _, c := range []struct{ what, set, want string }{
		// 55.78 − 5.88 − 11.00 = 38.90, and 55.77 takes 5.88 too; −0.78 ÷ 55.00.
		{
			"all would buy both", `{"id": "pair", "channel": "shop", "products": ["warbler", "bittern"]}`,
			"apart 55.00, expected 38.9000, least 55.78 keeps 38.9000, saves -0.014182",
		},
		// 0.50 × 38.90 + 0.30 × 24.20 = 26.71; 42.23 − 4.52 − 11.00 = 26.71, and 42.22 takes 4.52
		// too; 12.77 ÷ 55.00.
		{
			"half would buy both, three tenths the large one", `{"id": "pair", "channel": "shop", "products": ["warbler", "bittern"],
			"alternatives": [{"share": "50%", "products": ["warbler", "bittern"]}, {"share": "30%", "products": ["bittern"]}]}`,
			"apart 55.00, expected 26.7100, least 42.23 keeps 26.7100, saves 0.232182",
		},
		// On the shelf there is no order to save: 16.00 + 27.00, and 55.00 − 12.00 = 43.00.
		{
			"without orders", `{"id": "pair", "channel": "shelf", "products": ["warbler", "bittern"]}`,
			"apart 55.00, expected 43.0000, least 55.00 keeps 43.0000, saves 0.000000",
		},
		// Buyers would take a third print too, by themselves a set: 14.70 + 2 × 24.20
		// cannot be said, since a product is named once; an order of each is.
		{
			"a tenth would buy the small one", `{"id": "pair", "channel": "shop", "products": ["bittern", "warbler"], "alternatives": [{"share": "10%", "products": ["warbler"]}]}`,
			// 0.1 × 14.70 = 1.47; 13.86 − 1.69 − 11.00 = 1.17 … 14.19 − 1.72 − 11.00 = 1.47, and 14.18
			// takes 1.72 too; 40.81 ÷ 55.00.
			"apart 55.00, expected 1.4700, least 14.19 keeps 1.4700, saves 0.742000",
		},
	} {
		a := decidedShop(t, soldTogether(c.set))
		if got := setFigures(a.Sets[0]); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
		steps := a.Sets[0].Steps.Steps()
		if err := quoin.Replay(steps); err != nil || steps[len(steps)-1].Code != pricelist.StepExpected {
			t.Errorf("%s: %v", c.what, err)
		}
		if got, _ := steps[len(steps)-1].Value.Amount(); got.Rat().Cmp(a.Sets[0].Expected.Rat()) != 0 {
			t.Errorf("%s: expected %v, explained as %v", c.what, a.Sets[0].Expected, got)
		}
		// A set moves no price.
		if a.Products[0].Price.String() != "20.00" || a.Products[1].Price.String() != "35.00" {
			t.Errorf("%s: %s and %s", c.what, a.Products[0].Price, a.Products[1].Price)
		}
	}
}

// A set of two prints at 24.00 that cost 5.00 each, sent for 8.00. Bought apart they are two
// orders, and each keeps 24.00 − 5.00 − 8.00 = 11.00, however many items an order of
// the channel holds otherwise; so the set has to keep 22.00, and 40.00 − 10.00 − 8.00 does.
func TestASetIsComparedWithOrders(t *testing.T) {
	document := func(orders, apart string) string {
		return `{"version": 1, "currency": "EUR", "price_limit": "90.00",
		"supplies": [{"id": "print", "quantity": "1 piece", "price": "5.00"}],
		"products": [
			{"id": "heron", "price": "24.00", "bill": [{"supply": "print", "quantity": "1 piece"}]},
			{"id": "crane", "price": "24.00", "bill": [{"supply": "print", "quantity": "1 piece"}]},
			{"id": "framed", "price": "50.00", "bill": [{"supply": "print", "quantity": "1 piece"}]}],
		"channels": [{"id": "shop", "orders": ` + orders + `}],
		"sets": [{"id": "pair", "channel": "shop", "products": ["heron", "crane"]` + apart + `}]}`
	}
	for _, c := range []struct{ what, orders, apart, want string }{
		{"orders of one item", `[{"postage": "8.00"}]`, ``, "apart 48.00, expected 22.0000, least 40.00 keeps 22.0000, saves 0.166667"},
		{"orders of four", `[{"items": 4, "postage": "8.00"}]`, ``, "apart 48.00, expected 22.0000, least 40.00 keeps 22.0000, saves 0.166667"},
		// Half of the orders go for 8.00 and half for 4.00: 6.00 on average, 13.00 each apart, and
		// 42.00 − 10.00 − 6.00 = 26.00.
		{
			"two kinds of order", `[{"share": "50%", "items": 4, "postage": "8.00"}, {"share": "50%", "items": 1, "postage": "4.00"}]`, ``,
			"apart 48.00, expected 26.0000, least 42.00 keeps 26.0000, saves 0.125000",
		},
		// Half of the buyers would take the framed print, which keeps 50.00 − 5.00 − 8.00 = 37.00.
		{
			"buyers who would take what is not in the set", `[{"items": 4, "postage": "8.00"}]`, `, "alternatives": [{"share": "50%", "products": ["framed"]}]`,
			"apart 48.00, expected 18.5000, least 36.50 keeps 18.5000, saves 0.239583",
		},
	} {
		if got := setFigures(decidedShop(t, document(c.orders, c.apart)).Sets[0]); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
	}
}

// Up to twice the limit is considered for two prints: 70.00 here. Where the shop
// takes all that is above 30.00, no price keeps what they keep apart.
func TestASetWithoutAPrice(t *testing.T) {
	document := strings.Replace(soldTogether(`{"id": "pair", "channel": "shop", "products": ["warbler", "bittern"]}`), `"90.00"`, `"35.00"`, 1)
	if got, want := setFigures(decidedShop(t, document).Sets[0]), "apart 55.00, expected 38.9000, least 55.78 keeps 38.9000, saves -0.014182"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	// At most 27.00 are left of any set: 30.00 − 3.00 at 30.00, and so on from there; apart
	// 20.00 − 2.00 − 4.00 + 35.00 − 3.00 − 5.00 − 8.00 = 33.00 are kept, and 27.00 − 12.00 = 15.00.
	document = strings.Replace(document, `"rate": "10%", "fixed": "0.30"`, `"tiers": [{"from": "0", "rate": "10%"}, {"from": "30.00", "rate": "100%"}]`, 1)
	document = strings.Replace(document, `{"shipping": "3.00", "postage": "2.00"}`, `{}`, 1)
	s := decidedShop(t, document).Sets[0]
	if got, want := setFigures(s), "apart 55.00, expected 33.0000, least none keeps none, saves none"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	out, err := json.Marshal(s)
	if err != nil || strings.Contains(string(out), `"least"`) {
		t.Errorf("%s, %v", out, err)
	}
}

// The order of the products of a set changes nothing, where every order is sent at
// the same postage.
func TestProductsOfASetInAnyOrder(t *testing.T) {
	one := decidedShop(t, soldTogether(`{"id": "pair", "channel": "shop", "products": ["warbler", "bittern"]}`)).Sets[0]
	two := decidedShop(t, soldTogether(`{"id": "pair", "channel": "shop", "products": ["bittern", "warbler"]}`)).Sets[0]
	if setFigures(one) != setFigures(two) {
		t.Errorf("%s or %s", setFigures(one), setFigures(two))
	}
}

// Together the prints are sent once: a set may cost less than 55.00, where buyers
// would not all have bought both.
func ExampleSetPrice() {
	answer, err := pricelist.Price([]byte(soldTogether(`{"id": "pair", "channel": "shop", "products": ["warbler", "bittern"],
		"alternatives": [{"share": "50%", "products": ["warbler", "bittern"]}, {"share": "30%", "products": ["bittern"]}]}`)))
	if err != nil {
		fmt.Println(err)
		return
	}
	s := answer.Sets[0]
	fmt.Printf("%s: apart %.2f, which keeps %.2f; from %.2f on, %.0f%% less, it keeps no less\n", s.ID, s.SumOfPrices, s.Expected, s.Least.Or(quoin.Amount{}), s.Saves.Or(quoin.Rate{}))
	// Output: pair: apart 55.00, which keeps 26.71; from 42.23 on, 23% less, it keeps no less
}
