package buy_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// Freight of 10.00 in three equal parts: the cent that is left goes to the
// first line.
func ExamplePurchase_Landed() {
	p := buy.Purchase{
		Lines: []buy.PurchaseLine{
			{Supply: "paper", Quantity: quoin.MustQuantity("50 sheet"), Price: quoin.MustAmount("60.00")},
			{Supply: "ink", Quantity: quoin.MustQuantity("80 ml"), Price: quoin.MustAmount("30.00")},
			{Supply: "tape", Quantity: quoin.MustQuantity("2 roll"), Price: quoin.MustAmount("10.00")},
		},
		Shared: []buy.SharedCost{{Name: "freight", Amount: quoin.MustAmount("10.00"), By: buy.Equally}},
	}
	landed, err := p.Landed(2)
	for _, l := range landed {
		fmt.Println(l.Supply, l.Amount)
	}
	fmt.Println(err)
	// Output:
	// paper 63.34
	// ink 33.33
	// tape 13.33
	// <nil>
}

// Eighteen are needed, and twenty-one cost less.
func ExampleOffer_Cheapest() {
	o := buy.Offer{Need: 18, Scale: buy.Scale{Steps: []buy.PriceBreak{{From: 1, Each: quoin.MustAmount("25.00")}, {From: 21, Each: quoin.MustAmount("20.00")}}}}
	order, err := o.Cheapest()
	fmt.Println(order.Quantity, order.Cost, "left over", order.Left, "worth", order.Bound, err)
	fmt.Println(o.Scale.Dominated())
	// Output:
	// 21 420.00 left over 3 worth 60.00 <nil>
	// [dominated quantities: from 17, to 20, instead 21]
}

func ExampleScale() {
	s := buy.Scale{
		Steps:   []buy.PriceBreak{{From: 1, Each: quoin.MustAmount("3.00")}, {From: 50, Each: quoin.MustAmount("2.40")}},
		Minimum: 10, Multiple: 5, Freight: quoin.MustAmount("9.00"), FreeFrom: quoin.Some(quoin.MustAmount("100.00")),
	}
	for _, n := range []int64{3, 32, 34, 50} {
		fmt.Println(n, s.Sold(n), s.Cost(s.Sold(n)))
	}
	// Output:
	// 3 10 39.00
	// 32 35 105.00
	// 34 35 105.00
	// 50 50 120.00
}

func ExampleEconomic() {
	e := buy.Economic(9600, quoin.MustAmount("75.00"), quoin.MustAmount("16.00"), buy.Scale{})
	fmt.Println(e.Quantity, e.Orders, e.Cost.Round(2, quoin.HalfUp))
	// Output: 300 32 4800.00
}

func ExampleStock_At() {
	s := buy.Stock{
		Unit: "sheet",
		Received: []buy.Receipt{
			{Date: quoin.MustDate("2026-01-10"), Quantity: quoin.MustQuantity("100 sheet"), Cost: quoin.MustAmount("200.00")},
			{Date: quoin.MustDate("2026-02-10"), Quantity: quoin.MustQuantity("100 sheet"), Cost: quoin.MustAmount("250.00")},
		},
		Used: []buy.Use{{Date: quoin.MustDate("2026-03-01"), Quantity: quoin.MustQuantity("150 sheet")}},
	}
	for _, s.Basis = range []buy.Basis{buy.FirstIn, buy.Average, buy.Last} {
		now, err := s.At(quoin.MustDate("2026-03-01"))
		fmt.Printf("%s: %s left for %.2f, the next for %.2f, %v\n", s.Basis, now.Quantity, now.Value, now.Unit, err)
	}
	// Output:
	// first_in: 50 left for 125.00, the next for 2.50, <nil>
	// average: 50 left for 112.50, the next for 2.25, <nil>
	// last: 50 left for 125.00, the next for 2.50, <nil>
}

func ExampleParseDate() {
	_, err := quoin.ParseDate("2026-02-29")
	fmt.Println(err)
	// Output: found "2026-02-29", wanted a date such as 2026-03-01 [bad_date]
}

func ExampleBasis_UnmarshalText() {
	fmt.Println(new(buy.Basis).UnmarshalText([]byte("fifo")))
	// Output: found "fifo", wanted one of last, replacement, average, first_in [unknown_word]
}
