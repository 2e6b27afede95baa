// Package decimal is the one number beneath every word of quoin, and the only
// importer of apd.
//
// A Decimal is an immutable, always finite decimal number. Three regimes:
//
//   - exact: Add, Sub, Mul and Neg lose nothing;
//   - quotient: Quo carries 34 significant digits, half to even, and a result
//     that could not be exact remembers it, through all further arithmetic;
//   - rounding: Round takes a place and a mode, once.
//
// A number that remembers a quotient is quantized to 12 places before it is
// compared, rounded or floored, so that 3 × (20 ÷ 3) is 20 and never a cent
// more. Nobody has to remember to do it, and exact numbers are never touched.
package decimal

import (
	"math"
	"math/big"

	"github.com/cockroachdb/apd/v3"
)

const (
	quotientDigits = 34
	snapPlaces     = 12
	// maxBits bounds what a long chain of exact products may grow to (about
	// 2,000 digits). No document reaches it; past it, a product is a quotient.
	maxBits = 6644
)

// Decimal is an immutable decimal number; the zero value is 0.
type Decimal struct {
	d       apd.Decimal
	inexact bool
}

// Contexts are read only, so sharing them is safe. An apd literal without
// exponents yields infinities, hence both ends are spelled out.
var (
	exact    = apd.Context{MaxExponent: apd.MaxExponent, MinExponent: apd.MinExponent, Rounding: apd.RoundHalfEven}
	quotient = apd.Context{Precision: quotientDigits, MaxExponent: apd.MaxExponent, MinExponent: apd.MinExponent, Rounding: apd.RoundHalfEven}
)

const widePrecision = 100_000

// New returns coeff × 10^exp. The exponent is kept in -64 … 64.
func New(coeff int64, exp int32) Decimal {
	var z Decimal
	z.d.SetFinite(coeff, min(max(exp, -64), 64))
	return z
}

// FromBig returns n × 10^exp.
func FromBig(n *big.Int, exp int32) Decimal {
	var z Decimal
	var c apd.BigInt
	c.SetMathBigInt(n)
	z.d = *apd.NewWithBigInt(&c, exp)
	return z
}

// Exact reports whether x never went through a quotient that had to be cut.
func (x Decimal) Exact() bool { return !x.inexact }

// Add returns x + y, exactly.
func (x Decimal) Add(y Decimal) Decimal {
	var z Decimal
	cond, err := exact.Add(&z.d, &x.d, &y.d)
	return z.done(cond, err, x.inexact || y.inexact)
}

// Sub returns x − y, exactly.
func (x Decimal) Sub(y Decimal) Decimal {
	var z Decimal
	cond, err := exact.Sub(&z.d, &x.d, &y.d)
	return z.done(cond, err, x.inexact || y.inexact)
}

// Neg returns −x.
func (x Decimal) Neg() Decimal { return Decimal{}.Sub(x) }

// Mul returns x × y, exactly.
func (x Decimal) Mul(y Decimal) Decimal {
	var z Decimal
	cond, err := exact.Mul(&z.d, &x.d, &y.d)
	return z.done(cond, err, x.inexact || y.inexact)
}

// Quo returns x ÷ y to 34 significant digits, half to even. A quotient that
// comes out even is exact and loses its trailing zeros. It panics if y is 0,
// as integer division does.
func (x Decimal) Quo(y Decimal) Decimal {
	if y.d.IsZero() {
		panic("decimal: division by zero")
	}
	if y.isOne() {
		return x
	}
	var q, z Decimal
	cond, err := quotient.Quo(&q.d, &x.d, &y.d)
	q = q.done(cond, err, x.inexact || y.inexact || cond.Inexact())
	z.inexact = q.inexact
	z.d.Reduce(&q.d)
	return z
}

// isOne reports whether x is 1, exactly and written so.
func (x Decimal) isOne() bool {
	return x.d.Exponent == 0 && !x.d.Negative && !x.inexact && x.d.Coeff.IsUint64() && x.d.Coeff.Uint64() == 1
}

// Rem returns x − y × n for the whole number n toward 0 of x ÷ y, exactly, of
// numbers that remember a quotient on 12 places. It panics if y is 0.
func (x Decimal) Rem(y Decimal) Decimal {
	if y.d.IsZero() {
		panic("decimal: division by zero")
	}
	x, y = x.Snap(), y.Snap()
	e := min(x.d.Exponent, y.d.Exponent)
	return FromBig(new(big.Int).Rem(x.units(e), y.units(e)), e)
}

// done keeps the invariants: finite, no -0, bounded size. The bounds on input
// keep every document far from the panic, which stands for a broken invariant.
func (x Decimal) done(cond apd.Condition, err error, inexact bool) Decimal {
	if cond.Underflow() {
		return Decimal{inexact: true}
	}
	if err != nil || x.d.Form != apd.Finite {
		panic("decimal: result out of range")
	}
	x.inexact = inexact
	if x.d.Negative && x.d.Coeff.Sign() == 0 {
		x.d.Negative = false
	}
	if x.d.Coeff.BitLen() <= maxBits {
		return x
	}
	var z Decimal
	if _, err := quotient.Round(&z.d, &x.d); err != nil {
		panic("decimal: result out of range")
	}
	z.inexact = true
	return z
}

// Sign returns −1, 0 or +1, on 12 places where x remembers a quotient.
func (x Decimal) Sign() int {
	if x.inexact {
		x = x.Snap()
	}
	return x.d.Sign()
}

// Cmp compares x and y: the sign of x − y.
func (x Decimal) Cmp(y Decimal) int {
	if x.inexact || y.inexact {
		return x.Sub(y).Sign()
	}
	return x.d.Cmp(&y.d)
}

// Snap quantizes a number that remembers a quotient to 12 places, half to
// even, and makes it exact. Exact numbers are returned as they are.
func (x Decimal) Snap() Decimal {
	if !x.inexact {
		return x
	}
	x.inexact = false
	if x.d.Exponent >= -snapPlaces {
		return x
	}
	return x.quantize(snapPlaces, HalfEven)
}

// Floor returns the greatest whole number n with n × y ≤ x, for y > 0.
func (x Decimal) Floor(y Decimal) *big.Int {
	a, b := commonUnits(x.Snap(), y.Snap())
	return new(big.Int).Div(a, b)
}

// Ceil returns the least whole number n with n × y ≥ x, for y > 0.
func (x Decimal) Ceil(y Decimal) *big.Int {
	n := x.Neg().Floor(y)
	return n.Neg(n)
}

// Rat returns x as a fraction.
func (x Decimal) Rat() *big.Rat {
	n, d := commonUnits(x, New(1, 0))
	return new(big.Rat).SetFrac(n, d)
}

// commonUnits writes x and y over one power of ten.
func commonUnits(x, y Decimal) (a, b *big.Int) {
	e := min(x.d.Exponent, y.d.Exponent)
	return x.units(e), y.units(e)
}

func (x Decimal) units(exp int32) *big.Int {
	n := new(big.Int).Set(x.d.Coeff.MathBigInt())
	if x.d.Negative {
		n.Neg(n)
	}
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(x.d.Exponent-exp)), nil)
	return n.Mul(n, p)
}

// Places returns how many digits stand after the point as x is written.
func (x Decimal) Places() int { return int(max(0, -x.d.Exponent)) }

// Units returns x in units of the last of places; false where it is no whole
// number of them, does not fit, or remembers a quotient.
func (x Decimal) Units(places int) (int64, bool) {
	if x.inexact || !x.d.Coeff.IsInt64() {
		return 0, false
	}
	n := x.d.Coeff.Int64()
	shift := int(x.d.Exponent) + places
	for ; shift > 0; shift-- {
		if n > math.MaxInt64/10 {
			return 0, false
		}
		n *= 10
	}
	for ; shift < 0 && n != 0; shift++ {
		if n%10 != 0 {
			return 0, false
		}
		n /= 10
	}
	if x.d.Negative {
		n = -n
	}
	return n, true
}
