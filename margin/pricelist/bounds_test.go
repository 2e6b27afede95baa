package pricelist_test

import (
	"fmt"
	"testing"
)

// Shops of an ordinary kind, however many prints they have, pass no bound that their prints would have to share.
func TestBoundsThatOrdinaryShopsKeep(t *testing.T) {
	for what, document := range map[string]string{
		// 60 designs in 4 sizes, each with prices of three houses at four quantities.
		"quotes for every print": `{"version": 1, "currency": "EUR", "supplies": [{"id": "print", "quantity": "1 piece", "price": "4.00"}], "channels": [{"id": "shop"}],
			"products": [` + list(240, func(i int) string {
			return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "print", "quantity": "1 piece"}], "run": {"good": 25}, "quotes": [%s]}`, i, list(3, func(j int) string {
				return fmt.Sprintf(`{"id": "q%d", "scale": {"steps": [{"from": 1, "each": "3.9%d"}, {"from": 10, "each": "3.1%d"}, {"from": 50, "each": "2.6%d"}, {"from": 100, "each": "2.2%d"}]}}`, j, j, j, j, j)
			}))
		}) + `]}`,
		// Each print unframed and framed: the framed one has the eight lines of the print's bill, and a moulding on top.
		"a framed print of each": `{"version": 1, "currency": "EUR", "supplies": [{"id": "part", "quantity": "1 piece", "price": "0.40"}], "channels": [{"id": "shop"}],
			"products": [` + list(3000, func(i int) string {
			lines := list(8, func(int) string { return `{"supply": "part", "quantity": "1 piece"}` })
			return fmt.Sprintf(`{"id": "p%d", "bill": [%s]}, {"id": "f%d", "extends": "p%d", "bill": [{"supply": "part", "quantity": "9 piece"}]}`, i, lines, i, i)
		}) + `]}`,
		"a set of each pair": `{"version": 1, "currency": "EUR", "supplies": [{"id": "print", "quantity": "1 piece", "price": "4.00"}], "channels": [{"id": "shop", "orders": [{"postage": "5.00"}]}],
			"products": [` + list(600, func(i int) string {
			return fmt.Sprintf(`{"id": "p%d", "price": "20.00", "bill": [{"supply": "print", "quantity": "1 piece"}]}`, i)
		}) + `],
			"sets": [` + list(300, func(i int) string {
			return fmt.Sprintf(`{"id": "s%d", "channel": "shop", "products": ["p%d", "p%d"]}`, i, 2*i, 2*i+1)
		}) + `]}`,
	} {
		t.Run(what, func(t *testing.T) { decidedShop(t, document) })
	}
}
