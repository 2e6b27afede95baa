package compare

import "github.com/cockroachdb/apd/v3"

// apdSum adds up by value: no decimal of it has to be allocated.
type apdSum struct{ apd.Context }

// ofApd is cockroachdb/apd with decimals as values, at 34 digits.
func ofApd() Peer {
	x := apdSum{*apd.BaseContext.WithPrecision(34)}
	x.Rounding = apd.RoundHalfUp
	return decimals[apd.Decimal](newApd).peer("apd", x.net, x.left)
}

func newApd(n int64, places int) (d apd.Decimal) {
	d.SetFinite(n, int32(-places))
	return d
}

func (x *apdSum) part(a, rate *apd.Decimal) (z apd.Decimal) {
	have(x.Mul(&z, a, rate))
	have(x.Quantize(&z, &z, -2))
	return z
}

func (x *apdSum) fee(f *fee[apd.Decimal], base *apd.Decimal) (z apd.Decimal) {
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

func (x *apdSum) net(fees *[3]fee[apd.Decimal], price apd.Decimal) int64 {
	net := price
	for i := range fees {
		fee := x.fee(&fees[i], &price)
		have(x.Sub(&net, &net, &fee))
	}
	return x.cents(&net)
}

func (x *apdSum) left(t *terms[apd.Decimal], list, cost apd.Decimal) int64 {
	items := x.part(&list, &t.keep)
	paid := items
	if items.Cmp(&t.freeFrom) < 0 {
		have(x.Add(&paid, &paid, &t.shipping))
	}
	var tax apd.Decimal
	if t.inPrice {
		have(x.Mul(&tax, &paid, &t.tax))
		have(x.Quo(&tax, &tax, &t.onePlus))
		have(x.Quantize(&tax, &tax, -2))
	} else {
		tax = x.part(&paid, &t.tax)
		have(x.Add(&paid, &paid, &tax))
	}
	commission, payment := x.part(&items, &t.commission), x.fee(&t.payment, &paid)
	for _, less := range [...]*apd.Decimal{&tax, &commission, &payment, &t.postage, &cost} {
		have(x.Sub(&paid, &paid, less))
	}
	return x.cents(&paid)
}
