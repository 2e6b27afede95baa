package pricelist_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
)

// An hour of the maker's own time is 20.00 and a print takes six minutes: 2.00. Own
// time is all of it that the goods hold: what a test print takes, shared by the good
// ones; the starts of its stage; without what returns save that are sold again; with
// contingency and loss.
func TestOwnTimeIsAllThatTheGoodsHold(t *testing.T) {
	for _, c := range []struct{ what, run, channel, contingency, want string }{
		{"a print", `{"good": 10}`, `{"id": "stall"}`, "0%", "2.5"}, // 2.00 ÷ 0.8 of the stage
		// A test is one print without starts: 2.00 over ten.
		{"with a test for ten", `{"good": 10, "tests": 1}`, `{"id": "stall"}`, "0%", "2.7"},
		{"half of it saved", `{"good": 10, "tests": 1}`, `{"id": "stall", "returns": {"returned": "50%", "resold": "100%"}}`, "0%", "1.35"},
		// × 1.1 ÷ 0.9.
		{"with contingency and loss", `{"good": 10, "tests": 1}`, `{"id": "stall", "lost_parcels": "10%"}`, "10%", "3.3"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "contingency": %q,
			"supplies": [{"id": "time", "quantity": "1 h", "price": "20.00", "labour": "own"}],
			"stages": [{"id": "press", "yield": "80%%"}],
			"products": [{"id": "card", "bill": [{"supply": "time", "quantity": "6 min", "stage": "press"}], "run": %s}],
			"channels": [%s], "rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`, c.contingency, c.run, c.channel))
		s := a.Products[0].Channels[0].Statement
		if !s.OwnTime.Equal(quoin.MustAmount(c.want)) || !s.Goods.Equal(s.OwnTime) {
			t.Errorf("%s: %s of own time in goods of %s, want %s, which is all there is", c.what, s.OwnTime, s.Goods, c.want)
		}
	}
}
