package main

import (
	"testing"

	"example.com/quoin/internal/handtest"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// What is worked out by hand of the first document is right, and is what is printed: by the
// program, which the README shows, and in the price list.
func TestByHand(t *testing.T) {
	list, err := pricelist.Price(shop)
	if err != nil {
		t.Fatal(err)
	}
	handtest.Page(t, read(t, "BYHAND.md"), read(t, "../../README.md")+sheet.FullText(list, 80), 48, 10)
}
