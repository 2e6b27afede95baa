package decimal

// Mode says how Round treats the digits it drops.
type Mode uint8

// The modes of the shop document. HalfUp takes ties away from zero, HalfDown
// toward it; Up takes everything away from zero, Down everything toward it.
const (
	HalfUp Mode = iota
	HalfEven
	HalfDown
	Up
	Down
)

// Round returns x with exactly places digits after the point, which are kept
// within −64 to 64. A number that remembers a quotient is quantized to 12 places
// first.
func (x Decimal) Round(places int, mode Mode) Decimal {
	if exp := int32(-places); x.exp == exp && !x.inexact && x.big == nil && exp <= 0 && exp >= -64 {
		x.made, x.least = true, digitsOf(exp) // as money mostly is
		return x
	}
	x = x.Snap()
	return x.quantize(int32(min(max(places, -64), 64)), mode)
}

// quantize is Round of a number as it is; the result is exact.
func (x *Decimal) quantize(places int32, mode Mode) Decimal {
	z := Decimal{exp: -places, neg: x.neg, made: true, least: digitsOf(-places)}
	if x.big != nil {
		return quantizeBig(x, places, mode)
	}
	switch more := int(x.exp) + int(places); {
	case more == 0:
		z.n = x.n
	case more > 0:
		var ok bool
		if z.n, ok = raised(x.n, more); !ok {
			return quantizeBig(x, places, mode)
		}
	default:
		n, t := lowered(x.n, -more)
		z.n = rounded(n, t, mode)
	}
	z.neg = z.neg && !none(z.n)
	return z
}

// Trim returns x without trailing zeros after the point.
func (x Decimal) Trim() Decimal {
	x.made, x.least = true, 0
	if x.exp >= 0 {
		return x
	}
	if x.big != nil {
		return trimBig(&x)
	}
	if none(x.n) {
		return Decimal{inexact: x.inexact, made: true}
	}
	n, dropped := trimmed(x.n, int(-x.exp))
	x.n, x.exp = n, x.exp+int32(dropped)
	return x
}

// Cut returns x in units of the last of places, cut toward 0 as it is; false where that does
// not fit.
func (x Decimal) Cut(places int) (int64, bool) {
	n, _, ok := x.cutTo(places)
	return n, ok
}
