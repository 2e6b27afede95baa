package pricelist_test

import (
	"strings"
	"testing"
)

// choosing is a print that costs 5.00 and has to keep 7.00, so that 12.00 is the least
// it may cost, and its larger size, which has to cost 1.5 times as much.
func choosing(choose, today, larger string) string {
	price := func(p string) string {
		if p == "" {
			return ""
		}
		return `, "price": "` + p + `"`
	}
	return `{"version": 1, "currency": "EUR", "price_step": "0.50", "price_limit": "300.00"` + choose + `,
	"supplies": [{"id": "print", "quantity": "1 piece", "price": "5.00"}],
	"products": [
		{"id": "a5"` + price(today) + `, "bill": [{"supply": "print", "quantity": "1 piece"}]},
		{"id": "a4"` + price(larger) + `, "bill": [{"supply": "print", "quantity": "1 piece"}]}],
	"channels": [{"id": "web"}],
	"rules": [{"id": "seven stays", "rule": "contribution", "at_least": "7.00"},
		{"id": "sizes", "rule": "size_ratio", "products": ["a5", "a4"], "at_least": "1.5"}]}`
}

func TestWhichAllowedPriceIsTaken(t *testing.T) {
	for _, c := range []struct {
		name, choose, today, larger, want string
	}{
		{"a price that keeps the rules stays as it is", ``, "200.00", "300.00", "200.00 300.00"},
		{"one that breaks them goes to the nearest that keeps them", ``, "10.00", "17.00", "12.00 18.00"},
		{"between two steps of the price, the lower of two as near", ``, "20.25", "", "20.00 30.00"},
		{"without a price today, the least", ``, "", "", "12.00 18.00"},
		{"the first product stays, the next follows it", ``, "20.00", "25.00", "20.00 30.00"},
		// 300.00 is the limit: the larger size has to find room for 1.5 times as much.
		{"a price that leaves the larger size none comes down", ``, "250.00", "280.00", "200.00 300.00"},
		{"the word says the same", `, "choose": "nearest"`, "200.00", "300.00", "200.00 300.00"},
		{"the least, whatever today's price", `, "choose": "least"`, "200.00", "300.00", "12.00 18.00"},
		{"the greatest", `, "choose": "greatest"`, "20.00", "30.00", "200.00 300.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := decidedShop(t, choosing(c.choose, c.today, c.larger))
			var got []string
			for _, p := range a.Products {
				got = append(got, p.Price.String())
			}
			if got := strings.Join(got, " "); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}
