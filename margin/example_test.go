package margin_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

// The figures are those of an invented artist who sells linocuts of marsh birds;
// all fees, tax rates and prices are invented.

var exampleSupplies = []cost.Supply{
	{ID: "paper", Quantity: quoin.MustQuantity("50 sheet"), Price: quoin.MustAmount("62.00"), Freight: quoin.MustAmount("6.90")},
	{ID: "mailer", Quantity: quoin.MustQuantity("25 mailer"), Price: quoin.MustAmount("20.00")},
}

// exampleRecipe is half a sheet for each print, of which one in five spoils; two
// tests and a set-up of 6.00 for a run of 40; and a mailer for each parcel.
func exampleRecipe() margin.Recipe {
	costs, err := cost.UnitCosts(exampleSupplies)
	if err != nil {
		panic(err)
	}
	return margin.Recipe{
		Costs:     costs,
		Route:     waste.Route{{ID: "print", Yield: quoin.MustRate("80%")}},
		Bill:      cost.Bill{{Supply: "paper", Quantity: quoin.MustQuantity("0.5 sheet"), Stage: "print"}},
		Packing:   cost.Bill{{Supply: "mailer", Quantity: quoin.MustQuantity("1 mailer"), Per: cost.EachOrder}},
		Run:       cost.Run{Good: 40, Tests: 2, Setup: quoin.MustAmount("6.00")},
		Allowance: waste.Allowance{Contingency: quoin.MustRate("4%")},
	}
}

// exampleSale keeps to whole figures: goods of 2.00, shipping of 4.00 charged and
// 5.00 paid, a fee of 5% of the items and 0.30; a stand for 1.00 and overhead of
// 2.50 for each print; and a quarter of the income goes to tax.
func exampleSale() margin.Sale {
	shop := channel.Channel{
		ID: "own-shop", Orders: []channel.Order{{Shipping: quoin.MustAmount("4.00"), Postage: quoin.MustAmount("5.00")}},
		Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("5%"), Fixed: quoin.MustAmount("0.30")}},
	}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("2.00")})
	sale.FixedCost, sale.Overhead, sale.IncomeTax = quoin.MustAmount("1.00"), quoin.MustAmount("2.50"), quoin.MustRate("25%")
	return sale
}

// A print at 24.00 brings 24.00 + 4.00; the fee is 24.00 × 0.05 + 0.30 = 1.50.
//
//	28.00 − 2.00               = 26.00 gross
//	26.00 − 1.50 − 5.00 − 1.00 = 18.50 contribution
//	18.50 − 2.50               = 16.00 operating
//	16.00 − 4.00               = 12.00 net
func Example() {
	st := exampleSale().At(quoin.MustAmount("24.00"))
	fmt.Printf("revenue %.2f, goods %.2f, gross %.2f\n", st.Revenue, st.Goods, st.Gross)
	fmt.Printf("fees %.2f, fulfilment %.2f, fixed cost %.2f, contribution %.2f\n", st.Fees, st.Fulfilment, st.FixedCost, st.Contribution)
	fmt.Printf("overhead %.2f, operating %.2f, income tax %.2f, net %.2f\n", st.Overhead, st.Operating, st.IncomeTax, st.Net)
	// Output:
	// revenue 28.00, goods 2.00, gross 26.00
	// fees 1.50, fulfilment 5.00, fixed cost 1.00, contribution 18.50
	// overhead 2.50, operating 16.00, income tax 4.00, net 12.00
}

// 26.00 and 12.00 of 28.00; and 26.00 on goods of 2.00.
func ExampleStatement() {
	st := exampleSale().At(quoin.MustAmount("24.00"))
	gross, _ := st.GrossMargin()
	net, _ := st.NetMargin()
	markup, _ := st.Markup()
	fmt.Println(gross.Round(1), net.Round(1), markup)
	_, ok := margin.Statement{}.GrossMargin()
	fmt.Println(ok)
	// Output:
	// 92.9% 42.9% 1300%
	// false
}

// A sheet is 68.90 ÷ 50 = 1.378, half of it 0.689.
//
//	paper   0.689 ÷ 0.80             = 0.86125
//	run     (2 × 0.689 + 6.00) ÷ 40  = 0.18445
//	item    0.86125 + 0.18445        = 1.0457
//	order   a mailer                 = 0.80
//	of one  (1.0457 + 0.80) × 1.04   = 1.919528
//	of two  (2.0914 + 0.80) × 1.04   = 3.007056
func ExampleRecipe_Goods() {
	goods, err := exampleRecipe().Goods()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.5f %.5f %.2f\n", goods.Run, goods.PerItem, goods.PerOrder)
	fmt.Printf("%.6f %.6f\n", goods.Order(1), goods.Order(2))
	// Output:
	// 0.18445 1.04570 0.80
	// 1.919528 3.007056
}

// Half the orders are of one print and half of three: four prints in two orders
// cost 2 × 0.80 for mailers and 4 × 2.00, so each 2.40.
func ExampleNewSale() {
	half := quoin.Some(quoin.MustRate("50%"))
	shop := channel.Channel{Orders: []channel.Order{{Share: half}, {Share: half, Items: 3}}}
	goods := margin.Goods{PerItem: quoin.MustAmount("2.00"), PerOrder: quoin.MustAmount("0.80")}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), goods)
	fmt.Printf("%.2f %.2f, each %.2f\n", sale.Goods[0].Cost, sale.Goods[1].Cost, sale.GoodsPerItem())
	fmt.Printf("%.2f\n", sale.WithCheaperGoods(quoin.MustAmount("0.40")).GoodsPerItem())
	// Output:
	// 2.80 6.80, each 2.40
	// 2.00
}

// One sale in ten pays 13% for advertising: 0.312 of 24.00 on average, and 3.12
// when it does.
func ExampleSale_Worst() {
	shop := channel.Channel{Fees: []channel.Fee{{Name: "advertised sale", Rate: quoin.MustRate("13%"), Share: quoin.Some(quoin.MustRate("10%"))}}}
	sale := margin.NewSale(shop.Terms(quoin.MustCurrency("EUR")), margin.Goods{PerItem: quoin.MustAmount("2.00")})
	price := quoin.MustAmount("24.00")
	fmt.Printf("%.2f\n", sale.At(price).Contribution)
	for _, one := range sale.Worst() {
		fmt.Printf("%.2f\n", one.At(price).Contribution)
	}
	// Output:
	// 21.69
	// 18.88
}

// A keystone doubles the cost: 8.00 × (1 + 100%).
func ExamplePriceForMarkup() {
	fmt.Printf("%.2f\n", margin.PriceForMarkup(quoin.MustAmount("8.00"), quoin.MustRate("100%")))
	// Output: 16.00
}

// A margin of 60% of the price leaves 40% for the cost: 8.00 ÷ 0.4.
func ExamplePriceForMargin() {
	price, ok := margin.PriceForMargin(quoin.MustAmount("8.00"), quoin.MustRate("60%"))
	fmt.Println(price, ok)
	_, ok = margin.PriceForMargin(quoin.MustAmount("8.00"), quoin.MustRate("100%"))
	fmt.Println(ok)
	// Output:
	// 20.00 true
	// false
}

// At 20.00, 12.00 stay of 8.00 spent: 150% on the cost, 60% of the price.
func ExampleMarkup() {
	markup, _ := margin.Markup(quoin.MustAmount("8.00"), quoin.MustAmount("20.00"))
	share, _ := margin.Margin(quoin.MustAmount("8.00"), quoin.MustAmount("20.00"))
	fmt.Println(markup, share)
	// Output: 150% 60%
}

func ExampleMargin() {
	share, ok := margin.Margin(quoin.MustAmount("9.00"), quoin.MustAmount("24.00")) // 15.00 of 24.00
	fmt.Println(share, ok)
	_, ok = margin.Margin(quoin.MustAmount("9.00"), quoin.MustAmount("0"))
	fmt.Println(ok)
	// Output:
	// 62.5% true
	// false
}

// A stand for 220.00 that is to leave 50.00 takes 270.00 ÷ 8.00 = 33.75 prints,
// so 34.
func ExampleBreakEven() {
	n, ok := margin.BreakEven(quoin.MustAmount("220.00"), quoin.MustAmount("50.00"), quoin.MustAmount("8.00"))
	fmt.Println(n, n.Round(0, quoin.Up), ok)
	_, ok = margin.BreakEven(quoin.MustAmount("220.00"), quoin.MustAmount("0"), quoin.MustAmount("0"))
	fmt.Println(ok)
	// Output:
	// 33.75 34 true
	// false
}

// StatementLines of a statement, each the value of the step with its code. The
// fee of 5% of 24.00 is 1.20, the goods are those of one print (1.919528), and
// 24.00 − 1.919528 − 1.20 = 20.880472.
func ExampleStatementInputs_Explain() {
	recipe := exampleRecipe()
	ledger := margin.StatementInputs{
		Currency: quoin.MustCurrency("EUR"), Supplies: exampleSupplies, Supply: map[string]int{"paper": 0, "mailer": 1},
		Stages: recipe.Route, Contingency: recipe.Allowance.Contingency, Bill: recipe.Bill, Packing: recipe.Packing, Run: recipe.Run,
		Channel:   channel.Channel{ID: "own-shop", Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("5%")}}},
		ProductAt: quoin.InList("products", 0), ChannelAt: quoin.InList("channels", 0),
	}
	steps := ledger.Explain(quoin.MustAmount("24.00"))
	lines := []quoin.StepCode{margin.StepPerItem, margin.StepPerOrder, margin.StepGoods, margin.StepFees, margin.StepContribution, margin.StepNet}
	for _, line := range lines {
		for _, n := range quoin.Find(steps, func(s quoin.Step) bool { return s.Code == line }) {
			fmt.Println(line, steps[n-1].Value.Round(4))
		}
	}
	fmt.Println(quoin.Replay(steps))
	// Output:
	// goods_per_item 1.0457
	// goods_per_order 0.8000
	// goods 1.9195
	// fees 1.2000
	// contribution 20.8805
	// net 20.8805
	// <nil>
}

// While a price is dragged, a plan gives statements rounded to the cent in a fraction of
// the time; where it cannot tell a rounding, the statement does. Of 24.00 the fee is
// 1.776 + 0.15, so 1.93, and 24.00 − 1.93 − 4.10 = 17.97.
func ExamplePlan() {
	terms := channel.Channel{Fees: []channel.Fee{{Rate: quoin.MustRate("7.4%"), Fixed: quoin.MustAmount("0.15")}}}.Terms(quoin.MustCurrency("EUR"))
	sale := margin.NewSale(terms, margin.Goods{PerItem: quoin.MustAmount("4.10")})
	plan, ok := sale.Plan()
	if !ok {
		fmt.Println("no plan: use Sale.At")
		return
	}
	for _, cents := range []uint64{1200, 1800, 2400} {
		if c, sure := plan.At(cents); sure {
			fmt.Println(cents, c.Fees, c.Contribution)
		}
	}
	// Output:
	// 1200 104 686
	// 1800 148 1242
	// 2400 193 1797
}
