package pricelist_test

import (
	"encoding/json"
	"fmt"
	"log"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// An answer is stored, and years later it still says where each figure comes from. A
// fee of 7% of 24.00 and 0.30 is 1.98; 24.00 less 5.00 of goods and 1.98 of fees leaves
// 17.02.
func ExampleAnswer_UnmarshalJSON() {
	a, err := pricelist.Price([]byte(`{
		"version": 1, "currency": "EUR", "price_limit": "60.00",
		"supplies": [{"id": "paper", "quantity": "10 sheet", "price": "50.00"}],
		"channels": [{"id": "own", "fees": [{"name": "payment", "rate": "7%", "of": ["items"], "fixed": "0.30"}]}],
		"products": [{"id": "bittern", "price": "24.00", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}]
	}`))
	if err != nil {
		log.Fatal(err)
	}
	stored, err := json.Marshal(a)
	if err != nil {
		log.Fatal(err)
	}

	var read pricelist.Answer
	if err := json.Unmarshal(stored, &read); err != nil {
		log.Fatal(err)
	}
	bittern := read.Products[0]
	own := bittern.Channels[0]
	fmt.Println(bittern.ID, bittern.Price, own.ID, own.Statement.Contribution)

	steps := own.Steps.Steps()
	fmt.Println("replays:", quoin.Replay(steps) == nil)
	for _, n := range quoin.Find(steps, func(s quoin.Step) bool { return s.Code == margin.StepContribution }) {
		fmt.Println(steps[n-1].Code, steps[n-1].Value)
	}
	// Output:
	// bittern 24.00 own 17.02
	// replays: true
	// contribution 17.02
}
