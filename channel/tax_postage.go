package channel

import (
	"strconv"

	"example.com/quoin"
)

// TaxedGoods is what goods of one rate of tax come to.
type TaxedGoods struct {
	Amount quoin.Amount
	Rate   quoin.Rate
}

// OnPostage returns the tax on shipping, or in it where prices hold the tax, in an order with goods
// of these rates: by ShippingRate in proportion to them, at the highest of their rates, or at the
// rate of those that come to most. In proportion, the minor units that are left go to the largest
// remainders, and the parts of one rate are taxed together. Rate counts where no goods come to
// anything.
func (t Tax) OnPostage(shipping quoin.Amount, goods []TaxedGoods, places int) quoin.Amount {
	var sum quoin.Amount
	k := kind{source: &noOrder, inPrice: t.InPrice}
	t.Classes = nil
	for i, g := range goods {
		class := strconv.Itoa(i)
		sum = sum.Add(g.Amount)
		t.Classes = append(t.Classes, TaxClass{class, g.Rate})
		k.parts = append(k.parts, taxedPart{TaxedPart: TaxedPart{Name: class, Class: class, Price: g.Amount}, rate: g.Rate})
	}
	e := order{Trail: silent, taxed: &t, k: &k, places: places}
	sent := quoin.Given("shipping", quoin.Path{}, shipping.Figure())
	if sum.Sign() <= 0 {
		return amountOf(e.roundedTax(StepTax, quoin.Path{}, sent, e.serviceRate()))
	}
	none := quoin.Given("no goods", quoin.Path{}, quoin.AmountOf(0, places).Figure())
	return amountOf(e.parted(StepTax, quoin.Path{}, taxed{goods: none, count: quoin.FactorOf(1).Named("one"), shipping: sent, isShipped: true}))
}
