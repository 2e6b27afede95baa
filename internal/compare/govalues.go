package compare

import "github.com/govalues/decimal"

// govaluesSum rounds half up: the library itself rounds half to even only, so
// half a cent is added and the rest cut off. What is rounded is never below zero.
type govaluesSum struct{ half decimal.Decimal }

// ofGovalues is govalues/decimal, of 19 digits.
func ofGovalues() Peer {
	x := govaluesSum{decimal.MustNew(5, 3)}
	return decimals[decimal.Decimal](decimal.MustNew).peer("govalues", x.net, x.left)
}

func (x govaluesSum) round(d decimal.Decimal) decimal.Decimal { return have(d.Add(x.half)).Trunc(2) }

func (x govaluesSum) part(a, rate decimal.Decimal) decimal.Decimal { return x.round(have(a.Mul(rate))) }

func (x govaluesSum) fee(f *fee[decimal.Decimal], base decimal.Decimal) decimal.Decimal {
	return x.round(have(have(base.Mul(f.rate)).Add(f.fixed)))
}

func govaluesCents(d decimal.Decimal) int64 {
	whole, cents, ok := d.Int64(2)
	if !ok {
		panic("too large")
	}
	return whole*100 + cents
}

func (x govaluesSum) net(fees *[3]fee[decimal.Decimal], price decimal.Decimal) int64 {
	net := price
	for i := range fees {
		net = have(net.Sub(x.fee(&fees[i], price)))
	}
	return govaluesCents(net)
}

func (x govaluesSum) left(t *terms[decimal.Decimal], list, cost decimal.Decimal) int64 {
	items := x.part(list, t.keep)
	paid := items
	if items.Less(t.freeFrom) {
		paid = have(paid.Add(t.shipping))
	}
	var tax decimal.Decimal
	if t.inPrice {
		tax = x.round(have(have(paid.Mul(t.tax)).Quo(t.onePlus)))
	} else {
		tax = x.part(paid, t.tax)
		paid = have(paid.Add(tax))
	}
	left := have(have(paid.Sub(tax)).Sub(x.part(items, t.commission)))
	left = have(have(left.Sub(x.fee(&t.payment, paid))).Sub(t.postage))
	return govaluesCents(have(left.Sub(cost)))
}
