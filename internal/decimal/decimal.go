// Package decimal is the one number beneath every word of quoin, and the only
// importer of apd.
//
// A Decimal is an immutable, always finite decimal number. Three regimes:
//
//   - exact: Add, Sub, Mul and Neg lose nothing;
//   - quotient: Quo carries 34 significant digits, half to even, and a result
//     that could not be exact remembers it, through all further arithmetic, in
//     which it is cut to 34 digits again where it would pass 128 bits;
//   - rounding: Round takes a place and a mode, once.
//
// A number that remembers a quotient is quantized to 12 places before it is
// compared, rounded or floored, so that 3 × (20 ÷ 3) is 20 and never a cent
// more. Nobody has to remember to do it, and exact numbers are never touched.
//
// Up to 128 bits, which is 38 digits, numbers are computed here; beyond, exact
// numbers are left to apd, which is also what all else is held against.
package decimal

import (
	"math"
	"math/big"
	"math/bits"
)

const (
	quotientDigits = 34
	snapPlaces     = 12
	surePlaces     = 28 // that sums of cut quotients still have right
)

// Decimal is an immutable decimal number. The zero value is 0 and counts like any
// other 0; that nothing made it shows in Made alone.
type Decimal struct {
	_       [0]func() // 1.0 and 1.00 are equal and differ in their digits: == does not compile
	n       limbs     // the coefficient, where big is nil
	big     *big.Int  // of more than 128 bits, of an exact number; never changed
	exp     int32
	neg     bool
	inexact bool
	made    bool  // by anything at all: the zero value alone was not
	least   uint8 // digits that are written after the point, be they zeros
}

// New returns coeff × 10^exp. The exponent is kept in -64 … 64.
func New(coeff int64, exp int32) Decimal {
	exp = min(max(exp, -64), 64)
	return Decimal{n: limbs{Lo: uint64(max(coeff, -coeff))}, exp: exp, neg: coeff < 0, made: true, least: digitsOf(exp)}
}

// digitsOf is how many digits a number with an exponent has after the point, 255 where
// they are more.
func digitsOf(exp int32) uint8 { return uint8(min(max(-exp, 0), math.MaxUint8)) }

// FromBig returns n × 10^exp.
func FromBig(n *big.Int, exp int32) Decimal {
	x := Decimal{exp: exp, neg: n.Sign() < 0, made: true, least: digitsOf(exp)}
	if n.BitLen() > 128 {
		x.big = new(big.Int).Abs(n)
		return x
	}
	var word [16]byte
	n.FillBytes(word[:])
	for i, b := range word {
		if i < 8 {
			x.n.Hi = x.n.Hi<<8 | uint64(b)
		} else {
			x.n.Lo = x.n.Lo<<8 | uint64(b)
		}
	}
	return x
}

// Made reports whether x was read, built or computed: it is false for the zero value
// alone, and true for every result, 0 or not, but for what Snap returns as it is.
func (x Decimal) Made() bool { return x.made }

// Identical reports whether x and y are the same number with the same digits, at sight: of
// numbers beyond 128 bits only where one is a copy of the other.
func (x *Decimal) Identical(y *Decimal) bool {
	return x.n == y.n && x.big == y.big && x.exp == y.exp && x.neg == y.neg && x.inexact == y.inexact && x.least == y.least
}

// Exact reports whether x never went through a quotient that had to be cut.
func (x Decimal) Exact() bool { return !x.inexact }

// Add returns x + y, exactly.
func (x Decimal) Add(y Decimal) Decimal { return x.add(&y, y.neg) }

// Sub returns x − y, exactly.
func (x Decimal) Sub(y Decimal) Decimal { return x.add(&y, !y.neg) }

// add returns x + |y|, or x − |y| where minus is set.
func (x *Decimal) add(y *Decimal, minus bool) Decimal {
	z := Decimal{exp: min(x.exp, y.exp), inexact: x.inexact || y.inexact, made: true, least: max(x.least, y.least)}
	a, b, ok := x.n, y.n, x.big == nil && y.big == nil
	if x.exp != y.exp && ok {
		var fits bool
		a, ok = raised(a, int(x.exp)-int(z.exp))
		b, fits = raised(b, int(y.exp)-int(z.exp))
		ok = ok && fits
	}
	carried := false
	switch {
	case !ok:
		return addBig(x, y, minus)
	case x.neg == minus:
		z.n, z.neg = a.Plus(b), x.neg
		carried = z.n.Less(a)
	case compare(a, b) >= 0:
		z.n, z.neg = a.Minus(b), x.neg
	default:
		z.n, z.neg = b.Minus(a), minus
	}
	if carried {
		return addBig(x, y, minus)
	}
	z.neg = z.neg && !none(z.n)
	return z
}

// Neg returns −x.
func (x Decimal) Neg() Decimal {
	var zero Decimal
	return zero.add(&x, !x.neg)
}

// Mul returns x × y, exactly.
func (x Decimal) Mul(y Decimal) Decimal {
	z := Decimal{exp: x.exp + y.exp, neg: x.neg != y.neg, inexact: x.inexact || y.inexact, made: true, least: x.least}
	if x.big != nil || y.big != nil || z.exp > farthest || z.exp < -farthest {
		return mulBig(&x, &y)
	}
	if x.n.Hi|y.n.Hi == 0 {
		z.n.Hi, z.n.Lo = bits.Mul64(x.n.Lo, y.n.Lo)
	} else {
		p := product(x.n, y.n)
		z.n = limbs{Hi: p[1], Lo: p[0]}
		if p[3]|p[2] != 0 {
			if !z.inexact {
				return mulBig(&x, &y)
			}
			var places int
			z.n, places = p.cut()
			z.exp += int32(places)
		}
	}
	z.neg = z.neg && !none(z.n)
	return z
}

// farthest keeps exponents far from where they would wrap around; no document gets
// there.
const farthest = 10_000

// Sign returns −1, 0 or +1, on 12 places where x remembers a quotient.
func (x Decimal) Sign() int {
	switch {
	case x.big == nil && none(x.n) || x.inexact && x.vanishes():
		return 0
	case x.neg:
		return -1
	}
	return 1
}

// vanishes reports whether x, which has no more than 128 bits, is nothing on 12
// places, as Snap has it: not more than half of the last on 28 places.
func (x *Decimal) vanishes() bool {
	n, places := x.n, -snapPlaces-int(x.exp)
	if places <= 0 {
		return false
	}
	if more := -surePlaces - int(x.exp); more > 0 {
		whole, rest := lowered(n, more)
		n, places = rounded(whole, rest, HalfEven), surePlaces-snapPlaces
	}
	most, over := wideTens[places-1].Times(5)
	return over != 0 || compare(n, most) <= 0
}

// Cmp compares x and y: the sign of x − y.
func (x Decimal) Cmp(y Decimal) int {
	if x.exp == y.exp && x.neg == y.neg && x.big == nil && y.big == nil && !x.inexact && !y.inexact {
		if x.neg {
			return compare(y.n, x.n)
		}
		return compare(x.n, y.n)
	}
	return x.Sub(y).Sign()
}

// Snap quantizes a number that remembers a quotient to 12 places, half to
// even, and makes it exact. Exact numbers are returned as they are. It goes
// through 28 places, so that a tie of which a cut quotient falls short in its
// last digits is a tie still: 0.4999…9 of 34 digits is 0.5.
func (x Decimal) Snap() Decimal {
	if !x.inexact {
		return x
	}
	x.inexact = false
	if x.exp >= -snapPlaces {
		return x
	}
	z := x
	if x.exp < -surePlaces {
		z = x.quantize(surePlaces, HalfEven)
	}
	z = z.quantize(snapPlaces, HalfEven)
	z.least = x.least
	return z
}

// Floor returns the greatest whole number n with n × y ≤ x, for y > 0.
func (x Decimal) Floor(y Decimal) *big.Int {
	a, b := commonUnits(x.Snap(), y.Snap())
	return new(big.Int).Div(a, b)
}

// FloorInt is Floor in 64 bits; where it is beyond them, the nearest that they hold.
func (x Decimal) FloorInt(y Decimal) int64 {
	x, y = x.Snap(), y.Snap()
	if x.big == nil && y.big == nil && !none(y.n) {
		e := min(x.exp, y.exp)
		a, fits := raised(x.n, int(x.exp-e))
		b, fit := raised(y.n, int(y.exp-e))
		if fits && fit {
			return floored(long{a.Lo, a.Hi}, b, x.neg)
		}
	}
	return bounded(x.Floor(y))
}

// floored is the greatest whole number that is not above ±a ÷ b.
func floored(a long, b limbs, neg bool) int64 {
	q, rest := a.split(b)
	if q.Hi != 0 || q.Lo > math.MaxInt64 {
		if neg {
			return math.MinInt64
		}
		return math.MaxInt64
	}
	n := int64(q.Lo)
	if neg {
		if n = -n; !none(rest) {
			n--
		}
	}
	return n
}

// bounded is the nearest number of 64 bits.
func bounded(n *big.Int) int64 {
	switch {
	case n.IsInt64():
		return n.Int64()
	case n.Sign() < 0:
		return math.MinInt64
	}
	return math.MaxInt64
}

// CeilInt returns the least whole number n with n × y ≥ x, for y > 0; where that is beyond 64
// bits, the nearest that they hold.
func (x Decimal) CeilInt(y Decimal) int64 {
	switch n := x.Neg().FloorInt(y); n {
	case math.MinInt64:
		return math.MaxInt64
	case math.MaxInt64: // or more, which is the least or less
		up := x.Neg().Floor(y)
		return bounded(up.Neg(up))
	default:
		return -n
	}
}

// Rem returns x − y × n for the whole number n toward 0 of x ÷ y, exactly, of
// numbers that remember a quotient on 12 places. It panics if y is 0.
func (x Decimal) Rem(y Decimal) Decimal {
	x, y = x.Snap(), y.Snap()
	if y.isZero() {
		panic("decimal: division by zero")
	}
	e := min(x.exp, y.exp)
	return FromBig(new(big.Int).Rem(x.units(e), y.units(e)), e)
}

// IsZero reports whether x has no digits but 0, also where it remembers a quotient.
func (x Decimal) IsZero() bool { return x.isZero() }

func (x *Decimal) isZero() bool { return x.big == nil && none(x.n) }

// Rat returns x as a fraction.
func (x Decimal) Rat() *big.Rat {
	if r, ok := x.smallRat(); ok {
		return r
	}
	n, d := commonUnits(x, New(1, 0))
	return new(big.Rat).SetFrac(n, d)
}

// smallRat is Rat for what fits in 64 bits.
func (x *Decimal) smallRat() (*big.Rat, bool) {
	if x.big != nil || x.n.Hi != 0 || x.n.Lo > math.MaxInt64 || x.exp > 0 || x.exp < -18 {
		return nil, false
	}
	c, dropped := trimmed(x.n, int(-x.exp))
	places, n := int(-x.exp)-dropped, int64(c.Lo)
	if x.neg {
		n = -n
	}
	if n == 0 || places == 0 {
		return new(big.Rat).SetInt64(n), true
	}
	return big.NewRat(n, int64(tens[places])), true
}

// commonUnits writes x and y over one power of ten.
func commonUnits(x, y Decimal) (a, b *big.Int) {
	e := min(x.exp, y.exp)
	return x.units(e), y.units(e)
}

// units is x in units of 10^exp, an exponent not above its own.
func (x *Decimal) units(exp int32) *big.Int {
	n := x.coefficient()
	if x.neg {
		n.Neg(n)
	}
	if x.exp == exp {
		return n
	}
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(x.exp)-int64(exp)), nil)
	return n.Mul(n, p)
}

// coefficient is that of |x|, free to be changed.
func (x *Decimal) coefficient() *big.Int {
	if x.big != nil {
		return new(big.Int).Set(x.big)
	}
	n := new(big.Int).SetUint64(x.n.Hi)
	if x.n.Hi != 0 {
		n.Lsh(n, 64)
	}
	return n.Or(n, new(big.Int).SetUint64(x.n.Lo))
}

// Places returns how many digits stand after the point as x is written.
func (x Decimal) Places() int {
	x = x.asWritten()
	return int(max(0, -x.exp))
}

// WithPlaces returns x written with at least so many digits after the point, which are kept
// within 0 to 64.
func (x Decimal) WithPlaces(places int) Decimal {
	x.least = uint8(min(max(places, 0), 64))
	return x
}

// Units returns x in units of the last of places; false where it is no whole
// number of them, does not fit, or remembers a quotient.
func (x Decimal) Units(places int) (int64, bool) {
	n, rest, ok := x.cutTo(places)
	if rest != nothing || x.inexact || !ok {
		return 0, false
	}
	return n, true
}

// cutTo is x in units of the last of places, cut toward 0, and what was cut off; false where
// that does not fit.
func (x *Decimal) cutTo(places int) (units int64, rest tail, ok bool) {
	if x.big != nil {
		return 0, nothing, false
	}
	n, ok := x.n, true
	if shift := int(x.exp) + places; shift >= 0 {
		n, ok = raised(n, shift)
	} else {
		n, rest = lowered(n, -shift)
	}
	if !ok || n.Hi != 0 || n.Lo > math.MaxInt64 {
		return 0, nothing, false
	}
	if x.neg {
		return -int64(n.Lo), rest, true
	}
	return int64(n.Lo), rest, true
}
