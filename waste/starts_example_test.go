package waste_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// Twenty good prints at a yield of 90%: what does on average does not do two
// times in ten.
func ExampleStartsFor() {
	s, err := waste.StartsFor(20, quoin.MustRate("90%"), quoin.MustRate("95%"))
	fmt.Printf("start %d to be %.1f%% sure; %d do it only %.1f%% of the time, %v\n", s.Start, s.Chance, s.Average, s.AverageChance, err)
	// Output: start 25 to be 96.7% sure; 23 do it only 80.7% of the time, <nil>
}

func ExampleChance() {
	c, err := waste.Chance(22, 20, quoin.MustRate("90%"))
	fmt.Printf("%.0f%% %v\n", c, err)
	// Output: 62% <nil>
}

// A print house that delivers and bills up to 10% more or fewer.
func ExampleDelivery() {
	d := waste.Delivery{Ordered: 500, Over: quoin.MustRate("10%"), Under: quoin.MustRate("10%"), Setup: quoin.MustAmount("45.00"), Each: quoin.MustAmount("1.20")}
	each, _ := d.UnitCost()
	fmt.Printf("have %.2f ready; each costs %.2f to %.2f; promise %d\n", d.Cash(), each.Low, each.High, d.Fewest())
	// Output: have 705.00 ready; each costs 1.28 to 1.30; promise 450
}

func ExampleStage_Recovers() {
	s := waste.Stage{Recovery: quoin.MustAmount("0.50"), Seconds: waste.Seconds{Share: quoin.MustRate("40%"), Price: quoin.MustAmount("5.00")}}
	fmt.Println(s.Recovers())
	// Output: 2.30
}
