package rule_test

import (
	"sync"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// One sale in ten pays a fee of half. On average 95% of the price stay, so 9.50 from 10.00
// on; where the fee is charged half stays, so from 19.00 on. Whoever asks first, and however
// many at once, a shelf gives both.
func TestShelfKnowsTheWorstCase(t *testing.T) {
	shop := channel.Channel{ID: "shop", Fees: []channel.Fee{{Rate: quoin.MustRate("50%"), Share: quoin.Some(quoin.MustRate("10%"))}}}
	terms := shop.Terms(quoin.MustCurrency("EUR"))
	grid, err := quoin.NewGrid(amount("0.01"), amount("40.00"))
	if err != nil {
		t.Fatal(err)
	}
	shelf := rule.CompileChannel(terms, grid)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			it := rule.Item{ID: "bittern-a5", Grid: grid, Offers: []rule.Offer{shelf.Offer(margin.NewSale(terms, margin.Goods{}))}}
			for _, c := range []struct {
				in    rule.Scope
				least string
			}{{rule.Average, "10.00"}, {rule.Worst, "19.00"}} {
				r := rule.Rule{ID: "nine and a half", Kind: rule.Contribution{AtLeast: amount("9.50"), AskedOf: c.in}}
				set, err := r.Allowed(it)
				if least, _ := set.Least(); err != nil || !least.Equal(amount(c.least)) {
					t.Errorf("%s: from %v, %v, want %s", c.in, least, err, c.least)
				}
				if below := amount(c.least).Sub(grid.Step()); r.Holds(it, below) || !r.Holds(it, amount(c.least)) {
					t.Errorf("%s: holds at %v, or not above it", c.in, below)
				}
			}
		})
	}
	all.Wait()
}

// A sale comes onto the terms of its shelf, and With leaves an offer on them: goods that
// cost 3.00 less are 3.00 less of price in a channel without fees.
func TestOfferWithAnotherSale(t *testing.T) {
	terms := channel.Channel{ID: "fair"}.Terms(quoin.MustCurrency("EUR"))
	grid, err := quoin.NewGrid(amount("0.01"), amount("40.00"))
	if err != nil {
		t.Fatal(err)
	}
	dear := margin.NewSale(terms, margin.GoodsOnDemand(amount("9.00")))
	offer := rule.CompileChannel(terms, grid).Offer(margin.Sale{Goods: dear.Goods})
	five := rule.Rule{ID: "five", Kind: rule.Contribution{AtLeast: amount("5.00")}}
	for _, c := range []struct {
		offer rule.Offer
		least string
	}{{offer, "14.00"}, {offer.With(dear.WithCheaperGoods(amount("3.00"))), "11.00"}} {
		set, err := five.Allowed(rule.Item{ID: "rail", Grid: grid, Offers: []rule.Offer{c.offer}})
		if least, _ := set.Least(); err != nil || !least.Equal(amount(c.least)) || c.offer.Channel != "fair" {
			t.Errorf("%s: from %v, %v, want %s", c.offer.Channel, least, err, c.least)
		}
	}
}
