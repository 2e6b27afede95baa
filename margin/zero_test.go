package margin_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		margin.Recipe{},
		margin.Making{},
		margin.Goods{},
		margin.Labour{},
		margin.OrderGoods{},
		margin.ItemGoods{},
		margin.PackingList{},
		margin.Sale{},
		margin.Statement{},
		margin.CurvePiece{},
		margin.Point{},
		margin.CurvePoint{},
		margin.StatementLines{},
		margin.Plan{},
		margin.RoundedStatement{},
		margin.StatementInputs{},
		margin.GoodsOnDemand, margin.NewSale, margin.NewPackedSale, margin.PriceForMarkup, margin.PriceForMargin, margin.Markup, margin.Margin, margin.BreakEven,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}

// A sale without goods has them of no kind of order, and leaves what it brings.
func TestSaleWithoutGoods(t *testing.T) {
	terms := channel.Channel{Orders: []channel.Order{{Items: 1}, {Items: 2}}}.Terms(quoin.MustCurrency("EUR"))
	worst := margin.Sale{Terms: terms}.Worst()
	if len(worst) != 2 || !worst[1].At(quoin.MustAmount("12.00")).Gross.Equal(quoin.MustAmount("12.00")) {
		t.Errorf("%d kinds", len(worst))
	}
	if st := (margin.Sale{}).At(quoin.MustAmount("12.00")); fmt.Sprint(st) != fmt.Sprint(margin.Statement{}) {
		t.Errorf("the statement of no sale: %v", st)
	}
}
