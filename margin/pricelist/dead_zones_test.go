package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// 6% up to 12.00, 14% of the whole above: 12.01 to 13.11 keep less than the 11.28 of
// 12.00, as 13.12 − 1.84 = 11.28 does not (see TestCliffOfTheCommission).
func TestDeadZonesNextToThePrice(t *testing.T) {
	for _, c := range []struct{ price, want string }{
		{"9.00", "- - 12.01–13.11"},
		{"12.00", "- - 12.01–13.11"},
		{"12.01", "- 12.01–13.11 -"},
		{"13.11", "- 12.01–13.11 -"},
		{"13.12", "12.01–13.11 - -"},
		{"14.00", "12.01–13.11 - -"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
			"channels": [{"id": "shop", "fees": [{"name": "commission", "tier_mode": "whole", "tiers": [{"from": "0", "rate": "6%%"}, {"from": "12.01", "rate": "14%%"}]}]}],
			"rules": [{"id": "from", "rule": "price", "at_least": %q}]}`, c.price))
		if got := zonesBeside(a.Products[0].ByChannel.Channels()[0]); got != c.want {
			t.Errorf("at %s: %s, want %s", c.price, got, c.want)
		}
	}
}

// A fee of 1.50 below 10.00 and of 3.00 from there on: 9.99 keeps 8.49, 10.00 to 11.48 keep 7.00 to 8.48, and 11.49
// keeps 8.49. Two in an order are charged by what both come to: 4.99 keeps 4.24 of each, 5.00 to 5.73 keep 3.50 to 4.23.
// Where tiers add up, 4.50 are taken from 10.00 on: 12.98 keeps 8.48.
func TestDeadZoneOfAFixedTier(t *testing.T) {
	for _, c := range []struct{ what, fee, items, want string }{
		{"whole", `"tier_mode": "whole"`, "1", "- - 10.00–11.48"},
		{"two in an order", `"tier_mode": "whole"`, "2", "- - 5.00–5.73"},
		{"each of two", `"tier_mode": "whole", "per": "item"`, "2", "- - 10.00–11.48"},
		{"marginal", `"tier_mode": "marginal"`, "1", "- - 10.00–12.98"},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}], "channels": [{"id": "shop", "orders": [{"items": %s}],
			"fees": [{"name": "sale", %s, "tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "fixed": "3.00"}]}]}],
			"rules": [{"id": "from", "rule": "price", "at_least": "4.50"}]}`, c.items, c.fee))
		if got := zonesBeside(a.Products[0].ByChannel.Channels()[0]); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

func zonesBeside(s pricelist.InChannel) string {
	out := []string{"-", "-", "-"}
	if s.Below != nil {
		out[0] = fmt.Sprintf("%.2f–%.2f", s.Below.First, s.Below.Last)
	}
	if s.Inside != nil {
		out[1] = fmt.Sprintf("%.2f–%.2f", s.Inside.First, s.Inside.Last)
	}
	if s.Above != nil {
		out[2] = fmt.Sprintf("%.2f–%.2f", s.Above.First, s.Above.Last)
	}
	return strings.Join(out, " ")
}

// Of several zones the nearest counts on either side: postage of 6.00 that is
// charged below 20.00 and below 30.00, by two kinds of order of half each. At
// 25.00 the one from 20.00 on has ended at 22.99, since 3.00 are missed on average.
func TestTheNearestDeadZones(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "60.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "orders": [
			{"share": "50%", "shipping": "6.00", "free_from": "20.00"}, {"share": "50%", "shipping": "6.00", "free_from": "30.00"}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "25.00"}]}`)
	// From 30.00 on another 3.00 are missed, until 32.99.
	if got, want := zonesBeside(a.Products[0].ByChannel.Channels()[0]), "20.00–22.98 - 30.00–32.98"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// What a zone is depends on the prices that there are.
func TestDeadZonesOfCoarsePrices(t *testing.T) {
	for _, c := range []struct{ what, step, channel, want string }{
		// Postage of 0.50 is free from 20.00 on. At cents 19.99 keeps 20.49, and so does 20.49 again.
		{"cents", "0.01", `"orders": [{"shipping": "0.50", "free_from": "20.00"}]`, "- - 20.00–20.48"},
		// From 19.00 to 20.00 the price brings 1.00, and the postage takes 0.50: nothing is lost.
		{"a step that outweighs the drop", "1.00", `"orders": [{"shipping": "0.50", "free_from": "20.00"}]`, "- - -"},
		// 19.00 keeps 22.50, 20.00 20.00, 22.00 22.00, and 23.00 is more.
		{"a step that does not", "1.00", `"orders": [{"shipping": "3.50", "free_from": "20.00"}]`, "- - 20.00–22.00"},
		// The half of 0.50 from 20.00 on is nothing beside a step of 1.00, and hides no zone behind it:
		// 24.00 keeps 27.00, 25.00 keeps 25.00, up to 26.00.
		{
			"one behind another that is none", "1.00", `"orders": [{"share": "50%", "shipping": "0.50", "free_from": "20.00"}, {"share": "50%", "shipping": "6.00", "free_from": "25.00"}]`,
			"- - 25.00–26.00",
		},
		// Prices that can be asked every 5.00, and a code of 8.00 from 20.00 on: up to 17.49 is asked as
		// 15.00 and keeps that; 17.50 to 22.49 as 20.00, less 8.00; 22.50 as 25.00, less 8.00.
		{
			"price points", "0.01", `"price_points": {"step": "5.00"}, "orders": [{"codes": ["eight"]}], "promotions": [{"id": "eight", "amount": "8.00", "from": "20.00"}]`,
			"- - 17.50–22.49",
		},
		{
			"price points and a step of 1.00", "1.00", `"price_points": {"step": "5.00"}, "orders": [{"codes": ["eight"]}], "promotions": [{"id": "eight", "amount": "8.00", "from": "20.00"}]`,
			"- - 18.00–22.00",
		},
		// A code of 3.00 takes less than the 5.00 from point to point: 20.00 keeps 17.00.
		{
			"price points that outweigh the drop", "0.01", `"price_points": {"step": "5.00"}, "orders": [{"codes": ["three"]}], "promotions": [{"id": "three", "amount": "3.00", "from": "20.00"}]`,
			"- - -",
		},
	} {
		a := decidedShop(t, fmt.Sprintf(`{"version": 1, "currency": "EUR", "price_step": %q, "price_limit": "60.00", "products": [{"id": "card", "price": "10.00"}],
			"channels": [{"id": "shop", %s}]}`, c.step, c.channel))
		if got := zonesBeside(a.Products[0].ByChannel.Channels()[0]); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// Two fees of 10% both round up at 10.05: 10.04 keeps 8.04, 10.05 keeps 8.03, and
// from 10.06 on each takes 20%. At 10.05 the zone still begins above.
func TestDeadZoneAboveACentOfRounding(t *testing.T) {
	fee := `{"name": "fee", "tier_mode": "whole", "tiers": [{"from": "0", "rate": "10%"}, {"from": "10.06", "rate": "20%"}]}`
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00", "products": [{"id": "card"}],
		"channels": [{"id": "shop", "fees": [`+fee+`, `+fee+`]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "10.05"}]}`)
	if got := zonesBeside(a.Products[0].ByChannel.Channels()[0]); !strings.HasPrefix(got, "- - 10.06") {
		t.Errorf("at 10.05: %s", got)
	}
}

// A code of 1.42 at the maker's cost eats a price below it whole, and the house pays 80% of the price before it: 1.00
// keeps 0.80 − 1.00 = −0.20, 1.50 keeps 1.20 − 1.42 = −0.22, and 2.00 keeps 1.60 − 1.42 = 0.18. What is kept falls from
// one price to the next before the line of the code breaks, and where it does.
func TestDeadZoneBehindPricesThatFall(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_step": "0.50", "price_limit": "9.00", "choose": "least",
		"products": [{"id": "card"}], "channels": [{"id": "house", "orders": [{"codes": ["CURLEW"]}], "promotions": [{"id": "CURLEW", "amount": "1.42"}],
			"on_demand": {"pays": "royalty", "rate": "80%", "codes_from_maker": true, "sizes": [{"product": "card"}]}}]}`)
	zones := a.Products[0].Channels[0].DeadZones
	if len(zones) != 1 || zones[0].First.String() != "1.50" || zones[0].Last.String() != "1.50" || zones[0].Again.String() != "2.00" {
		t.Errorf("%v", zones)
	}
}
