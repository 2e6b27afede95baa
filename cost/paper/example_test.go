package paper_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
)

func ExampleMass() {
	m, err := paper.Mass(quoin.MustSize("A3"), quoin.MustQuantity("308 gsm"))
	fmt.Printf("%.1f g %v\n", m, err)
	// Output: 38.4 g <nil>
}

func ExampleGrammage() {
	g, err := paper.Grammage(quoin.MustQuantity("24 lb"), quoin.MustSize("17 x 22 in"))
	fmt.Printf("%.1f gsm %v\n", g, err)
	// Output: 90.2 gsm <nil>
}

func ExampleBasisWeight() {
	lb, err := paper.BasisWeight(quoin.MustQuantity("300 gsm"), quoin.MustSize("20 x 26 in"))
	fmt.Printf("%.0f lb %v\n", lb, err)
	// Output: 111 lb <nil>
}
