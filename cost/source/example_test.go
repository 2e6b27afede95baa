package source_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/source"
)

// From 72 prints on the 100 that the house sells at 1.35 cost less than those at 1.90:
// 179.00 with freight and set-up, and from 73 on less than at home.
func ExampleCompare() {
	home := source.RunAtHome{Fixed: quoin.MustAmount("6.00"), Each: quoin.MustAmount("2.40")}
	house := source.Quote{
		ID: "print house", Setup: quoin.MustAmount("35.00"), Scale: buy.Scale{
			Freight: quoin.MustAmount("9.00"),
			Steps:   []buy.PriceBreak{{From: 1, Each: quoin.MustAmount("1.90")}, {From: 100, Each: quoin.MustAmount("1.35")}},
		},
	}
	stretches, err := source.Compare(home, []source.Quote{house}, 500)
	for _, s := range stretches {
		fmt.Printf("%d to %d: %s, %.2f to %.2f\n", s.From, s.To, s.Source, s.First, s.Last)
	}
	fmt.Println(err)
	// Output:
	// 1 to 72: home, 8.40 to 178.80
	// 73 to 500: print house, 179.00 to 719.00
	// <nil>
}

func ExampleQuote_Cost() {
	q := source.Quote{Setup: quoin.MustAmount("20.00"), Scale: buy.Scale{Steps: []buy.PriceBreak{{From: 1, Each: quoin.MustAmount("2.00")}}, Minimum: 25}}
	fmt.Println(q.Cost(10), q.PerPrint(10))
	// Output: 70.00 7.00
}

// A print short loses the 9.00 it would have kept, one left over the 1.60 it
// cost.
func ExampleDemand_Order() {
	ratio, _ := source.CriticalRatio(quoin.MustAmount("9.00"), quoin.MustAmount("1.60"))
	d := source.Demand{Low: 20, High: 80}
	n := d.Order(ratio)
	fmt.Printf("%.1f%%: order %d, %.1f of them left over on average\n", ratio, n, d.LeftOver(n))
	// Output: 84.9%: order 71, 21.7 of them left over on average
}
