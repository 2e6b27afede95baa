package trial_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// period is some weeks of the linocut "Heron, standing" in a shop on line, at a
// price of which so much is kept; all figures are invented.
func period(id, from, to, price, kept string, visits, units int64) trial.Period {
	return trial.Period{
		ID: id, Product: "heron-a3", Channel: "shop", Price: quoin.MustAmount(price), Kept: quoin.MustAmount(kept), From: quoin.MustDate(from), To: quoin.MustDate(to),
		Exposure: trial.Exposure{Number: quoin.FactorOf(visits), Kind: trial.Visits}, Units: units, Occasion: "web",
	}
}

// Twelve sold at 79, nine at 89, before as many visits.
func ExampleCompare() {
	a := []trial.Period{period("march", "2026-03-01", "2026-04-01", "79.00", "38.40", 640, 12)}
	b := []trial.Period{period("april", "2026-04-01", "2026-05-01", "89.00", "44.40", 640, 9)}
	c, err := trial.Compare(a, b, trial.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	once, _ := c.Groups[0].Once.Earnings.Get()
	fmt.Println(c.Answer, c.Why)
	fmt.Printf("%.2f against %.2f for each visit\n", c.Groups[0].Once.A.Earnings, c.Groups[0].Once.B.Earnings)
	fmt.Println("times", once.Value, "from", once.Low, "to", once.High, "looked at once")
	needed, _ := c.Needed.Get()
	fmt.Println("to tell", needed.Difference, "takes", needed.Sales, "sales of both, so", needed.More, "more")
	// Output:
	// cannot_tell [boundary_not_passed one_after_other]
	// 0.72 against 0.62 for each visit
	// times 1.15315 from 0.445946 to 3.09883 looked at once
	// to tell 25% takes 1710 sales of both, so 1689 more
}

// A fair is not the web: what is unlike is left out, and said.
func ExampleCompare_unlike() {
	a := period("march", "2026-03-01", "2026-04-01", "79.00", "38.40", 640, 12)
	b := period("fair", "2026-04-11", "2026-04-13", "89.00", "52.00", 2, 31)
	b.Channel, b.Occasion, b.Exposure.Kind = "spring fair", "fair", trial.StandDays
	c, err := trial.Compare([]trial.Period{a}, []trial.Period{b}, trial.Options{})
	fmt.Println(c.Answer, c.Why, c.LeftOut, err)
	// Output: cannot_tell [nothing_alike other_channel] [left out "march": mark other_channel left out "fair": mark other_channel] <nil>
}

func ExampleRateOf() {
	r, err := trial.RateOf(trial.SalesCount{Units: 15, Exposure: quoin.FactorOf(400)}, quoin.Optional[quoin.Rate]{})
	fmt.Println(r.Value, "from", r.Interval.Low, "to", r.Interval.High, err)
	// Output: 0.0375 from 0.0209885 to 0.0618505 <nil>
}

func ExampleShareOf() {
	s, err := trial.ShareOf(3, 10, quoin.Optional[quoin.Rate]{})
	fmt.Printf("%.1f%%, from %.1f%% to %.1f%% %v\n", s.Value, s.Wilson.Low, s.Wilson.High, err)
	// Output: 30.0%, from 10.8% to 60.3% <nil>
}

// How many visitors of each price tell 2% of buyers from 3%.
func ExampleVisitorsToTell() {
	n, err := trial.VisitorsToTell(quoin.MustRate("2%"), quoin.MustRate("3%"), trial.Certainty{})
	fmt.Println(n, err)
	// Output: 3826 <nil>
}

func ExampleInflation() {
	fmt.Println(trial.Inflation(1), trial.Inflation(10))
	// Output: 5% 19.3%
}

func ExampleElasticity() {
	from := trial.Point{Price: quoin.MustAmount("70"), Sales: quoin.FactorOf(2800)}
	to := trial.Point{Price: quoin.MustAmount("60"), Sales: quoin.FactorOf(3000)}
	e, _ := trial.Elasticity(from, to).Get()
	fmt.Println(e.Round(2, quoin.HalfUp))
	// Output: -0.45
}

func ExampleSlopeOf() {
	s, err := trial.SlopeOf([]trial.Period{
		period("march", "2026-03-01", "2026-04-01", "80.00", "39.00", 640, 10),
		period("april", "2026-04-01", "2026-05-01", "40.00", "15.00", 640, 20),
	}, trial.SlopeOptions{})
	fmt.Println(s.Elasticity, s.Why, err)
	// Output: -1 [two_prices] <nil>
}

// Of the allowed prices within 15% of 79, the largest step up teaches most for
// what it risks: 60 were sold before 3,000 visits, and 200,000 are to come.
func ExampleNext() {
	p, err := trial.Next(trial.Choice{
		Today: quoin.MustAmount("79.00"), Sold: trial.SalesCount{Units: 60, Exposure: quoin.FactorOf(3000)},
		Allowed: []quoin.Amount{quoin.MustAmount("79.00"), quoin.MustAmount("85.00"), quoin.MustAmount("89.00"), quoin.MustAmount("95.00")},
		Kept:    func(p quoin.Amount) quoin.Amount { return p.Part(quoin.MustRate("60%")).Sub(quoin.MustAmount("9.00")) },
		Move:    quoin.MustRate("15%"), Horizon: quoin.FactorOf(200_000),
	})
	fmt.Println(p.Price, p.Reason, len(p.Candidates), err)
	// Output: 89.00 most_worth 2 <nil>
}
