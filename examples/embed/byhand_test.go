package main

import (
	"os"
	"testing"

	"example.com/quoin/internal/handtest"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// What is worked out by hand of the document is right, and stands in the answer to it. That
// the hosts print the first line is tested by TestCommandPrintsPrices.
func TestByHand(t *testing.T) {
	page, err := os.ReadFile("BYHAND.md")
	if err != nil {
		t.Fatal(err)
	}
	document, err := os.ReadFile("shop.json")
	if err != nil {
		t.Fatal(err)
	}
	answer, err := pricelist.Price(document)
	if err != nil || len(answer.Products) != 1 {
		t.Fatalf("%d products, %v", len(answer.Products), err)
	}
	p := answer.Products[0]
	line := p.Name + ": " + p.Price.String() + " " + answer.Currency.String() + "\n"
	handtest.Page(t, string(page), line+sheet.FullText(answer, 80), 25, 15)
}
