package prose_test

import (
	"testing"

	"example.com/quoin/internal/prose"
)

// What stands in a list is said by its name, else its key, else its number; what is no path
// stays as it is.
func TestPlace(t *testing.T) {
	name := func(at string) string {
		return map[string]string{"machines[0]": "Pigment printer", "products[1]": "Bittern, A4", "products[1].bill[0]": "Pigment ink"}[at]
	}
	for path, want := range map[string]string{
		"machines[0].prints_per_month":                    "Pigment printer, prints per month",
		"products[1].bill[0].ink.per_m2":                  "Bittern, A4, Pigment ink, ink per m2",
		`channels["marketplace"].fees["commission"].rate`: "channel marketplace, fee commission, rate",
		`supplies["paper"]`:                               "supply paper",
		"channels[0].orders[1].shipping":                  "channel 1, order 2, shipping",
		"price_step":                                      "price step",
		"overhead.cost":                                   "overhead cost",
		`stages["a \"b\" [c].d"].yield`:                   `stage a "b" [c].d, yield`,
		"":                                                "",
		"products[":                                       "products[",
		"products[x].id":                                  "products[x].id",
		"[0].unit_cost":                                   "1, unit cost",
		`products["a"x].id`:                               `products["a"x].id`,
		"[a](b)":                                          "[a](b)",
		`products["a].id`:                                 `products["a].id`,
	} {
		if got := prose.Place(path, name); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

func TestCount(t *testing.T) {
	if prose.Behind(" in ", "web") != " in web" || prose.Behind(" in ", "") != "" {
		t.Error("behind")
	}
	if got := prose.Count(1, "sale") + ", " + prose.Count(int64(0), "sale") + ", " + prose.Words("not_sold"); got != "1 sale, 0 sales, not sold" {
		t.Error(got)
	}
}
