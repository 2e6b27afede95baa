package compare

import "github.com/govalues/decimal"

type govaluesFee struct{ rate, fixed decimal.Decimal }

type govaluesChannel struct {
	keep, tax, onePlus, commission decimal.Decimal
	payment                        govaluesFee
	shipping, freeFrom, postage    decimal.Decimal
	inPrice                        bool
}

// govaluesSum rounds half up: the library itself rounds half to even only, so
// half a cent is added and the rest cut off. What is rounded is never below zero.
type govaluesSum struct{ half decimal.Decimal }

// ofGovalues is govalues/decimal, of 19 digits.
func ofGovalues() Peer {
	x := govaluesSum{decimal.MustNew(5, 3)}
	var fees [3]govaluesFee
	for i, f := range Settlement() {
		fees[i] = newGovaluesFee(f)
	}
	table, costs := govaluesTable(), govaluesCosts()
	return Peer{
		Name: "govalues",
		Settle: func(cents int64) int64 {
			price := decimal.MustNew(cents, 2)
			net := price
			for i := range fees {
				net = have(net.Sub(x.fee(&fees[i], price)))
			}
			return govaluesCents(net)
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := decimal.MustNew(cents, 2)
				for c := range table {
					out[s*Channels+c] = govaluesCents(have(x.left(&table[c], price).Sub(costs[s])))
				}
			}
			return out
		},
	}
}

func newGovaluesFee(f Fee) govaluesFee {
	return govaluesFee{decimal.MustNew(f.PerMille, 3), decimal.MustNew(f.Fixed, 2)}
}

func govaluesCosts() (out [Sizes]decimal.Decimal) {
	for i, cost := range Costs() {
		out[i] = decimal.MustNew(cost, 2)
	}
	return out
}

func govaluesTable() (out [Channels]govaluesChannel) {
	for i, c := range Table() {
		out[i] = govaluesChannel{
			keep: decimal.MustNew(1000-c.Discount, 3), tax: decimal.MustNew(c.Tax, 3), onePlus: decimal.MustNew(1000+c.Tax, 3),
			commission: decimal.MustNew(c.Commission, 3), payment: newGovaluesFee(c.Payment),
			shipping: decimal.MustNew(c.Shipping, 2), freeFrom: decimal.MustNew(c.FreeFrom, 2), postage: decimal.MustNew(c.Postage, 2),
			inPrice: c.InPrice,
		}
	}
	return out
}

func (x govaluesSum) round(d decimal.Decimal) decimal.Decimal { return have(d.Add(x.half)).Trunc(2) }

func (x govaluesSum) part(a, rate decimal.Decimal) decimal.Decimal { return x.round(have(a.Mul(rate))) }

func (x govaluesSum) fee(f *govaluesFee, base decimal.Decimal) decimal.Decimal {
	return x.round(have(have(base.Mul(f.rate)).Add(f.fixed)))
}

func govaluesCents(d decimal.Decimal) int64 {
	whole, cents, ok := d.Int64(2)
	if !ok {
		panic("too large")
	}
	return whole*100 + cents
}

func (x govaluesSum) left(c *govaluesChannel, list decimal.Decimal) decimal.Decimal {
	items := x.part(list, c.keep)
	paid := items
	if items.Less(c.freeFrom) {
		paid = have(paid.Add(c.shipping))
	}
	var tax decimal.Decimal
	if c.inPrice {
		tax = x.round(have(have(paid.Mul(c.tax)).Quo(c.onePlus)))
	} else {
		tax = x.part(paid, c.tax)
		paid = have(paid.Add(tax))
	}
	commission, payment := x.part(items, c.commission), x.fee(&c.payment, paid)
	left := have(have(paid.Sub(tax)).Sub(commission))
	return have(have(left.Sub(payment)).Sub(c.postage))
}
