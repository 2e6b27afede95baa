package margin_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// What a person reads where a value is printed: 24.00 less a tenth and goods of 6.00.
func TestSaid(t *testing.T) {
	shop := channel.Channel{ID: "shop", Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("10%")}}}
	terms := shop.Terms(quoin.MustCurrency("EUR"))
	goods := margin.Goods{PerItem: quoin.MustAmount("6.00")}
	sale := margin.NewSale(terms, goods)
	plan, ok := sale.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	cents, _ := plan.At(2400)
	grid, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		value any
		want  string
	}{
		{sale.At(quoin.MustAmount("24.00")), "revenue 24.00, goods 6.00, gross 18.00, fees 2.40, contribution 15.60, operating 15.60, net 15.60"},
		{margin.Statement{}, "nothing"},
		{cents, "revenue 2400, goods 600, gross 1800, fees 240, fulfilment 0, fixed cost 0, contribution 1560, overhead 0, operating 1560, income tax 0, net 1560"},
		{sale, `sale in "shop" of goods for 6.00`},
		{goods, "goods of an item 6.00"},
		{margin.OrderGoods{Cost: quoin.MustAmount("6.20"), Making: quoin.MustAmount("5.00")}, "goods of an order 6.20, making them 5.00"},
		{margin.Goods{PerOrder: quoin.MustAmount("0.80")}, "goods of an order 0.80"},
		{margin.Making{}, "nothing"},
		{&margin.Plan{}, "no plan"},
		{margin.Point{Price: quoin.MustAmount("24.00"), Statement: margin.Statement{Net: quoin.MustAmount("2.00")}}, "24.00: net 2.00"},
		{margin.Labour{PerItem: quoin.MustAmount("0.50"), PerOrder: quoin.MustAmount("1.50")}, "time of an item 0.50, time of an order 1.50"},
		{margin.Recipe{}, "recipe of 0 lines, and 0 of packing"},
		{margin.PackingList{Name: "tubes"}, `"tubes" of 0 lines in 1 parcels`},
		{sale.Curve(grid)[0], "0.01 to 40.00"},
		{margin.StatementInputs{Channel: shop}, `ledger of 0 lines in "shop"`},
		{plan, "plan of a sale"},
	} {
		if got := fmt.Sprint(c.value); got != c.want {
			t.Errorf("%T: %s, want %s", c.value, got, c.want)
		}
	}
	if text := fmt.Sprintf("%v %v %v", sale, *plan, margin.Making{}); strings.Contains(text, "0x") {
		t.Errorf("prints %s", text)
	}
}
