package market_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// One seller at two venues is two points, also at one price. Each venue weighs a half:
// in the north ada's 10.00 and ben's 20.00 a quarter each, in the south ada's 10.00 a
// half. Sorted they stand at 0.125, 0.5 and 0.875, so the price at 68.75%, midway between
// the last two, is 15.00. As one point ada would stand at 0.375, and it would be 16.25.
// Records of one seller at one venue and price are one point: three times the 20.00 of
// ben weigh what one does.
func TestAPointIsASellerAtAVenueAndPrice(t *testing.T) {
	record := func(venue, seller, price string) comparables.Record {
		return comparables.Record{Product: "rail", Venue: venue, Seller: seller, Price: quoin.MustAmount(price), Sold: 1}
	}
	records := []comparables.Record{record("north", "ada", "10.00"), record("south", "ada", "10.00"), record("north", "ben", "20.00")}
	one := quoin.Some[int64](1)
	for what, of := range map[string][]comparables.Record{
		"each once": records, "ben three times": append(append(records[:3:3], records[2]), records[2]),
	} {
		s, err := market.Summarize(of, "rail", market.Basis{}, market.Options{MinSales: one, MinVenues: one})
		if err != nil {
			t.Fatal(err)
		}
		if q, ok := s.PriceAt(quoin.MustRate("68.75%")).Get(); !ok || !q.Price.Equal(quoin.MustAmount("15.00")) {
			t.Errorf("%s: at 68.75%% stands %s, %t, want 15.00", what, q.Price, ok)
		}
	}
}
