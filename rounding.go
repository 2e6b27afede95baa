package quoin

import (
	"fmt"
	"slices"

	"example.com/quoin/internal/decimal"
)

// Rounding says how an amount is rounded to money.
type Rounding uint8

const (
	HalfUp   Rounding = iota // ties away from zero: the default
	HalfEven                 // ties to the even digit
	HalfDown                 // ties toward zero
	Up                       // always away from zero
	Down                     // always toward zero
)

var roundings = []string{"half_up", "half_even", "half_down", "up", "down"}

// ParseRounding reads half_up, half_even, half_down, up or down. The error is a Problem.
func ParseRounding(s string) (Rounding, error) {
	i := slices.Index(roundings, s)
	if i < 0 {
		return HalfUp, unknownWord(s, roundings)
	}
	return Rounding(i), nil
}

func (r Rounding) mode() decimal.Mode {
	switch r {
	case HalfEven:
		return decimal.HalfEven
	case HalfDown:
		return decimal.HalfDown
	case Up:
		return decimal.Up
	case Down:
		return decimal.Down
	default:
		return decimal.HalfUp
	}
}

// String returns half_up, half_even, half_down, up or down. Any other value is not a rounding: it rounds
// as HalfUp does, and is written Rounding(77).
func (r Rounding) String() string {
	if int(r) >= len(roundings) {
		return fmt.Sprintf("Rounding(%d)", uint8(r))
	}
	return roundings[r]
}

// MarshalText returns String. It errs, with a Problem, where r is no rounding.
func (r Rounding) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// AppendText is MarshalText behind b.
func (r Rounding) AppendText(b []byte) ([]byte, error) {
	if int(r) >= len(roundings) {
		_, err := ParseRounding(r.String())
		return b, err
	}
	return append(b, roundings[r]...), nil
}

// UnmarshalText is ParseRounding.
func (r *Rounding) UnmarshalText(text []byte) error { return set(r, ParseRounding, string(text)) }
