package decimal

import "github.com/cockroachdb/apd/v3"

// Mode says how Round treats the digits it drops.
type Mode uint8

// The modes of the shop document. HalfUp takes ties away from zero, Up takes
// everything away from zero, Down everything toward it.
const (
	HalfUp Mode = iota
	HalfEven
	Up
	Down
)

func (m Mode) rounder() apd.Rounder {
	switch m {
	case HalfEven:
		return apd.RoundHalfEven
	case Up:
		return apd.RoundUp
	case Down:
		return apd.RoundDown
	default:
		return apd.RoundHalfUp
	}
}

// Round returns x with exactly places digits after the point, which are kept
// within −64 to 64. A number that remembers a quotient is quantized to 12 places
// first.
func (x Decimal) Round(places int, mode Mode) Decimal {
	return x.Snap().quantize(int32(min(max(places, -64), 64)), mode)
}

func (x Decimal) quantize(places int32, mode Mode) Decimal {
	// apd's Quantize drops a number smaller than a tenth of the last place to
	// zero whatever the mode; away from zero it is one unit of that place.
	if mode == Up && !x.d.IsZero() && x.d.NumDigits() < int64(-places-x.d.Exponent) {
		return New(int64(x.d.Sign()), -places)
	}
	ctx := exact
	ctx.Precision = widePrecision
	ctx.Rounding = mode.rounder()
	var z Decimal
	cond, err := ctx.Quantize(&z.d, &x.d, -places)
	return z.done(cond, err, false)
}
