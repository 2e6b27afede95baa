package margin_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

func TestPlansRoundStatements(t *testing.T) {
	sure := 0
	rapid.Check(t, func(t *rapid.T) { sure += plansRoundStatements(t) })
	if sure < 500 {
		t.Errorf("only %d statements were sure", sure)
	}
}

func FuzzPlansRoundStatements(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { plansRoundStatements(t) }))
}

// plansRoundStatements: each line of a plan is the line of the statement, rounded. It returns of how
// many the plan was sure.
func plansRoundStatements(t *rapid.T) (sure int) {
	money := func(name string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 2)
	}
	rate := func(name string, most int64) quoin.Rate {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 3).Share(quoin.AmountOf(1, 0))
	}
	c := channel.Channel{Tax: channel.Tax{Rate: rate("tax", 250), InPrice: rapid.Bool().Draw(t, "in price")}, LostParcels: rate("loss", 50)}
	for range rapid.IntRange(1, 3).Draw(t, "kinds") {
		c.Orders = append(c.Orders, channel.Order{
			Share: quoin.Some(rate("share", 900)), Items: rapid.Int64Range(1, 4).Draw(t, "items"), Shipping: money("shipping", 900), Postage: money("postage", 900),
		})
	}
	for range rapid.IntRange(0, 2).Draw(t, "fees") {
		c.Fees = append(c.Fees, channel.Fee{Rate: rate("fee", 150), Fixed: money("fixed", 60), Share: quoin.Some(rate("charged", 1000))})
	}
	thirds := quoin.FactorOf(rapid.SampledFrom([]int64{1, 2, 3, 7}).Draw(t, "goods are ÷"))
	sale := margin.NewSale(c.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: money("goods", 3000).Over(thirds)})
	sale.FixedCost, sale.Overhead, sale.IncomeTax = money("selling", 300).Over(thirds), money("overhead", 300), rate("income tax", 500)
	plan, ok := sale.Plan()
	if !ok {
		t.Skip("no plan")
	}
	for range 10 {
		cents := rapid.Int64Range(0, 20_000).Draw(t, "price")
		st := sale.At(quoin.AmountOf(cents, 2))
		want := margin.RoundedStatement{
			Revenue: inCents(st.Revenue), Tax: inCents(st.Tax), Goods: inCents(st.Goods), Gross: inCents(st.Gross), Fees: inCents(st.Fees), Fulfilment: inCents(st.Fulfilment),
			FixedCost: inCents(st.FixedCost), Contribution: inCents(st.Contribution), Overhead: inCents(st.Overhead), Operating: inCents(st.Operating), IncomeTax: inCents(st.IncomeTax), Net: inCents(st.Net),
		}
		got, all := plan.At(uint64(cents))
		if all && got != want {
			t.Fatalf("at %d cents: %+v, want %+v", cents, got, want)
		}
		left, one := plan.Contribution(uint64(cents))
		if one && left != want.Contribution || all && !one {
			t.Fatalf("at %d cents: contribution %d, %t, want %d", cents, left, one, want.Contribution)
		}
		if all {
			sure++
		}
	}
	return sure
}

func inCents(a quoin.Amount) int64 {
	n, _ := a.Round(2, quoin.HalfUp).Units(2)
	return n
}

// A plan is unsure only near halves: of exact costs it never is.
func TestPlansOfExactCostsAreSure(t *testing.T) {
	terms := channel.Channel{Fees: []channel.Fee{{Rate: quoin.MustRate("7.4%"), Fixed: quoin.MustAmount("0.15")}}}.Terms(quoin.MustCurrency("EUR"))
	sale := margin.NewSale(terms, margin.Goods{PerItem: quoin.MustAmount("3.125")})
	plan, ok := sale.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	for cents := range uint64(5000) {
		got, sure := plan.At(cents)
		if want := inCents(sale.At(quoin.AmountOf(int64(cents), 2)).Contribution); !sure || got.Contribution != want {
			t.Fatalf("at %d cents: %+v, %t, want %d", cents, got, sure, want)
		}
	}
	if n := testing.AllocsPerRun(100, func() { plan.At(2400) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// Where a cost is cut so near half a cent that the rest of it decides, a plan says that it does
// not know: goods of 1.00500000000003… leave a little less than 0.995 of 2.00.
func TestPlansOfCutCostsAreUnsure(t *testing.T) {
	goods := quoin.AmountOf(30_150_000_000_001, 13).Over(quoin.FactorOf(3))
	sale := margin.NewSale(channel.Channel{}.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: goods})
	plan, ok := sale.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	if got, sure := plan.Contribution(200); sure {
		t.Errorf("it is sure of %d", got)
	}
	if got, sure := plan.At(200); sure {
		t.Errorf("it is sure of %+v", got)
	}
}

// Postage of 1.00 ÷ 0.9 and a fixed cost of 0.035 ÷ 9 are 1.115 together, and leave 0.885 of 2.00:
// each is cut, so both may be off.
func TestPlansOfTwoCutCostsAreUnsure(t *testing.T) {
	shop := channel.Channel{LostParcels: quoin.MustRate("10%"), Orders: []channel.Order{{Postage: quoin.MustAmount("1.00")}}}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{})
	sale.FixedCost = quoin.MustAmount("0.035").Over(quoin.FactorOf(9))
	plan, ok := sale.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	if got, sure := plan.Contribution(200); sure {
		t.Errorf("it is sure of %d", got)
	}
	sale.FixedCost = sale.FixedCost.Add(quoin.MustAmount("0.001"))
	if plan, ok = sale.Plan(); !ok {
		t.Fatal("no plan")
	}
	if got, sure := plan.Contribution(200); !sure || got != 88 { // 0.884
		t.Errorf("%d, sure %t, want 88", got, sure)
	}
}
