package waste_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// Check says all at once what a document would be told, with the same codes and paths.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		of   interface{ Check() error }
		want string
	}{
		{waste.Route{{ID: "print", Yield: quoin.MustRate("85%")}, {ID: "fold", LostOfGood: quoin.MustRate("5%")}},
			""},
		{waste.Route{{ID: "print", LostOfStarted: quoin.MustRate("100%")}, {ID: "print", Yield: quoin.MustRate("0%")}, {Yield: quoin.MustRate("90%"), LostOfGood: quoin.MustRate("1%")}},
			"out_of_range [0].lost_of_started, out_of_range [1].yield, duplicate_id [1].id, missing_field [2].id, rival_fields [2].lost_of_good"},
	} {
		if got := listed(c.of.Check()); got != c.want {
			t.Errorf("%v: %s, want %s", c.of, got, c.want)
		}
	}
}

// listed writes problems as "code path", in their order.
func listed(err error) string {
	ps, _ := err.(quoin.Problems)
	var out []string
	for _, p := range ps {
		out = append(out, string(p.Code)+" "+p.Path)
	}
	return strings.Join(out, ", ")
}
