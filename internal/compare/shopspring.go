package compare

import "github.com/shopspring/decimal"

// ofShopspring is shopspring/decimal. Its Round is half away from zero.
func ofShopspring() Peer {
	of := func(n int64, places int) decimal.Decimal { return decimal.New(n, int32(-places)) }
	return decimals[decimal.Decimal](of).peer("shopspring", shopspringNet, shopspringLeft)
}

func shopspringFee(f *fee[decimal.Decimal], base decimal.Decimal) decimal.Decimal {
	return base.Mul(f.rate).Add(f.fixed).Round(2)
}

func shopspringNet(fees *[3]fee[decimal.Decimal], price decimal.Decimal) int64 {
	net := price
	for i := range fees {
		net = net.Sub(shopspringFee(&fees[i], price))
	}
	return net.Shift(2).IntPart()
}

func shopspringLeft(t *terms[decimal.Decimal], list, cost decimal.Decimal) int64 {
	items := list.Mul(t.keep).Round(2)
	paid := items
	if items.LessThan(t.freeFrom) {
		paid = paid.Add(t.shipping)
	}
	tax := paid.Mul(t.tax)
	if t.inPrice {
		tax = tax.DivRound(t.onePlus, 2)
	} else {
		tax = tax.Round(2)
		paid = paid.Add(tax)
	}
	commission, payment := items.Mul(t.commission).Round(2), shopspringFee(&t.payment, paid)
	return paid.Sub(tax).Sub(commission).Sub(payment).Sub(t.postage).Sub(cost).Shift(2).IntPart()
}
