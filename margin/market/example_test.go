package market_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// seen is what was found of prints like the linocut "Bittern in the reeds", on a
// web market, at a fair and in a gallery (all invented). Web prices hold 20% tax
// and postage of 4.80.
func seen() []comparables.Record {
	web := func(seller, price, size string, sold int64) comparables.Record {
		return comparables.Record{
			Product: "bittern", Venue: "web", Seller: seller, Price: quoin.MustAmount(price), Size: quoin.MustSize(size), Sold: sold,
			Tax: quoin.MustRate("20%"), Postage: quoin.MustAmount("4.80"), Date: quoin.MustDate("2026-02-11"),
		}
	}
	fair := func(seller, price, size string, sold int64) comparables.Record {
		return comparables.Record{Product: "bittern", Venue: "spring fair", Seller: seller, Price: quoin.MustAmount(price), Size: quoin.MustSize(size), Sold: sold}
	}
	framed := comparables.Record{
		Product: "bittern", Venue: "harbour gallery", Seller: "gallery", Price: quoin.MustAmount("140"), Size: quoin.MustSize("A3"), Sold: 2,
		Framed: true, FrameWorth: quoin.Some(quoin.MustAmount("55")),
	}
	return []comparables.Record{
		web("ada", "58.80", "A3", 14), web("ada", "40.80", "A4", 9), web("ada", "82.80", "A2", 1),
		web("ben", "70.80", "A3", 3), web("ben", "46.80", "A4", 6), web("cleo", "64.80", "A3", 2), web("dan", "190.80", "A3", 0),
		fair("eli", "60", "A3", 4), fair("eli", "45", "A4", 7), fair("fay", "75", "A3", 1), fair("gil", "400", "A3", 1), framed,
	}
}

// What A3 prints bring without tax, postage and frame.
func ExampleSummarize() {
	s, err := market.Summarize(seen(), "bittern", market.Basis{Size: quoin.MustSize("A3")}, market.Options{Today: quoin.MustDate("2026-03-01")})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range s.Venues {
		fmt.Printf("%s: %d prices of %d sellers, median %.2f\n", v.Name, v.Records, v.Sellers, v.Median.Or(quoin.Amount{}))
	}
	fmt.Printf("size: exponent %s, of which the data decided %.0f%%\n", s.Exponent.Used, s.Exponent.DataWeight)
	spread, _ := s.Spread.Get()
	fmt.Printf("centre %.2f, spread %.2f, from as much as %s sellers\n", s.Centre.Or(quoin.Amount{}), spread.Money, s.Effective)
	for _, o := range s.Outliers {
		fmt.Printf("record %d, %.2f: %s, %s spreads\n", o.Record, o.Price, o.Code, o.Spreads)
	}
	fmt.Println("only asked:", s.Collect.AskedOnly, "undated:", len(s.Collect.Undated), "alone:", s.Collect.Alone)
	// Output:
	// harbour gallery: 1 prices of 1 sellers, median 85.00
	// spring fair: 4 prices of 3 sellers, median 75.00
	// web: 6 prices of 3 sellers, median 49.83
	// size: exponent 0.507099, of which the data decided 2%
	// centre 75.00, spread 19.31, from as much as 5.4 sellers
	// record 10, 400.00: far_above_centre, 5.90407 spreads
	// only asked: [6] undated: 5 alone: [lone seller: venue "harbour gallery", seller "gallery"]
}

// Where 80.00 stands, and what two thirds sell below.
func ExampleSummary_Position() {
	s, _ := market.Summarize(seen(), "bittern", market.Basis{Size: quoin.MustSize("A3")}, market.Options{})
	p, _ := s.Position(quoin.MustAmount("80")).Get()
	fmt.Printf("above %.0f%% of them, between %.0f%% and %.0f%%\n", p.Percentile, p.Interval.Low, p.Interval.High)
	q, _ := s.PriceAt(quoin.MustRate("66%")).Get()
	fmt.Printf("66%% sell below %.2f, between %s and %s\n", q.Price, q.Bounds.Low, q.Bounds.High)
	// Output:
	// above 56% of them, between 21% and 85%
	// 66% sell below 82.20, between 49.74165 and none
}

// Two sales are no market.
func ExampleMissing() {
	s, _ := market.Summarize(seen()[:2], "bittern", market.Basis{Size: quoin.MustSize("A3")}, market.Options{})
	fmt.Println("centre:", s.Centre)
	fmt.Printf("to collect: %d sales, %d venue, %d size, %d sellers whose sizes are known\n", s.Collect.Sales, s.Collect.Venues, s.Collect.Sizes, s.Collect.SizedSellers)
	// Output:
	// centre: none
	// to collect: 3 sales, 1 venue, 1 size, 2 sellers whose sizes are known
}

func ExampleBasis_Bring() {
	r := comparables.Record{Product: "bittern", Venue: "web", Price: quoin.MustAmount("58.80"), Tax: quoin.MustRate("20%"), Postage: quoin.MustAmount("4.80"), Size: quoin.MustSize("A4"), Sold: 14}
	basis := market.Basis{Size: quoin.MustSize("A3")}
	a, err := basis.Bring(r, quoin.MustFactor("0.5"))
	fmt.Printf("%.2f without postage, %.2f without tax, × %s for the size, %.2f %v\n", a.Bare, a.Taxed, a.SizeFactor, a.Price, err)
	r.Framed = true
	_, err = basis.Bring(r, quoin.MustFactor("0.5"))
	fmt.Println(err)
	// Output:
	// 54.00 without postage, 45.00 without tax, × 1.41421 for the size, 63.64 <nil>
	// frame_worth: found nothing, wanted what the frame is worth, to be taken off [frame_worth_unknown]
}

func ExampleFitExponent() {
	x, _ := market.FitExponent(seen(), "bittern", market.Basis{}, market.Options{})
	fit, _ := x.Fit.Get()
	fmt.Printf("%d prices of %d sizes say %s, between %s and %s\n", x.Records, x.Sizes, fit.Exponent, fit.Interval.Low, fit.Interval.High)
	fmt.Printf("with a default of %s that is %s, decided to %.0f%% by the data\n", x.Default, x.Used, x.DataWeight)
	// Output:
	// 11 prices of 3 sizes say 0.851744, between -2.56243 and 4.26592
	// with a default of 0.5 that is 0.507099, decided to 2% by the data
}
