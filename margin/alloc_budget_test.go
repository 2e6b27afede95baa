//go:build !race

package margin_test

import (
	"math/bits"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// The race detector drops now and then what is pooled, and counts differ under it:
// budgets are held without it.

// budgeted is a shop, and how often its takings and a statement may allocate.
type budgeted struct {
	what        string
	orders      []channel.Order
	fees        []channel.Fee
	goods       quoin.Amount
	takings, at float64
}

// Deciding settles orders at thousands of prices. By a plan, settling one and adding
// up all kinds takes no memory, whatever the shop. Takings and statements are
// decimals: dividing allocates, and what comes out without an end has 34 digits, more
// than an amount has room for in itself. Their ceilings are what was measured when
// they were written down; whoever needs more raises them, and knows why. The shops
// are invented, those of a printer of marsh birds.
func TestAllocationsStayWithinBudgets(t *testing.T) {
	if bits.UintSize != 64 {
		t.Skip("budgets are those of machines with 64 bits")
	}
	share := func(s string) quoin.Optional[quoin.Rate] { return quoin.Some(quoin.MustRate(s)) }
	alike := []channel.Order{posted(quoin.Optional[quoin.Rate]{}, 1)}
	oneOrThree := []channel.Order{posted(share("50%"), 1), posted(share("50%"), 3)} // 2 items on average
	oneOrTwo := []channel.Order{posted(share("60%"), 1), posted(share("40%"), 2)}   // 1.4
	fees := []channel.Fee{
		{Name: "selling", Rate: quoin.MustRate("6%")},
		{Name: "payment", Rate: quoin.MustRate("2.3%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: quoin.MustAmount("0.15")},
	}
	advertised := append(fees[:2:2], channel.Fee{Name: "advertised sale", Rate: quoin.MustRate("13%"), Share: share("10%")})
	short, long := quoin.MustAmount("2.00"), quoin.MustAmount("7.00").Over(quoin.FactorOf(3))
	for _, shop := range []budgeted{
		{"one kind of order", alike, fees, short, 0, 0},
		{"one kind, goods without an end", alike, fees, long, 0, 18},
		{"two kinds", oneOrThree, fees, short, 8, 10},
		{"two kinds, goods without an end", oneOrThree, fees, long, 8, 39},
		{"two kinds, items that leave a rest", oneOrTwo, fees, short, 12, 30},
		{"two kinds, a fee on some sales", oneOrThree, advertised, short, 10, 12},
	} {
		t.Run(shop.what, shop.hold)
	}
}

// posted is a kind of order by post.
func posted(share quoin.Optional[quoin.Rate], items int64) channel.Order {
	return channel.Order{Share: share, Items: items, Shipping: quoin.MustAmount("4.50"), Postage: quoin.MustAmount("6.20")}
}

func (b budgeted) hold(t *testing.T) {
	shop := channel.Channel{Tax: channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true, OnShipping: true}, Orders: b.orders, Fees: b.fees}
	terms := shop.Terms(quoin.MustCurrency("EUR"))
	plan, ok := terms.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	sale := margin.NewSale(terms, margin.Goods{PerItem: b.goods})
	sale.FixedCost, sale.Overhead, sale.IncomeTax = quoin.MustAmount("1.00"), quoin.MustAmount("2.50"), quoin.MustRate("25%")
	price := quoin.MustAmount("24.00")
	for _, row := range []struct {
		what   string
		do     func()
		atMost float64
	}{
		{"settling", func() { plan.Settle(len(b.orders)-1, 2400) }, 0},
		{"adding up", func() { plan.Sums(2400) }, 0},
		{"takings", func() { terms.Proceeds(price) }, b.takings},
		{"a statement", func() { sale.At(price) }, b.at},
	} {
		n := testing.AllocsPerRun(200, row.do)
		t.Logf("%s: %v of %v allocations", row.what, n, row.atMost)
		if n > row.atMost {
			t.Errorf("%s allocates %v times, and is to do so %v times at most", row.what, n, row.atMost)
		}
	}
}
