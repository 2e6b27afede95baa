// Command script prices one print for one channel, without any document: what
// it costs, the least price that leaves 8.00, and the statement at that price.
// The fees and prices are invented.
package main

import (
	"errors"
	"fmt"
	"log"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

var amount, rate, quantity = quoin.MustAmount, quoin.MustRate, quoin.MustQuantity

func main() {
	eur := quoin.MustCurrency("EUR")
	recipe := margin.Recipe{
		Costs: must(cost.UnitCosts([]cost.Supply{
			{ID: "paper", Quantity: quantity("50 sheet"), Price: amount("64.00"), Freight: amount("7.40")},
			{ID: "ink", Quantity: quantity("80 ml"), Price: amount("46.00")},
		})),
		Route: waste.Route{{ID: "print", Yield: rate("92%")}},
		Bill: cost.Bill{
			{Supply: "paper", Quantity: quantity("0.5 sheet"), Stage: "print"},
			{Supply: "ink", Quantity: quantity("0.9 ml"), Stage: "print"},
		},
	}
	shop := channel.Channel{
		ID:     "shop",
		Tax:    channel.Tax{Rate: rate("20%"), InPrice: true},
		Orders: []channel.Order{{Shipping: amount("4.50"), Postage: amount("6.20")}},
		Fees:   []channel.Fee{{Rate: rate("2.3%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.27")}},
	}
	floor := rule.Rule{ID: "floor", Kind: rule.Contribution{AtLeast: amount("8.00")}}
	if err := errors.Join(recipe.Check(), shop.Check(eur), floor.Check()); err != nil {
		log.Fatal(err)
	}
	goods := must(recipe.Goods())
	sale := margin.NewSale(shop.Terms(eur), goods)
	prices := must(quoin.NewGrid(eur.Minor(), amount("500.00")))
	price, ok := must(floor.Allowed(rule.NewItem("print", prices, sale))).Least()
	if !ok {
		log.Fatal("no price up to 500.00 leaves 8.00")
	}
	st := sale.At(price)
	fmt.Printf("one print costs %.2f %s\nleast price %s: revenue %.2f, goods %.2f, fees %.2f, fulfilment %.2f, contribution %.2f\n",
		goods.Order(1), eur, price, st.Revenue, st.Goods, st.Fees, st.Fulfilment, st.Contribution)
	fmt.Println("An estimate from invented figures; not tax, legal or accounting advice. Rules differ by place; ask a professional.")
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
