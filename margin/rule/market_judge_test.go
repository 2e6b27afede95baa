package rule_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// What a market rule with an exponent says of a price, evaluated forward, is what it
// allows: 12.00 for half the sides is 24.00, beside 30.00 for the same size.
func TestMarketJudgesAsItAllows(t *testing.T) {
	it := rule.NewItem("bittern-square", exampleGrid())
	it.Size = quoin.MustSize("20 x 20 cm")
	small, same := sold("harbour", "", "12.00"), sold("reed shelf", "", "30.00")
	small.Size, same.Size = quoin.MustSize("10 x 10 cm"), it.Size
	it.Comparables = []comparables.Record{small, same}
	r := rule.Rule{Kind: rule.Market{MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1), ToQuantile: quoin.MustRate("100%"), Basis: &comparables.Basis{Exponent: quoin.Some(quoin.MustFactor("0.5"))}}}
	set, err := r.Allowed(it)
	if err != nil {
		t.Fatal(err)
	}
	for _, price := range []string{"0.01", "23.99", "24.00", "27.00", "30.00", "30.01", "40.00"} {
		p, holds := quoin.MustAmount(price), true
		said := r.Judge(it, p)
		for _, v := range said {
			holds = holds && v.OK
		}
		if len(said) == 0 || holds != set.Contains(p) {
			t.Errorf("%s: judged %t by %d verdicts, allowed %t", price, holds, len(said), set.Contains(p))
		}
	}
}
