package compare

import "github.com/quagmt/udecimal"

type udecimalFee struct{ rate, fixed udecimal.Decimal }

type udecimalChannel struct {
	keep, tax, onePlus, commission udecimal.Decimal
	payment                        udecimalFee
	shipping, freeFrom, postage    udecimal.Decimal
	inPrice                        bool
}

// ofUdecimal is quagmt/udecimal, with 19 places.
func ofUdecimal() Peer {
	var fees [3]udecimalFee
	for i, f := range Settlement() {
		fees[i] = newUdecimalFee(f)
	}
	table, costs := udecimalTable(), udecimalCosts()
	return Peer{
		Name: "udecimal",
		Settle: func(cents int64) int64 {
			price := udecimal.MustFromInt64(cents, 2)
			net := price
			for i := range fees {
				net = net.Sub(fees[i].of(price))
			}
			return udecimalCents(net)
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := udecimal.MustFromInt64(cents, 2)
				for c := range table {
					out[s*Channels+c] = udecimalCents(table[c].left(price).Sub(costs[s]))
				}
			}
			return out
		},
	}
}

func newUdecimalFee(f Fee) udecimalFee {
	return udecimalFee{udecimal.MustFromInt64(f.PerMille, 3), udecimal.MustFromInt64(f.Fixed, 2)}
}

func (f *udecimalFee) of(base udecimal.Decimal) udecimal.Decimal {
	return base.Mul(f.rate).Add(f.fixed).RoundHAZ(2)
}

func udecimalCosts() (out [Sizes]udecimal.Decimal) {
	for i, cost := range Costs() {
		out[i] = udecimal.MustFromInt64(cost, 2)
	}
	return out
}

func udecimalTable() (out [Channels]udecimalChannel) {
	d := udecimal.MustFromInt64
	for i, c := range Table() {
		out[i] = udecimalChannel{
			keep: d(1000-c.Discount, 3), tax: d(c.Tax, 3), onePlus: d(1000+c.Tax, 3),
			commission: d(c.Commission, 3), payment: newUdecimalFee(c.Payment),
			shipping: d(c.Shipping, 2), freeFrom: d(c.FreeFrom, 2), postage: d(c.Postage, 2),
			inPrice: c.InPrice,
		}
	}
	return out
}

func udecimalCents(d udecimal.Decimal) int64 { return have(d.Mul64(100).Int64()) }

func (c *udecimalChannel) left(list udecimal.Decimal) udecimal.Decimal {
	items := list.Mul(c.keep).RoundHAZ(2)
	paid := items
	if items.LessThan(c.freeFrom) {
		paid = paid.Add(c.shipping)
	}
	tax := paid.Mul(c.tax)
	if c.inPrice {
		tax = have(tax.Div(c.onePlus)).RoundHAZ(2)
	} else {
		tax = tax.RoundHAZ(2)
		paid = paid.Add(tax)
	}
	commission, payment := items.Mul(c.commission).RoundHAZ(2), c.payment.of(paid)
	return paid.Sub(tax).Sub(commission).Sub(payment).Sub(c.postage)
}
