package pricelist_test

import (
	"os"
	"testing"

	"example.com/quoin/margin/pricelist"
)

func TestPlace(t *testing.T) {
	text, err := os.ReadFile("../../examples/first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"supplies[0].price":             "paper, price",
		"supplies[2].yearly.spent":      "ink, yearly spent",
		"products[1].bill[0].quantity":  "Heron, A3, paper, quantity",
		"products[0].packing.parcel[0]": "Heron, A4, mailer",
		"channels[0].orders[0].postage": "Own web shop, order 1, postage",
		"channels[0].fees[0].rate":      "Own web shop, card, rate",
		"rules[2].at_least":             "4.00 stays in shops, at least",
		"channels[99].tax.rate":         "channel 100, tax rate",
		"price_step":                    "price step",
		"channels[0]..x[":               "channels[0]..x[",
		"":                              "",
	} {
		if got := doc.Place(path); got != want {
			t.Errorf("%s is %q, wanted %q", path, got, want)
		}
	}
}
