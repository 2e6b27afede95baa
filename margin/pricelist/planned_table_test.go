package pricelist_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// What is priced by a plan: products of the bench's shop, with one thing changed.
func TestWhatIsPricedByAPlan(t *testing.T) {
	const (
		text = "read at sight and priced by the plan"
		made = "read the general way and priced by the plan"
		none = "left to the general way"
	)
	for _, c := range []struct {
		name                   string
		inShop, with           string
		inProduct, withInstead string
		want                   string
	}{
		{name: "two channels, four rules", want: text},
		{name: "a name with an escape", inProduct: `"Heron`, withInstead: `"\u0048eron`, want: made},
		{name: "a name in other letters", inProduct: `"Heron`, withInstead: `"Héron`, want: made},
		{name: "a size", inProduct: `"bill"`, withInstead: `"sheet": "A4", "bill"`, want: made},
		{name: "some channels", inProduct: `"bill"`, withInstead: `"channels": ["own-shop"], "bill"`, want: text},
		{name: "a design", inProduct: `"bill"`, withInstead: `"design": "heron", "bill"`, want: text},
		{name: "a quantity in another unit", inProduct: `0.3 ml`, withInstead: `0.0003 l`, want: text},
		{name: "a quantity as a fraction", inProduct: `0.5 sheet`, withInstead: `1/2 sheet`, want: text},
		{name: "ink by area", inShop: `"quantity": "80 ml"`, with: `"quantity": "80 m2"`, inProduct: `"quantity": "0.3 ml"`, withInstead: `"area": "sheet"`, want: none},
		{name: "a line per run", inProduct: `"stage": "print"}
	]`, withInstead: `"per": "run"}
	]`, want: made},
		{name: "own time", inShop: `{"id": "ink", "quantity": "80 ml", "price": "46.00"}`, with: `{"id": "ink", "quantity": "80 ml", "price": "46.00", "labour": "own"}`, want: text},
		{name: "a fault", inProduct: `"supply": "ink"`, withInstead: `"supply": "inks"`, want: none},
		{name: "a field twice", inProduct: `"bill"`, withInstead: `"price": "1.00", "bill"`, want: none},
		{name: "price points", inShop: `"uplift": "10%"`, with: `"uplift": "10%", "price_points": {"step": "0.50"}`, want: text},
		{name: "a discount to shops", inShop: `"uplift": "10%"`, with: `"trade_discount": ["40%"]`, want: text},
		{name: "a code for some products", inShop: `"uplift": "10%"`, with: `"promotions": [{"id": "reed", "rate": "10%", "products": ["heron-0"]}]`, want: none},
		{name: "a fee in tiers", inShop: `{"name": "commission", "rate": "9%"`, with: `{"name": "commission", "tiers": [{"from": "0.00", "rate": "9%"}, {"from": "50.00", "rate": "5%"}]`, want: text},
		{name: "others in an order", inShop: `"items": 2`, with: `"items": 2, "others": {"items": "1", "worth": "9.00"}`, want: none},
		{name: "a rule for some products", inShop: `"at_least": "3"`, with: `"at_least": "3", "products": ["heron-0"]`, want: text},
		{name: "a market rule without comparables", inShop: `"rules": [`, with: `"rules": [{"id": "market", "rule": "market", "from_quantile": "10%", "to_quantile": "90%"},`, want: text},
		{name: "a market rule with comparables", inShop: `"rules": [`, with: `"comparables": [{"product": "heron-0", "price": "19.00", "sold": 1, "venue": "x"}], "rules": [{"id": "market", "rule": "market", "from_quantile": "10%", "to_quantile": "90%"},`, want: text},
		{name: "a ladder within designs", inShop: `"rules": [`, with: `"rules": [{"id": "sizes", "rule": "size_ratio", "at_least": "1.2"},`, want: text},
		{name: "a preference that goes", inShop: `"rules": [`, with: `"rules": [{"id": "cheap", "rule": "price", "at_most": "1.00", "strength": "prefer"},`, want: text},
		{name: "a conflict", inShop: `"rules": [`, with: `"rules": [{"id": "cheap", "rule": "price", "at_most": "1.00"},`, want: none},
		{name: "the greatest price", inShop: `"price_limit"`, with: `"choose": "greatest", "price_limit"`, want: text},
	} {
		shop, err := pricelist.DecodeShop([]byte(replaced(t, head, c.inShop, c.with) + "]}"))
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		one := replaced(t, product(0), c.inProduct, c.withInstead)
		got := none
		if lot, err := pricelist.DecodeLot([]byte(`{"products": [` + one + `]}`)); err == nil {
			if _, ok := pricelist.DecidePlanned(shop, lot); ok {
				got = made
			}
		}
		if _, ok := pricelist.ReadPlanned(shop, []byte(one)); ok {
			got = text
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func replaced(t *testing.T, text, old, by string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("no %q in %s", old, text)
	}
	return strings.Replace(text, old, by, 1)
}

// Text that is no JSON, or no product, is never read at sight.
func TestTornTextsAreNotReadAtSight(t *testing.T) {
	shop, err := pricelist.DecodeShop([]byte(head + "]}"))
	if err != nil {
		t.Fatal(err)
	}
	whole := product(7)
	if _, ok := pricelist.ReadPlanned(shop, []byte(whole)); !ok {
		t.Fatal("the whole is not read")
	}
	for i := range whole {
		if _, ok := pricelist.ReadPlanned(shop, []byte(whole[:i])); ok {
			t.Errorf("read up to byte %d", i)
		}
		for _, c := range []byte(`"{}[],:0-+. ex\`) {
			torn := whole[:i] + string(c) + whole[i+1:]
			if _, ok := pricelist.ReadPlanned(shop, []byte(torn)); ok && !json.Valid([]byte(torn)) {
				t.Errorf("read, though it is no JSON: %s", torn)
			}
		}
	}
}

// Who changes an answer changes no other.
func TestPlannedAnswersShareNothing(t *testing.T) {
	shop, err := pricelist.DecodeShop([]byte(head + "]}"))
	if err != nil {
		t.Fatal(err)
	}
	first, ok := pricelist.ReadPlanned(shop, []byte(product(1)))
	if !ok {
		t.Fatal("not read")
	}
	want := first.Cautions[0]
	first.Cautions[0] = "none"
	if again, _ := pricelist.ReadPlanned(shop, []byte(product(1))); again.Cautions[0] != want {
		t.Errorf("the next answer says %q", again.Cautions[0])
	}
}
