package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// list writes one text for each of n, with commas between.
func list(n int, one func(i int) string) string {
	out := make([]string, n)
	for i := range out {
		out[i] = one(i)
	}
	return strings.Join(out, ", ")
}

// pointed is a shop of prints that cost 6.00, in three channels that ask prices of a tag, take 10%, 20% and
// 30% of what is asked, and have to leave 10.00, 30% net and half gross. All invented.
func pointed(products int, tag, limit string) string {
	return `{"version": 1, "currency": "EUR"` + limit + `, "choose": "least",
		"supplies": [{"id": "print", "quantity": "1 piece", "price": "6.00"}],
		"products": [` + list(products, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "print", "quantity": "1 piece"}]}`, i)
	}) + `],
		"channels": [` + list(3, func(i int) string {
		return fmt.Sprintf(`{"id": "c%d", "price_points": %s, "fees": [{"name": "commission", "rate": "%d0%%"}]}`, i, tag, i+1)
	}) + `],
		"rules": [{"id": "ten stay", "rule": "contribution", "at_least": "10.00"}, {"id": "net", "rule": "net_margin", "at_least": "30%"},
			{"id": "half", "rule": "gross_margin", "at_least": "50%"}]}`
}

// Between two prices that can be asked nothing moves, so few of them are looked at, and no product
// takes anything from another's bound.
func TestPricesThatCanBeAskedHaveNoBoundInCommon(t *testing.T) {
	for _, c := range []struct {
		what, document, want string
		products             int
	}{
		// 25.00 less 30% and 6.00 leaves 11.50; 20.00 leaves 8.00. It is asked from 22.50 on.
		{"points every 5.00", pointed(30, `{"step": "5.00"}`, `, "price_limit": "500.00"`), "22.50", 30},
		{"with the usual limit", pointed(30, `{"step": "5.00"}`, ``), "22.50", 30},
		// 22.99 less 6.90 and 6.00 leaves 10.09; 21.99 less 6.60 and 6.00 leaves 9.39. It is asked from
		// half way, 22.49, on.
		{"endings of 0.99", pointed(100, `{"ends_in": ["0.99"]}`, ``), "22.49", 100},
		{"endings of 0.99, of one product", pointed(1, `{"ends_in": ["0.99"]}`, ``), "22.49", 1},
	} {
		a := decidedShop(t, c.document)
		if len(a.Products) != c.products {
			t.Fatalf("%s: %d products", c.what, len(a.Products))
		}
		for _, p := range a.Products {
			if p.Price.String() != c.want {
				t.Fatalf("%s: %s at %s, want %s", c.what, p.ID, p.Price, c.want)
			}
		}
	}
}

// A hundred prints with endings of 0.99 and no limit of their own may each have nearly 100,000 prices. The answer
// lists the first hundred and says the rest as a pattern.
func TestEndingsAreSaidShort(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "choose": "least", "supplies": [{"id": "print", "quantity": "1 piece", "price": "6.00"}],
		"products": [`+list(100, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "print", "quantity": "1 piece"}]}`, i)
	})+`],
		"channels": [{"id": "shop", "fees": [{"name": "commission", "rate": "10%"}]}],
		"rules": [{"id": "ten stay", "rule": "contribution", "at_least": "10.00"}, {"id": "ends", "rule": "ending", "ends_in": ["0.99"]}]}`)
	text, err := json.Marshal(a.WithoutSteps())
	if err != nil {
		t.Fatal(err)
	}
	var all struct{ Products []json.RawMessage }
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	out := all.Products[0]
	var p struct {
		Allowed [][2]string
		Pattern struct {
			Between [][2]string
			Modulus string   `json:"every"`
			Endings []string `json:"ends_in"`
		} `json:"allowed_pattern"`
	}
	if err := json.Unmarshal(out, &p); err != nil {
		t.Fatal(err)
	}
	// 17.99 less 1.80 and 6.00 leaves 10.19, and 16.99 leaves 9.29.
	if len(p.Allowed) != 100 || p.Allowed[0] != [2]string{"17.99", "17.99"} || p.Allowed[99] != [2]string{"116.99", "116.99"} {
		t.Errorf("%d runs, from %v to %v", len(p.Allowed), p.Allowed[0], p.Allowed[len(p.Allowed)-1])
	}
	if got := fmt.Sprintf("%v %s %v", p.Pattern.Between, p.Pattern.Modulus, p.Pattern.Endings); got != "[[17.99 99999.99]] 1.00 [0.99]" {
		t.Errorf("pattern %s", got)
	}
	if len(out) > 20_000 {
		t.Errorf("%d bytes for one print", len(out))
	}
}

// A house that pays 5.00 for each sale pays it at every price from there on, whatever prices can be asked; below
// 5.00 it pays what there is.
func TestAFlatFeeAtAnyPrice(t *testing.T) {
	for _, c := range []struct{ what, tag, tax, rule, least, greatest string }{
		{"every price that brings it", `{"ends_in": ["0.99"]}`, ``, `"contribution", "at_least": "5.00"`, "5.49", "100000.00"},
		{"no price brings a cent more", `{"ends_in": ["0.99"]}`, ``, `"contribution", "at_least": "5.01"`, "", ""},
		{"a cent less", `{"ends_in": ["0.99"]}`, ``, `"contribution", "at_least": "4.99"`, "4.49", "100000.00"},
		{"every price, at cents", ``, ``, `"contribution", "at_least": "5.00"`, "5.00", "100000.00"},
		{"none, at cents", ``, ``, `"contribution", "at_least": "5.01"`, "", ""},
		{"below what it pays", `{"step": "0.50"}`, ``, `"contribution", "at_least": "3.00"`, "2.75", "100000.00"},
		// Without the tax, 6.00 is the price that leaves 5.00; 5.99 leaves 4.99.
		{"tax in the price", ``, `, "tax": {"rate": "20%", "in_price": true}`, `"contribution", "at_least": "5.00"`, "6.00", "100000.00"},
		{"tax in the price, a cent more", ``, `, "tax": {"rate": "20%", "in_price": true}`, `"contribution", "at_least": "5.01"`, "", ""},
		// 5.00 is at least a fifth up to 25.00.
		{"a share of the price", ``, ``, `"net_margin", "at_least": "20%"`, "0.01", "25.00"},
		// 24.99 is asked up to 25.48, and 5.00 is a fifth of it; of 25.99 it is not.
		{"a share of prices that can be asked", `{"ends_in": ["0.99"]}`, ``, `"net_margin", "at_least": "20%"`, "0.01", "25.48"},
		{"in the worst order", `{"ends_in": ["0.99"]}`, ``, `"contribution", "at_least": "5.00", "asked_of": "worst"`, "5.49", "100000.00"},
	} {
		tag := ""
		if c.tag != "" {
			tag = `, "price_points": ` + c.tag
		}
		a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "products": [{"id": "card"}],
			"channels": [{"id": "house"` + tag + c.tax + `, "on_demand": {"pays": "flat_fee", "sizes": [{"product": "card", "flat": "5.00"}]}}],
			"rules": [{"id": "asked", "rule": ` + c.rule + `}]}`))
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		least, greatest := "", ""
		if len(a.Conflict) == 0 {
			least, greatest = a.Products[0].Least.String(), a.Products[0].Greatest.String()
		}
		if least != c.least || greatest != c.greatest {
			t.Errorf("%s: %q to %q, want %q to %q", c.what, least, greatest, c.least, c.greatest)
		}
	}
}

// What is refused after all says how many prices it was, and what would help: with the limit that it names there
// are no more prices than can be tried.
func TestTooManyPricesToTry(t *testing.T) {
	document := func(limit string) string {
		// Both fees are rounded up, and together take all of each price but for cents.
		return `{"version": 1, "currency": "EUR"` + limit + `, "products": [{"id": "card"}],
			"channels": [{"id": "shop", "fees": [{"name": "a", "rate": "50%", "rounding": "up"}, {"name": "b", "rate": "49.999999%", "rounding": "down"}]}],
			"rules": [{"id": "nothing lost", "rule": "contribution", "at_least": "0.00"}]}`
	}
	_, err := pricelist.Price([]byte(document(``)))
	ps, ok := err.(quoin.Problems)
	if !ok || len(ps) != 1 || ps[0].Path != "rules[0]" || !strings.Contains(ps[0].Found, "more than 524288 prices") || !strings.Contains(ps[0].Remedy, "price_limit to 5242.88 or less") {
		t.Fatalf("%v", err)
	}
	if a := decidedShop(t, document(`, "price_limit": "5242.88"`)); a.Products[0].Least.String() != "0.01" {
		t.Errorf("%s", a.Products[0].Least)
	}
}
