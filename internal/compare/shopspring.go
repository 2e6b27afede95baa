package compare

import "github.com/shopspring/decimal"

type shopspringFee struct{ rate, fixed decimal.Decimal }

type shopspringChannel struct {
	keep, tax, onePlus, commission decimal.Decimal
	payment                        shopspringFee
	shipping, freeFrom, postage    decimal.Decimal
	inPrice                        bool
}

// ofShopspring is shopspring/decimal. Its Round is half away from zero.
func ofShopspring() Peer {
	var fees [3]shopspringFee
	for i, f := range Settlement() {
		fees[i] = newShopspringFee(f)
	}
	table, costs := shopspringTable(), shopspringCosts()
	return Peer{
		Name: "shopspring",
		Settle: func(cents int64) int64 {
			price := decimal.New(cents, -2)
			net := price
			for i := range fees {
				net = net.Sub(fees[i].of(price))
			}
			return net.Shift(2).IntPart()
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := decimal.New(cents, -2)
				for c := range table {
					out[s*Channels+c] = table[c].left(price).Sub(costs[s]).Shift(2).IntPart()
				}
			}
			return out
		},
	}
}

func newShopspringFee(f Fee) shopspringFee {
	return shopspringFee{decimal.New(f.PerMille, -3), decimal.New(f.Fixed, -2)}
}

func (f *shopspringFee) of(base decimal.Decimal) decimal.Decimal {
	return base.Mul(f.rate).Add(f.fixed).Round(2)
}

func shopspringCosts() (out [Sizes]decimal.Decimal) {
	for i, cost := range Costs() {
		out[i] = decimal.New(cost, -2)
	}
	return out
}

func shopspringTable() (out [Channels]shopspringChannel) {
	for i, c := range Table() {
		out[i] = shopspringChannel{
			keep: decimal.New(1000-c.Discount, -3), tax: decimal.New(c.Tax, -3), onePlus: decimal.New(1000+c.Tax, -3),
			commission: decimal.New(c.Commission, -3), payment: newShopspringFee(c.Payment),
			shipping: decimal.New(c.Shipping, -2), freeFrom: decimal.New(c.FreeFrom, -2), postage: decimal.New(c.Postage, -2),
			inPrice: c.InPrice,
		}
	}
	return out
}

func (c *shopspringChannel) left(list decimal.Decimal) decimal.Decimal {
	items := list.Mul(c.keep).Round(2)
	paid := items
	if items.LessThan(c.freeFrom) {
		paid = paid.Add(c.shipping)
	}
	tax := paid.Mul(c.tax)
	if c.inPrice {
		tax = tax.DivRound(c.onePlus, 2)
	} else {
		tax = tax.Round(2)
		paid = paid.Add(tax)
	}
	commission, payment := items.Mul(c.commission).Round(2), c.payment.of(paid)
	return paid.Sub(tax).Sub(commission).Sub(payment).Sub(c.postage)
}
