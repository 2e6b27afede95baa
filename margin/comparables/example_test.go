package comparables_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Of one venue with 20, 24 and 30 the positions are 1/6, 1/2 and 5/6; 25% lies a
// quarter of the way from the first to the second: 20 + 4 ÷ 4. With a second venue
// that has 40 alone and weighs as much as the first, they are 1/12, 1/4, 5/12 and
// 3/4; half lies a quarter of the way from 30 to 40.
func ExampleQuantile() {
	sold := exampleComparables()[:4]
	one, _ := comparables.Quantile(sold[:3], quoin.MustRate("25%"))
	both, _ := comparables.Quantile(sold, quoin.MustRate("50%"))
	fmt.Printf("%.2f %.2f\n", one, both)
	_, ok := comparables.Quantile(nil, quoin.MustRate("50%"))
	fmt.Println(ok)
	// Output:
	// 21.00 32.50
	// false
}

// A frame of which nobody knows what it is worth cannot be taken off.
func ExampleList_Rank() {
	of := exampleComparables()
	of[3].Framed = true
	r := comparables.NewList(of, quoin.Size{}).Rank(comparables.Choice{MinSold: 1, Basis: &comparables.Basis{}})
	fmt.Println(r.Counting, r.Unsold, r.LeftOut)
	// Output: 3 1 1
}

// Of 61.50 with postage, framed, without tax: (61.50 − 6.50 − 35.00) × 1.2.
func ExampleBasis_Bring() {
	of := comparables.Record{
		Price: quoin.MustAmount("61.50"), Postage: quoin.MustAmount("6.50"), Framed: true, FrameWorth: quoin.Some(quoin.MustAmount("35.00")),
	}
	price, ok := comparables.Basis{Tax: quoin.MustRate("20%")}.Bring(of, quoin.Size{})
	fmt.Printf("%.2f %t\n", price, ok)
	// Output: 24.00 true
}

func exampleComparables() []comparables.Record {
	return []comparables.Record{
		{Venue: "harbour stall", Price: quoin.MustAmount("24.00"), Sold: 12},
		{Venue: "harbour stall", Price: quoin.MustAmount("20.00"), Sold: 31},
		{Venue: "harbour stall", Price: quoin.MustAmount("30.00"), Sold: 4},
		{Venue: "reed shelf", Price: quoin.MustAmount("40.00"), Sold: 2},
		{Venue: "reed shelf", Price: quoin.MustAmount("240.00"), Sold: 0},
	}
}
