package decimal

import (
	"cmp"
	"math/big"

	"github.com/cockroachdb/apd/v3"
)

// What follows computes with apd: for numbers of more than 128 bits, and as the
// definition of what is computed without it.

// maxBits bounds what a long chain of exact products may grow to (about
// 2,000 digits). No document reaches it; past it, a product is a quotient.
const maxBits = 6644

// Contexts are read only, so sharing them is safe. An apd literal without
// exponents yields infinities, hence both ends are spelled out.
var (
	exact    = apd.Context{MaxExponent: apd.MaxExponent, MinExponent: apd.MinExponent, Rounding: apd.RoundHalfEven}
	quotient = apd.Context{Precision: quotientDigits, MaxExponent: apd.MaxExponent, MinExponent: apd.MinExponent, Rounding: apd.RoundHalfEven}
)

const widePrecision = 100_000

// apd is x as apd has it.
func (x *Decimal) apd() *apd.Decimal {
	d := apd.NewWithBigInt(new(apd.BigInt).SetMathBigInt(x.coefficient()), x.exp)
	d.Negative = x.neg
	return d
}

// done keeps the invariants: finite, no -0, bounded size. The bounds on input
// keep every document far from the panic, which stands for a broken invariant.
func done(d *apd.Decimal, cond apd.Condition, err error, inexact bool, least uint8) Decimal {
	if cond.Underflow() {
		return Decimal{inexact: true, made: true, least: least}
	}
	if err != nil || d.Form != apd.Finite {
		panic("decimal: result out of range")
	}
	if bits := d.Coeff.BitLen(); bits > maxBits || inexact && bits > 128 {
		inexact = true
		if _, err := quotient.Round(d, d); err != nil {
			panic("decimal: result out of range")
		}
	}
	x := FromBig(new(big.Int).Set(d.Coeff.MathBigInt()), d.Exponent)
	x.neg = d.Negative && d.Coeff.Sign() != 0
	x.inexact, x.least = inexact, least
	return x
}

func addBig(x, y *Decimal, minus bool) Decimal {
	var z apd.Decimal
	b := y.apd()
	b.Negative = minus
	cond, err := exact.Add(&z, x.apd(), b)
	return done(&z, cond, err, x.inexact || y.inexact, max(x.least, y.least))
}

func mulBig(x, y *Decimal) Decimal {
	var z apd.Decimal
	cond, err := exact.Mul(&z, x.apd(), y.apd())
	return done(&z, cond, err, x.inexact || y.inexact, x.least)
}

func quoBig(x, y *Decimal) Decimal {
	var q, z apd.Decimal
	cond, err := quotient.Quo(&q, x.apd(), y.apd())
	if err == nil && q.Form == apd.Finite {
		z.Reduce(&q)
	}
	return done(&z, cond, err, x.inexact || y.inexact || cond.Inexact(), x.least)
}

func (m Mode) rounder() apd.Rounder {
	known := map[Mode]apd.Rounder{HalfEven: apd.RoundHalfEven, HalfDown: apd.RoundHalfDown, Up: apd.RoundUp, Down: apd.RoundDown}
	return cmp.Or(known[m], apd.RoundHalfUp)
}

func quantizeBig(x *Decimal, places int32, mode Mode) Decimal {
	d := x.apd()
	// apd's Quantize drops a number smaller than a tenth of the last place to
	// zero whatever the mode; away from zero it is one unit of that place.
	if mode == Up && !d.IsZero() && d.NumDigits() < int64(-places-d.Exponent) {
		return New(int64(d.Sign()), -places)
	}
	ctx := exact
	ctx.Precision = widePrecision
	ctx.Rounding = mode.rounder()
	var z apd.Decimal
	cond, err := ctx.Quantize(&z, d, -places)
	return done(&z, cond, err, false, digitsOf(-places))
}

func trimBig(x *Decimal) Decimal {
	var z apd.Decimal
	z.Reduce(x.apd())
	t := done(&z, 0, nil, x.inexact, 0)
	if t.exp > 0 {
		t = quantizeBig(&t, 0, HalfUp)
		t.inexact, t.least = x.inexact, 0
	}
	return t
}
