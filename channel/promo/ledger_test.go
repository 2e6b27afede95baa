package promo_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
)

// Seven prints at 10.00, 70.00: three for two frees two of seven; a sale at 6.00 takes what is above
// 42.00; 0.25% of the rest is rounded down from a half; and an amount takes at most what is left. An
// offer that takes nothing off makes no step.
func TestLedger(t *testing.T) {
	offers := []promo.Offer{
		{ID: "three", Name: "three for two", Buy: 3, Free: 1},
		{ID: "late", Amount: amount("5.00"), From: amount("100.00")},
		{ID: "sale", Sale: price("6.00")},
		{ID: "club", Rate: rate("0.25%"), Rounding: quoin.HalfDown},
		{ID: "gift", Amount: amount("75.005")},
	}
	trail := quoin.NewTrail(12)
	given := func(name, a string) quoin.Operand {
		return quoin.Given(name, quoin.InField(name), amount(a).Figure())
	}
	at := func(i int) quoin.Path { return quoin.InList("promotions", i+1) }
	left := promo.Explain(trail, at, given("items", "70.00"), given("unit", "10.00"), quoin.FactorOf(7).Named("count"), offers, 2)
	trail.Sum("after", quoin.Path{}, left)
	steptest.Ledger(t, "all kinds", trail.Steps(), `
		// 7 ÷ 3 is 2 times three; 70 × 2 ÷ 7
		1 offer_multiples @promotions[1] (three for two): quotient count 7, buy @promotions[1].buy 3 = 2.333333333333 down 2
		2 offer_free_items @promotions[1] (three for two): product offer_multiples #1 2, free @promotions[1].free 1 = 2
		3 offer_off @promotions[1] (three for two): quotient items @items 70.00, offer_free_items #2 2, count 7 = 20.00 half_up 20.00
		4 offer_left @promotions[1] (three for two): sum items @items 70.00, offer_off #3 −20.00 = 50.00
		// 50 − 7 × 6
		5 offer_at_sale @promotions[3] (sale): product sale @promotions[3].sale 6.00, count 7 = 42.00
		6 offer_off @promotions[3] (sale): sum offer_left #4 50.00, offer_at_sale #5 −42.00 = 8.00 half_up 8.00
		7 offer_left @promotions[3] (sale): sum offer_left #4 50.00, offer_off #6 −8.00 = 42.00
		8 offer_off @promotions[4] (club): product offer_left #7 42.00, rate @promotions[4].rate 0.25% = 0.105 half_down 0.10
		9 offer_left @promotions[4] (club): sum offer_left #7 42.00, offer_off #8 −0.10 = 41.90
		10 offer_off @promotions[5] (gift): least amount @promotions[5].amount 75.005, offer_left #9 41.90 = 41.90 half_up 41.90
		11 offer_left @promotions[5] (gift): sum offer_left #9 41.90, offer_off #10 −41.90 = 0.00
		12 after: sum offer_left #11 0.00 = 0.00`)
}

// Free items of one product: of each three the third, and of what is left none.
func TestFreeOf(t *testing.T) {
	three := promo.Offer{ID: "x", Buy: 3, Free: 1}
	five := promo.Offer{ID: "x", Buy: 5, Free: 2}
	for _, c := range []struct {
		offer promo.Offer
		count int64
		want  int64
	}{
		{three, 0, 0},
		{three, 2, 0},
		{three, 3, 1},
		{three, 5, 1},
		{three, 7, 2},
		{five, 4, 0},
		{five, 5, 2},
		{five, 9, 2},
		{five, 10, 4},
		{three, -3, 0},
		{promo.Offer{ID: "x", Rate: rate("10%"), Buy: 3, Free: 1}, 3, 0}, // the first of several holds
		{promo.Offer{ID: "x", Sale: price("1")}, 3, 0},
	} {
		if got := c.offer.FreeOf(c.count); got != c.want {
			t.Errorf("%s of %d: %d free, want %d", c.offer, c.count, got, c.want)
		}
	}
}

// Sets and roundings by hand.
func TestSetsByHand(t *testing.T) {
	pair := func(at string) []promo.Offer {
		return []promo.Offer{{ID: "pair", Price: price(at), Products: []string{"bittern", "rail"}}}
	}
	up := pair("0")
	for _, c := range []struct {
		what     string
		lines    []promo.BasketLine
		offers   []promo.Offer
		off, net string
	}{
		// A set at 25: one with the rail at 12 saves 7, two with those at 10 save 5 each. 17 by 60 : 12 : 20.
		{"as many as there are of the scarcer", []promo.BasketLine{line("bittern", 3, "20"), line("rail", 1, "12"), line("rail", 5, "10")}, pair("25"), "11.09 2.22 3.69", "105.00"},
		// 11.00 for three rails are 3.6667 each: 8.6667 in the set, of which no more than 8.66 can go. 3.6638 and 4.9962.
		{"a cent less than the items come to", []promo.BasketLine{line("rail", 3, "3.667"), line("bittern", 1, "5")}, up, "3.66 5.00", "7.34"},
		{"sets that save nothing", []promo.BasketLine{line("bittern", 2, "20"), line("rail", 2, "5")}, pair("25"), "0.00 0.00", "50.00"},
		{"a set of one", []promo.BasketLine{line("rail", 2, "20")}, []promo.Offer{{ID: "x", Price: price("1"), Products: []string{"rail"}}}, "0.00", "40.00"},
		{"a third of a cent", []promo.BasketLine{line("card", 1, "0.334")}, nil, "", "0.33"},
		{"half a cent", []promo.BasketLine{line("card", 1, "0.335")}, nil, "", "0.34"},
	} {
		b := promo.Apply(c.lines, c.offers, 2)
		if got := offs(b); got != c.off || !b.Net.Equal(amount(c.net)) {
			t.Errorf("%s: %s off, net %s, want %s, %s", c.what, got, b.Net, c.off, c.net)
		}
	}
}

func TestProblemsTold(t *testing.T) {
	for _, c := range []struct {
		offer promo.Offer
		want  string
	}{
		{promo.Offer{ID: "x"}, "fault found an offer that takes nothing off, wanted exactly one of rate, amount, buy and free, price, sale [missing_discount]"},
		{promo.Offer{ID: "x", Rate: rate("10%"), Amount: amount("5"), Sale: price("1")}, "fault amount: found rate, amount, sale together, wanted exactly one of rate, amount, buy and free, price, sale [several_discounts]"},
		{promo.Offer{ID: "x", Free: 2}, "fault buy: found nothing, wanted of how many items 2 are free [bad_multi_buy]"},
		{promo.Offer{ID: "x", Buy: 4}, "fault free: found nothing, wanted how many of 4 items are free [bad_multi_buy]"},
		{promo.Offer{ID: "x", Buy: 4, Free: 4}, "fault free: found 4, wanted fewer than the 4 of buy [bad_multi_buy]"},
		{promo.Offer{ID: "x", Price: price("5"), Products: []string{"rail", "rail"}}, `fault products: found 1, wanted at least two products to make a set of [bad_set]
fault products[1]: found "rail" twice, wanted one of each product of a set [bad_set]`},
		{promo.Offer{ID: "x", Rate: rate("101%")}, "fault rate: found 101%, wanted a value above 0% and at most 100% [out_of_range]"},
	} {
		if got := problemtest.Told(c.offer.Check()); got != c.want {
			t.Errorf("%v:\n%s\nwant\n%s", c.offer, got, c.want)
		}
	}
}
