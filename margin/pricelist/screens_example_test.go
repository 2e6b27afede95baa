package pricelist_test

import (
	"errors"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
	"example.com/quoin/margin/rule"
)

// The four calls that a screen needs, as screens.md shows them.
func Example_behindAScreen() {
	text := []byte(`{"version": 1, "currency": "EUR", "price_step": "0.50", "products": [{"id": "heron", "name": "Heron, A4", "price": "20.00"}],
		"channels": [{"id": "web", "fees": [{"name": "card", "rate": "2%", "fixed": "0.25"}]}],
		"rules": [{"id": "worth it", "rule": "contribution", "at_least": "21.50"}]}`)

	// 1. What is wrong with it.
	_, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "prodcts": []}`))
	var problems quoin.Problems
	errors.As(err, &problems)
	fmt.Println(problems[0].Line, problems[0].Column, problems[0].Path, problems[0].Code, problems[0].Near)

	// 2. The decided list.
	doc, err := pricelist.Decode(text)
	if err != nil {
		panic(err)
	}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		panic(err)
	}
	heron := answer.Products[0]
	fmt.Println(heron.Name, heron.Price, "up", heron.Change.Or(quoin.Rate{}), len(answer.Cautions), "cautions")

	// 3. A slider.
	items, err := doc.Items(rule.Likely)
	if err != nil {
		panic(err)
	}
	for _, price := range []quoin.Amount{quoin.MustAmount("22.00"), quoin.MustAmount("22.50")} {
		verdict := doc.Rules[0].Judge(items[0], price)[0]
		fmt.Println(price, "keeps", items[0].Offers[0].Sale.At(price).Contribution, "of", verdict.Asked, verdict.OK)
	}

	// 4. A picture.
	keeps, ok := picture.Keeps(answer.WithCurves(), "heron")
	fmt.Println(keeps.Title, ok, len(keeps.SVG()) > 0)
	// Output:
	// 1 46 prodcts unknown_field products
	// Heron, A4 22.50 up 12.5% 3 cautions
	// 22.00 keeps 21.31 of 21.50 false
	// 22.50 keeps 21.80 of 21.50 true
	// What a sale keeps: Heron, A4 true true
}
