package pricelist_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
)

// A print at 20.00, of which any number up to 1,000 may be asked for. At home a run of
// ten costs 120.00 once and each print 3.00; a house asks 2.00. One print short loses
// what it would have kept, had it cost what the house asks, one left over that.
func sourced(t *testing.T, price, asks, contingency, channels string) quoin.Optional[int64] {
	t.Helper()
	a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "100.00", "contingency": %q,
		"supplies": [{"id": "paper", "quantity": "1 sheet", "price": "3.00"}],
		"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}], "run": {"good": 10, "setup": "120.00"},
			"quotes": [{"id": "house", "scale": {"steps": [{"from": 1, "each": %q}]}}], "demand": {"low": 0, "high": 1000}}],
		"channels": [%s], "rules": [{"id": "price", "rule": "price", "at_least": %q}]}`, contingency, asks, channels, price))
	return a.Products[0].Sourcing.Quotes[0].Order
}

func TestHowManyToHaveMade(t *testing.T) {
	const onDemand = `{"id": "demand", "on_demand": {"pays": "royalty", "rate": "10%"}}`
	for _, c := range []struct {
		what, price, asks, contingency, channels string
		want                                     int64 // 0 for no answer
	}{
		// 20.00 − 2.00 is lost by one short, 2.00 by one over: 18 ÷ 20. With the 12.00 that a
		// print bears of the run at home, which a house does not ask, it would be 6 ÷ 8.
		{"without the set-up of a run at home", "20.00", "2.00", "0%", `{"id": "stall"}`, 900},
		// Goods of 4.00 × 1.2 ÷ 0.8 = 6.00: 22.00 − 6.00 is lost by one short, 4.00 by one over.
		{"with contingency and loss", "22.00", "4.00", "20%", `{"id": "post", "lost_parcels": "20%"}`, 800},
		// A channel that prints on demand takes nothing from stock, though it keeps only 2.00.
		{"without a channel that prints on demand", "20.00", "2.00", "0%", `{"id": "stall"}, ` + onDemand, 900},
		{"all channels print on demand", "20.00", "2.00", "0%", onDemand, 0},
		// The least of two channels: a fee of 40% leaves 12.00 − 2.00, of 12.00.
		{"the channel that keeps least", "20.00", "2.00", "0%", `{"id": "stall"}, {"id": "hall", "fees": [{"rate": "40%"}]}`, 834},
		// Half of the prints come back and are sold again: each sale takes half a print, 1.00.
		{"with what comes back", "20.00", "2.00", "0%", `{"id": "stall", "returns": {"returned": "50%", "part": "0%", "resold": "100%"}}`, 905},
	} {
		got, ok := sourced(t, c.price, c.asks, c.contingency, c.channels).Get()
		if got != c.want || ok != (c.want > 0) {
			t.Errorf("%s: %d, %t, want %d", c.what, got, ok, c.want)
		}
	}
}

// 14 prints at 3.39 would cost 47.46; 15 at 2.44 cost 36.60, and are ordered. At home a
// print costs 3.00, so the house is cheaper from 13 on: 12 cost 36.00 at home, and as
// many 36.60 at the house, bought up to 15.
func TestQuotesBuyUp(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "100.00",
		"supplies": [{"id": "paper", "quantity": "1 sheet", "price": "3.00"}],
		"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}], "run": {"good": 14}, "volume": 20,
			"quotes": [{"id": "house", "scale": {"steps": [{"from": 1, "each": "3.39"}, {"from": 15, "each": "2.44"}]}}]}],
		"channels": [{"id": "stall"}], "rules": [{"id": "price", "rule": "price", "at_least": "20.00"}]}`)
	s := a.Products[0].Sourcing
	q := s.Quotes[0]
	if q.Prints != 14 || q.Ordered != 15 || !q.Cost.Equal(quoin.MustAmount("36.60")) || q.Fewest != 15 || !q.Cash.Equal(quoin.MustAmount("36.60")) {
		t.Errorf("%+v, want 15 for 36.60", q)
	}
	if len(s.Stretches) != 2 || s.Stretches[0].To != 12 || s.Stretches[1].From != 13 || s.Stretches[1].Source != "house" {
		t.Fatalf("%+v, want the house from 13 on", s.Stretches)
	}
	if h := s.Stretches[1]; h.Surplus != 2 || !h.First.Equal(quoin.MustAmount("36.60")) || !h.Last.Equal(quoin.MustAmount("48.80")) {
		t.Errorf("%+v, want 36.60 for 13, two more than needed, to 48.80 for 20", h)
	}
}

// What a house asks is taken at the quantity that is ordered, whatever a run at home is of: 200 on average
// at 2.00 from 50 on, of which nine tenths are 280.
func TestHowManyToHaveMadeOnAScale(t *testing.T) {
	for _, run := range []string{``, `"run": {"good": 20}, `, `"run": {"good": 60}, `} {
		a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00",
			"supplies": [{"id": "paper", "quantity": "1 piece", "price": "3.00"}],
			"products": [{"id": "heron", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 piece"}], `+run+`
				"quotes": [{"id": "house", "scale": {"steps": [{"from": 1, "each": "10.00"}, {"from": 50, "each": "2.00"}]}}], "demand": {"low": 100, "high": 300}}],
			"channels": [{"id": "stall"}], "rules": []}`)
		if n, _ := a.Products[0].Sourcing.Quotes[0].Order.Get(); n != 280 {
			t.Errorf("with %s: %d, want 280", run, n)
		}
	}
}
