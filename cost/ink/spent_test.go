package ink_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
)

// Two periods: 100 ml on 10 m² and 180 ml on 10 m². Likely is 280 ÷ 20 = 14 ml for a
// square metre, the range goes from the 10 of the one to the 18 of the other: a print
// of half a square metre takes 7 ml, 5 to 9.
func TestPeriodsGiveARange(t *testing.T) {
	u := ink.Use{Image: quoin.MustSize("50 x 100 cm"), Spent: []ink.Period{
		{Opening: q("20 ml"), Bought: q("90 ml"), Closing: q("10 ml"), Area: q("10 m2")},
		{Opening: q("10 ml"), Bought: q("200 ml"), Closing: q("30 ml"), Area: q("10 m2")},
	}}
	likely, err := u.Volume()
	if err != nil || !likely.Equal(q("7 ml")) {
		t.Errorf("likely %s, %v, want 7 ml", likely, err)
	}
	if r, err := u.Range(); err != nil || !r.Low.Equal(q("5 ml")) || !r.High.Equal(q("9 ml")) {
		t.Errorf("between %s and %s, %v, want 5 and 9 ml", r.Low, r.High, err)
	}
}
