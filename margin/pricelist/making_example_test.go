package pricelist_test

import (
	"fmt"

	"example.com/quoin/margin/pricelist"
)

const unsureInk = `{"version": 1, "currency": "EUR",
	"supplies": [
		{"id": "paper", "quantity": "10 sheet", "price": "31.00", "sheet": {"size": "500 x 700 mm"}},
		{"id": "ink", "quantity": "80 ml", "price": "46.00"}
	],
	"products": [{"id": "a4", "image": "185 x 270 mm", "sheet": "A4", "bill": [
		{"supply": "paper", "cut": {"of": "sheet"}},
		{"supply": "ink", "ink": {"per_m2": "12 ml", "per_m2_range": {"low": "8 ml", "high": "16 ml"}}}
	], "run": {"good": 20, "setup": "6.00"},
		"quotes": [{"id": "print house", "setup": "20.00", "scale": {"steps": [{"from": 1, "each": "1.20"}, {"from": 50, "each": "0.70"}]}}]
	}],
	"channels": [{"id": "fair"}],
	"rules": [{"id": "cost", "rule": "cost_multiple", "at_least": "3.5"}, {"id": "halves", "rule": "ending", "ends_in": ["0.00", "0.50"]}]}`

// What was worked out for a line: how many come out of a sheet, and where they
// lie.
func ExampleDerivedLine() {
	a, err := pricelist.Price([]byte(unsureInk))
	for _, m := range a.Products[0].WorkedOut {
		fmt.Print(m.Supply, ": ", m.Quantity)
		if m.Sheet != nil {
			fmt.Printf(", %d out of a sheet in %d blocks", m.Sheet.Pieces, len(m.Sheet.Blocks))
		}
		fmt.Println()
	}
	fmt.Println(err)
	// Output:
	// paper: 0.25 sheet, 4 out of a sheet in 1 blocks
	// ink: 0.5994 ml
	// <nil>
}

// Ink from 8 to 16 ml a square metre moves goods by cents, and the price by a
// step at most.
func ExampleUncertainty() {
	a, err := pricelist.Price([]byte(unsureInk))
	p := a.Products[0]
	in := p.Uncertainty.Inputs[0]
	fmt.Printf("%s from %s to %s moves goods from %.2f to %.2f\n", in.Path, in.Low, in.High, in.Goods.Low, in.Goods.High)
	fmt.Println("price", p.Price, "from", p.Uncertainty.Cheapest.Price, "to", p.Uncertainty.Dearest.Price, "matters:", p.Uncertainty.Matters, err)
	// Output:
	// products[0].bill[1].ink.per_m2 from 8 ml to 16 ml moves goods from 1.30 to 1.53
	// price 5.00 from 5.00 to 5.50 matters: true <nil>
}

func ExampleStatementRange() {
	a, err := pricelist.Price([]byte(unsureInk))
	r := a.Products[0].Channels[0].Range
	fmt.Printf("net %.2f to %.2f %v\n", r.Net.Low, r.Net.High, err)
	// Output: net 3.47 to 3.70 <nil>
}

// The house sells 50 for 55.00, which is less than 44 cost at home.
func ExampleSourcing() {
	a, err := pricelist.Price([]byte(unsureInk))
	for _, s := range a.Products[0].Sourcing.Stretches {
		fmt.Printf("%d to %d: %s, %.2f to %.2f\n", s.From, s.To, s.Source, s.First, s.Last)
	}
	fmt.Println(err)
	// Output:
	// 1 to 43: home, 7.12 to 54.15
	// 44 to 200: print house, 55.00 to 160.00
	// <nil>
}
