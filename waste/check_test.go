package waste_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/waste"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{
			waste.Route{{ID: "print", Yield: quoin.MustRate("85%")}, {ID: "fold", LostOfGood: quoin.MustRate("5%")}},
			"",
		},
		{
			waste.Route{{ID: "print", LostOfStarted: quoin.MustRate("100%")}, {ID: "print", Yield: quoin.MustRate("0%")}, {Yield: quoin.MustRate("90%"), LostOfGood: quoin.MustRate("1%")}},
			"out_of_range [0].lost_of_started, out_of_range [1].yield, duplicate_id [1].id, missing_field [2].id, rival_fields [2].lost_of_good",
		},
	} {
		if got := problemtest.Listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}
