package pricelist_test

import (
	"context"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// press is a shop without products; its figures are invented.
const press = `{
	"version": 1, "currency": "EUR",
	"supplies": [{"id": "paper", "quantity": "25 sheet", "price": "70.00"}, {"id": "time", "quantity": "1 h", "price": "18.00"}],
	"channels": [{"id": "own-shop", "fees": [{"name": "payment", "rate": "2.1%", "fixed": "0.27"}]}],
	"rules": [
		{"id": "something is left", "rule": "contribution", "at_least": "6.00"},
		{"id": "whole or half", "rule": "ending", "ends_in": ["0.00", "0.50"], "strength": "prefer"}
	]
}`

// A shop is opened once; then lots of products are decided in it, each as if it stood
// in a document of its own. An edition in two sizes, with the step between them, is one
// lot.
func ExampleShop_Decide() {
	shop, err := pricelist.DecodeShop([]byte(press))
	if err != nil {
		fmt.Println(err)
		return
	}
	lot, err := pricelist.DecodeLot([]byte(`{
		"products": [
			{"id": "bittern-a5", "bill": [{"supply": "paper", "quantity": "0.25 sheet"}, {"supply": "time", "quantity": "3 min"}]},
			{"id": "bittern-a4", "bill": [{"supply": "paper", "quantity": "0.5 sheet"}, {"supply": "time", "quantity": "4 min"}]}
		],
		"rules": [{"id": "sizes", "rule": "size_ratio", "products": ["bittern-a5", "bittern-a4"], "at_least": "1.4"}]
	}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := shop.Decide(lot, pricelist.Full)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range answer.Products {
		fmt.Println(p.ID, p.Price)
	}
	// Output:
	// bittern-a5 8.50
	// bittern-a4 12.00
}

// Lots come in lines of JSON, from a file or over the network; with two workers, two are
// decided at a time, and the answers come in order all the same. A lot with a key is named by it.
func ExampleBatch_Lines() {
	shop, err := pricelist.DecodeShop([]byte(press))
	if err != nil {
		fmt.Println(err)
		return
	}
	lines := strings.NewReader(`{"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}]}
{"key": "A-17", "products": [{"id": "snipe", "bill": [{"supply": "papper", "quantity": "1 sheet"}]}]}
{"products": [{"id": "rail", "bill": [{"supply": "paper", "quantity": "2 sheet"}]}]}
`)
	batch := pricelist.Batch{Workers: 2, GoOn: true}
	for answer, err := range batch.Lines(context.Background(), shop, lines) {
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(answer.Products[0].ID, answer.Products[0].Price)
	}
	// Output:
	// heron 9.50
	// 2:66: lots["A-17"].products[0].bill[0].supply: found "papper", wanted the id of an entry in supplies; did you mean paper? [unknown_id]
	// rail 12.50
}

// A document of any length is decided while it is read, as long as its products come
// last.
func ExampleBatch_Document() {
	long := strings.NewReader(strings.TrimSuffix(press, "}") + `, "products": [
		{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]},
		{"id": "rail", "bill": [{"supply": "paper", "quantity": "2 sheet"}]}
	]}`)
	for answer, err := range (pricelist.Batch{Detail: pricelist.Brief}).Document(context.Background(), long) {
		if err != nil {
			fmt.Println(err)
			return
		}
		p := answer.Products[0]
		fmt.Println(p.ID, p.Price, p.Channels[0].Statement.Contribution.Round(2, quoin.HalfUp))
	}
	// Output:
	// heron 9.50 6.23
	// rail 12.50 6.37
}
