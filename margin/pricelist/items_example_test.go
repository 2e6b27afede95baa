package pricelist_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// The fees and prices are invented.
const heronShop = `{
	"version": 1, "currency": "EUR",
	"supplies": [{"id": "paper", "quantity": "50 sheet", "price": "64.00"}],
	"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "0.5 sheet"}]}],
	"channels": [{"id": "web",
		"orders": [{"shipping": "4.50", "postage": "4.50", "free_from": "25.00"}],
		"fees": [{"name": "card", "rate": "3%", "of": ["items", "shipping"]}]}],
	"rules": [{"id": "enough", "rule": "contribution", "at_least": "18.00"}]
}`

// A slider from a document: what a print leaves at any price, what each rule says of it,
// and the points through which its curve is drawn, 400 pixels wide.
func ExampleDocument_Items() {
	doc, err := pricelist.Decode([]byte(heronShop))
	if err != nil {
		fmt.Println(err)
		return
	}
	items, err := doc.Items(rule.Likely)
	if err != nil {
		fmt.Println(err)
		return
	}
	heron := items[0]
	web, _ := heron.Offer("web")
	for _, p := range web.Sale.Points(heron.Grid, quoin.MustAmount("10"), quoin.MustAmount("40"), 400) {
		fmt.Printf("%v leaves %.2f\n", p.Price, p.Contribution)
	}
	price := quoin.MustAmount("26.00")
	fmt.Printf("at %v: %.2f of %.2f\n", price, web.Sale.At(price).Contribution, web.Sale.At(price).Revenue)
	for _, r := range doc.Rules {
		for _, verdict := range r.Judge(heron, price) {
			fmt.Println(r.ID, verdict.OK, verdict.Asked, verdict.Got.Round(2))
		}
	}
	zones, err := rule.DeadZones(heron.Grid, web)
	if err != nil {
		fmt.Println(err)
	}
	for _, z := range zones {
		fmt.Printf("%v to %v leave less than %v\n", z.First, z.Last, z.After)
	}
	// Output:
	// 10.00 leaves 8.92
	// 24.99 leaves 23.47
	// 25.00 leaves 19.11
	// 40.00 leaves 33.66
	// at 26.00: 20.08 of 26.00
	// enough true 18.00 20.08
	// 25.00 to 29.48 leave less than 24.99
}

// A shop that Go code puts together without a document: each part is checked by itself, and
// says what the document would.
func Example_composed() {
	web := channel.Channel{ID: "web", Fees: []channel.Fee{{Name: "card", Rate: quoin.MustRate("3%"), Of: []channel.Part{"item"}}}}
	fmt.Println(web.Check(quoin.MustCurrency("EUR")))

	_, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "products": [{"id": "heron"}],
	"channels": [{"id": "web", "fees": [{"name": "card", "rate": "3%", "of": ["item"]}]}]}`))
	fmt.Println(err)

	floor := rule.Rule{ID: "enough", Kind: rule.Contribution{AtLeast: quoin.MustAmount("18.00"), AskedOf: "wrost"}}
	fmt.Println(floor.Check())
	// Output:
	// fees[0].of[0]: found "item", wanted one of items, shipping, surcharge, tax, discount; did you mean items? [unknown_word]
	// 2:76: channels[0].fees[0].of[0]: found "item", wanted one of items, shipping, surcharge, tax, discount; did you mean items? [unknown_word]
	// asked_of: found "wrost", wanted one of average, worst; did you mean worst? [unknown_word]
}
