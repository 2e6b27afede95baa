package pricelist_test

import (
	"fmt"
	"strings"
)

// sold is a document of products made of one kit, in channels, with what is beside them.
func sold(products, channels, beside string) string {
	return `{"version": 1, "currency": "EUR", "supplies": [{"id": "kit", "quantity": "1 kit", "price": "4.00"}], "channels": [` + channels + `], "products": [` + products + `]` + beside + `}`
}

func kits(n int) string {
	return list(n, func(i int) string {
		return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "kit", "quantity": "1 kit"}]}`, i)
	})
}

func ways(n int, with string) string {
	return list(n, func(i int) string { return fmt.Sprintf(`{"id": "c%d"%s}`, i, with) })
}

// hostileAnswers are documents that hurt by what there is to say of them.
func hostileAnswers() []hostile {
	name := strings.Repeat("n", 400)
	fees := func(n int, format string) string {
		return `, "fees": [` + list(n, func(i int) string { return fmt.Sprintf(format, i) }) + `]`
	}
	hundredth := func(n int) string { // orders whose shares sum to 1
		return `, "orders": [` + list(n, func(i int) string {
			share := 100 / n
			if i == 0 {
				share += 100 % n
			}
			return fmt.Sprintf(`{"id": "o%d", "share": "%d%%"}`, i, share)
		}) + `]`
	}
	return []hostile{
		{"products in channels", func(n int) string { return sold(kits(150*n), ways(20, ""), "") }},
		{"products in all channels", func(n int) string { return sold(kits(32*n), ways(100, ""), "") }},
		{"products in one channel", func(n int) string { return sold(kits(3500*n), ways(1, ""), "") }},
		{"products with endings and no limit", func(n int) string {
			return sold(kits(700*n), ways(1, ""), `, "rules": [{"id": "ends", "rule": "ending", "ends_in": ["0.99"]}]`)
		}},
		{"services of a machine", func(n int) string {
			parts := list(100, func(i int) string {
				return fmt.Sprintf(`{"name": "part %d", "price": "9.00", "every": "%d"}`, i, 1000+i)
			})
			return sold(strings.ReplaceAll(kits(150*n), `"kit", "quantity": "1 kit"`, `"printer", "quantity": "1 print"`), ways(20, ""),
				`, "machines": [{"id": "printer", "unit": "print", "price": "900.00", "life_months": 48, "prints_per_month": "60", "service": [`+parts+`]}]`)
		}},
		{"long names", func(n int) string {
			doc := sold(kits(75*n), ways(20, fmt.Sprintf(`, "name": %q, "fees": [{"name": %q, "rate": "3%%"}]`, name, name)), "")
			return strings.Replace(doc, `{"id": "kit"`, fmt.Sprintf(`{"id": "kit", "name": %q`, name), 1)
		}},
		{"kinds of order and fees with bounds", func(n int) string {
			return sold(kits(1), ways(1, hundredth(100)+fees(24*n, `{"name": "f%d", "rate": "0.1%%", "at_least": "0.01"}`)), "")
		}},
		{"kinds of order and fees that are listed", func(n int) string {
			return sold(kits(5*n), ways(1, `, "price_points": {"ends_in": ["0.99"], "every": "1.00"}`+hundredth(50)+fees(97, `{"name": "f%d", "rate": "0.1%%"}`)), "")
		}},
		{"fees over many orders", func(n int) string {
			return sold(kits(80*n), ways(1, fees(97, `{"name": "f%d", "fixed": "9.00", "orders_together": "100"}`)), "")
		}},
		{"tiers", func(n int) string {
			tiers := list(100, func(i int) string { return fmt.Sprintf(`{"from": "%d", "rate": "%d.%02d%%"}`, 10*i, i/100, i%100) })
			return sold(kits(40*n), ways(1, `, "fees": [{"name": "commission", "tiers": [`+tiers+`]}]`), "")
		}},
		{"ranges", func(n int) string {
			supplies := list(100*n, func(i int) string {
				return fmt.Sprintf(`{"id": "s%d", "quantity": "1 piece", "price": "1.00", "price_range": {"low": "0.90", "high": "1.20"}}`, i)
			})
			lines := list(100*n, func(i int) string { return fmt.Sprintf(`{"supply": "s%d", "quantity": "1 piece"}`, i) })
			products := list(20, func(i int) string { return fmt.Sprintf(`{"id": "p%d", "bill": [%s]}`, i, lines) })
			return strings.Replace(sold(products, ways(2, ""), ""), `"supplies": [`, `"supplies": [`+supplies+`, `, 1)
		}},
		{"ranges of products", func(n int) string {
			return sold(list(700*n, func(i int) string {
				return fmt.Sprintf(`{"id": "p%d", "bill": [{"supply": "kit", "quantity": "1 kit", "quantity_range": {"low": "0.9 kit", "high": "1.2 kit"}}]}`, i)
			}), ways(2, ""), "")
		}},
		{"products that lose money", func(n int) string { return losing(2500 * n) }},
		{"shops that are handed line sheets", func(n int) string {
			return sold(kits(25*n), ways(100, `, "trade": {}`), "")
		}},
		{"a conflict about all products", func(n int) string {
			return sold(kits(2500*n), ways(1, ""), `, "rules": [{"id": "dear", "rule": "price", "at_least": "9.00"}, {"id": "cheap", "rule": "price", "at_most": "5.00"}]`)
		}},
		{"rules that refuse", func(n int) string {
			return sold(kits(12*n), ways(5, ""), `, "rules": [`+list(500, func(i int) string {
				return fmt.Sprintf(`{"id": "r%d", "rule": "contribution", "at_least": "9.00"}`, i)
			})+`]`)
		}},
	}
}
