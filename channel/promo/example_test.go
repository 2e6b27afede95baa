package promo_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// Two bitterns and three small rails, in EUR, prices invented: a tenth off the
// rails, then 8.00 off orders that still come to 90.00.
func ExampleApply() {
	lines := []promo.BasketLine{
		{Product: "bittern", Count: 2, Unit: quoin.MustAmount("32.00")},
		{Product: "rail", Count: 3, Unit: quoin.MustAmount("14.50")},
	}
	offers := []promo.Offer{
		{ID: "rails", Rate: quoin.MustRate("10%"), Products: []string{"rail"}},
		{ID: "big order", Amount: quoin.MustAmount("8.00"), From: quoin.MustAmount("90.00")},
	}
	b := promo.Apply(lines, offers, 2)
	for _, l := range b.Lines {
		fmt.Printf("%-8s %.2f off %.2f net %.2f\n", l.Product, l.Gross, l.Off, l.Net)
	}
	fmt.Printf("%.2f − %.2f = %.2f by %q\n", b.Gross, b.Discount, b.Net, b.Used)
	// Output:
	// bittern  64.00 off [0.00 4.96] net 59.04
	// rail     43.50 off [4.35 3.04] net 36.11
	// 107.50 − 12.35 = 95.15 by ["rails" "big order"]
}

func ExampleOffer_Check() {
	fmt.Println(promo.Offer{ID: "spring", Buy: 3, Free: 3}.Check())
	// Output: free: found 3, wanted fewer than the 3 of buy [bad_multi_buy]
}

func ExampleOffer_OnOne() {
	o := promo.Offer{ID: "three for two", Buy: 3, Free: 1}
	gross := quoin.MustAmount("72.50")
	fmt.Println(o.OnOne(gross, gross, quoin.MustAmount("14.50"), 5, 2))
	// Output: 14.50
}

func ExampleExplain() {
	offers := []promo.Offer{{ID: "spring", Rate: quoin.MustRate("15%")}, {ID: "code", Amount: quoin.MustAmount("5.00"), From: quoin.MustAmount("30.00")}}
	t := quoin.NewTrail(8)
	price := quoin.Given("unit price", quoin.InField("price"), quoin.MustAmount("44.90").Figure())
	promo.Explain(t, func(i int) quoin.Path { return quoin.InList("offers", i) }, price.Named("gross"), price, quoin.FactorOf(1).Named("count"), offers, 2)
	for _, s := range t.Steps() {
		fmt.Println(s.Subject, s.Code, s.Value)
	}
	// Output:
	// spring offer_off 6.74
	// spring offer_left 38.16
	// code offer_off 5.00
	// code offer_left 33.16
}

// A print that left 18.00 leaves 12.00 after a third off what it earned: half
// as many again have to be sold.
func ExampleVolumeNeeded() {
	f, ok := promo.VolumeNeeded(quoin.MustAmount("18.00"), quoin.MustAmount("12.00"))
	fmt.Println(f, ok)
	// Output: 1.5 true
}
