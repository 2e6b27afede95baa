package review_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// A year has passed: a sheet costs 5.80 instead of 4.00, and the commission is 20%
// instead of 10%. All figures are invented.
func ExampleCompare() {
	last, _ := pricelist.Decode([]byte(small))
	now := last
	now.Supplies = append(now.Supplies[:0:0], last.Supplies...)
	now.Supplies[0].Price = quoin.MustAmount("5.80")
	now.Channels = append(now.Channels[:0:0], last.Channels...)
	now.Channels[0].Fees = append(now.Channels[0].Fees[:0:0], last.Channels[0].Fees...)
	now.Channels[0].Fees[0].Rate = quoin.MustRate("20%")

	prices := map[string]quoin.Amount{"heron": quoin.MustAmount("12.00")}
	r, err := review.Compare(last, prices, now, quoin.MustRate("15%"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range r.Changes {
		fmt.Println(c.Path, "was", c.Old, "and is", c.New)
	}
	for _, f := range r.Floors {
		fmt.Println("floor of", f.Product, f.Before, "then", f.After)
		for _, s := range f.Shares {
			fmt.Println(" ", s.Inputs[0], s.By, "of", s.Exact)
		}
	}
	for _, b := range r.Broken {
		fmt.Println(b.Price, "breaks", b.Rule, "in", b.Channel, "asked", b.Asked, "got", b.Got)
	}
	for _, m := range r.Moves {
		fmt.Println(m.Product, m.Advice, "to", m.Now, "and may lose", m.Volumes[0].MayLose)
	}
	// Output:
	// channels[0].fees[0].rate was 10% and is 20%
	// supplies[0].price was 4.00 and is 5.80
	// floor of heron 10.00 then 13.50
	//   channels["web"].fees["commission"].rate 1.38 of 1.375
	//   supplies["paper"].price 2.12 of 2.125
	// 12.00 breaks keeps in web asked 5.00 got 3.80
	// heron raise to 13.50 and may lose 24%
}

// Which figures are worth asking for again?
func ExampleSensitivity() {
	doc, _ := pricelist.Decode([]byte(small))
	all, err := review.Sensitivity(doc, quoin.MustRate("10%"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range review.Matter(all, "heron") {
		s := f.Products[0]
		fmt.Printf("%s: %s at %s, %s at %s\n", f.Path, s.Down, f.Down, s.Up, f.Up)
	}
	// Output:
	// supplies[0].quantity: 10.50 at 0.9 sheet, 9.60 at 1.1 sheet
	// products[0].bill[0].quantity: 9.56 at 0.9 sheet, 10.44 at 1.1 sheet
	// supplies[0].price: 9.56 at 3.60, 10.44 at 4.40
}
