package compare

import "github.com/cockroachdb/apd/v3"

// apdSum adds up by value: no decimal of it has to be allocated.
type apdSum struct{ apd.Context }

type apdFee struct{ rate, fixed apd.Decimal }

type apdChannel struct {
	keep, tax, onePlus, commission apd.Decimal
	payment                        apdFee
	shipping, freeFrom, postage    apd.Decimal
	inPrice                        bool
}

// ofApd is cockroachdb/apd with decimals as values, at 34 digits.
func ofApd() Peer {
	ctx := apdSum{*apd.BaseContext.WithPrecision(34)}
	ctx.Rounding = apd.RoundHalfUp
	var fees [3]apdFee
	for i, f := range Settlement() {
		fees[i] = newApdFee(f)
	}
	table, costs := apdTable(), apdCosts()
	return Peer{
		Name: "apd",
		Settle: func(cents int64) int64 {
			price := newApd(cents, -2)
			net := price
			for i := range fees {
				fee := ctx.fee(&fees[i], &price)
				have(ctx.Sub(&net, &net, &fee))
			}
			return ctx.cents(&net)
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := newApd(cents, -2)
				for c := range table {
					left := ctx.left(&table[c], &price)
					have(ctx.Sub(&left, &left, &costs[s]))
					out[s*Channels+c] = ctx.cents(&left)
				}
			}
			return out
		},
	}
}

func newApd(n int64, exp int32) (d apd.Decimal) {
	d.SetFinite(n, exp)
	return d
}

func newApdFee(f Fee) apdFee { return apdFee{newApd(f.PerMille, -3), newApd(f.Fixed, -2)} }

func apdCosts() (out [Sizes]apd.Decimal) {
	for i, cost := range Costs() {
		out[i] = newApd(cost, -2)
	}
	return out
}

func apdTable() (out [Channels]apdChannel) {
	for i, c := range Table() {
		out[i] = apdChannel{
			keep: newApd(1000-c.Discount, -3), tax: newApd(c.Tax, -3), onePlus: newApd(1000+c.Tax, -3),
			commission: newApd(c.Commission, -3), payment: newApdFee(c.Payment),
			shipping: newApd(c.Shipping, -2), freeFrom: newApd(c.FreeFrom, -2), postage: newApd(c.Postage, -2),
			inPrice: c.InPrice,
		}
	}
	return out
}

func (x *apdSum) part(a, rate *apd.Decimal) (z apd.Decimal) {
	have(x.Mul(&z, a, rate))
	have(x.Quantize(&z, &z, -2))
	return z
}

func (x *apdSum) fee(f *apdFee, base *apd.Decimal) (z apd.Decimal) {
	have(x.Mul(&z, base, &f.rate))
	have(x.Add(&z, &z, &f.fixed))
	have(x.Quantize(&z, &z, -2))
	return z
}

func (x *apdSum) cents(d *apd.Decimal) int64 {
	var z apd.Decimal
	have(x.Quantize(&z, d, -2))
	z.Exponent = 0
	return have(z.Int64())
}

func (x *apdSum) left(c *apdChannel, list *apd.Decimal) apd.Decimal {
	items := x.part(list, &c.keep)
	paid := items
	if items.Cmp(&c.freeFrom) < 0 {
		have(x.Add(&paid, &paid, &c.shipping))
	}
	var tax apd.Decimal
	if c.inPrice {
		have(x.Mul(&tax, &paid, &c.tax))
		have(x.Quo(&tax, &tax, &c.onePlus))
		have(x.Quantize(&tax, &tax, -2))
	} else {
		tax = x.part(&paid, &c.tax)
		have(x.Add(&paid, &paid, &tax))
	}
	commission, payment := x.part(&items, &c.commission), x.fee(&c.payment, &paid)
	have(x.Sub(&paid, &paid, &tax))
	have(x.Sub(&paid, &paid, &commission))
	have(x.Sub(&paid, &paid, &payment))
	have(x.Sub(&paid, &paid, &c.postage))
	return paid
}
