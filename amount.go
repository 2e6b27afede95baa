package quoin

import (
	"database/sql/driver"
	"fmt"
	"math/big"

	"example.com/quoin/internal/decimal"
)

// Amount is money, in the one currency of whatever it belongs to: a price, a
// cost, a fee. It may be negative and may have any number of places; Round
// brings it to the currency's minor unit where that is wanted. Two amounts are
// compared by Equal and Cmp: 17.5 and 17.50 are one amount written in two ways,
// which == would tell apart, so == does not compile.
type Amount struct{ d decimal.Decimal }

// ParseAmount reads plain decimal text such as "17.50" or "-3", with at most
// 12 digits before the point and 8 after it. The error is a Problem.
func ParseAmount(s string) (Amount, error) {
	d, err := amountForm.read(s, false)
	return Amount{d}, err
}

// MustAmount is ParseAmount for literals in programs and tests; it panics
// where ParseAmount errs.
func MustAmount(s string) Amount { return must("MustAmount", ParseAmount, s) }

// AmountOf returns units × 10^−places: AmountOf(1750, 2) is 17.50. Places is
// kept within 0 to 64.
func AmountOf(units int64, places int) Amount {
	return Amount{decimal.New(units, -int32(min(max(places, 0), 64)))}
}

// Units returns a in units of the last of places, such as cents of two; false
// where it is no whole number of them, does not fit in 64 bits, or is a quotient
// that had to be cut.
func (a Amount) Units(places int) (int64, bool) { return a.d.Units(places) }

// Places returns how many digits stand after the point as a is written.
func (a Amount) Places() int { return a.d.Places() }

// Add returns a + b, exactly.
func (a Amount) Add(b Amount) Amount { return Amount{a.d.Add(b.d)} }

// Sub returns a − b, exactly.
func (a Amount) Sub(b Amount) Amount { return Amount{a.d.Sub(b.d)} }

// Neg returns −a.
func (a Amount) Neg() Amount { return Amount{a.d.Neg()} }

// Times returns a × f, exactly.
func (a Amount) Times(f Factor) Amount { return Amount{a.d.Mul(f.d)} }

// Part returns the part of a that r takes, a × r, exactly.
func (a Amount) Part(r Rate) Amount { return Amount{a.d.Mul(r.d)} }

// Over returns a ÷ f to 34 significant digits. It panics if f is 0.
func (a Amount) Over(f Factor) Amount {
	if f.d.IsZero() {
		panic(byZero("Amount.Over"))
	}
	return Amount{a.d.Quo(f.d)}
}

// Ratio returns how many times b goes into a, a ÷ b, to 34 significant
// digits. It panics if b is 0.
func (a Amount) Ratio(b Amount) Factor {
	if b.d.IsZero() {
		panic(byZero("Amount.Ratio"))
	}
	return Factor{a.d.Quo(b.d)}
}

// Share returns a as a share of b, a ÷ b, to 34 significant digits: a margin
// is gross.Share(revenue). It panics if b is 0.
func (a Amount) Share(b Amount) Rate {
	if b.d.IsZero() {
		panic(byZero("Amount.Share"))
	}
	return Rate{a.d.Quo(b.d)}
}

// Mod returns what is left of a when b is taken from it as often as it goes, of
// the sign of a. It panics if b is 0.
func (a Amount) Mod(b Amount) Amount {
	if b.IsZero() {
		panic(byZero("Amount.Mod"))
	}
	return Amount{a.d.Rem(b.d)}
}

// Round returns a with exactly places digits after the point, rounded once.
func (a Amount) Round(places int, how Rounding) Amount { return Amount{a.d.Round(places, how.mode())} }

// Snap returns a as it is compared: quantized to 12 places, half to even, if
// it went through a quotient, and unchanged if not.
func (a Amount) Snap() Amount {
	if !a.IsGiven() {
		return AmountOf(0, 0)
	}
	return Amount{a.d.Snap()}
}

// Cmp returns −1, 0 or +1 as a is less than, equal to or greater than b.
func (a Amount) Cmp(b Amount) int { return a.d.Cmp(b.d) }

// Equal reports whether a and b are the same money: 17.5 equals 17.50.
func (a Amount) Equal(b Amount) bool { return a.d.Cmp(b.d) == 0 }

// Sign returns −1, 0 or +1.
func (a Amount) Sign() int { return a.d.Sign() }

// IsZero reports whether a is 0.
func (a Amount) IsZero() bool { return a.d.Sign() == 0 }

// IsGiven reports whether a was read, built or computed, 0 or not: MustAmount("0")
// is given, Amount{} is not. It tells a field that was left out from one that
// holds 0. Nothing else does: the zero value is 0 in every other way.
func (a Amount) IsGiven() bool { return a.d.Made() }

// Rat returns the digits of a as a fraction.
func (a Amount) Rat() *big.Rat { return a.d.Rat() }

// Float64 returns the nearest float, for drawing alone: 17.50 is 17.5. It is not
// exact, and sums of floats are not money; beyond 10^308 it is infinite.
func (a Amount) Float64() float64 {
	f, _ := a.d.Rat().Float64()
	return f
}

// String returns plain decimal text with the places a has; an amount that went
// through a quotient is written as it is compared, to 12 places.
func (a Amount) String() string { return a.d.String() }

// Format serves fmt: %v, %s and %q as String, %f with a precision rounded
// half away from zero, all with a width.
func (a Amount) Format(s fmt.State, verb rune) { format(s, verb, "Amount", a.d, a.String()) }

// MarshalText returns String.
func (a Amount) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// AppendText writes String behind b.
func (a Amount) AppendText(b []byte) ([]byte, error) { return a.d.Append(b), nil }

// UnmarshalText reads back what MarshalText wrote, of at most 1,000 digits before
// the point and 1,000 after it, which is more than a sum comes to. What a person
// wrote, ParseAmount reads, with closer bounds. The error is a Problem.
func (a *Amount) UnmarshalText(text []byte) error {
	d, err := amountForm.stored().read(string(text), false)
	if err == nil {
		a.d = d
	}
	return err
}

// MarshalJSON returns String as a JSON string.
func (a Amount) MarshalJSON() ([]byte, error) { return quoted(a.String()), nil }

// UnmarshalJSON reads a JSON string as UnmarshalText does, and a JSON number, which
// MarshalJSON never writes, from its digits with the bounds of ParseAmount.
func (a *Amount) UnmarshalJSON(data []byte) error {
	s, as, exponent, err := amountForm.storedNumber(data)
	if err != nil {
		return err
	}
	d, err := as.read(s, exponent)
	if err == nil {
		a.d = d
	}
	return err
}

// MarshalBinary writes a with all its digits, also for gob: it comes back as it
// was, even as a quotient that goes on.
func (a Amount) MarshalBinary() ([]byte, error) { return a.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (a Amount) AppendBinary(b []byte) ([]byte, error) { return a.d.AppendBinary(b), nil }

// UnmarshalBinary reads what MarshalBinary wrote. The error is a Problem.
func (a *Amount) UnmarshalBinary(data []byte) error {
	d, err := amountForm.unbinary(data)
	if err == nil {
		a.d = d
	}
	return err
}

// Value stores a as text, for numeric columns.
func (a Amount) Value() (driver.Value, error) { return a.String(), nil }

// Scan reads back what Value stored: text, numeric and integer columns. Floats are
// refused, and so is NULL, which an Optional takes.
func (a *Amount) Scan(src any) error { return scanText(src, amountForm.what, a.UnmarshalText) }

// must is for functions that panic where others err; the error is wrapped in what it
// panics with.
func must[T any](name string, parse func(string) (T, error), s string) T {
	v, err := parse(s)
	if err != nil {
		panic(fmt.Errorf("quoin: %s: %w", name, err))
	}
	return v
}

// byZero is what the method of that name panics with.
func byZero(name string) string {
	return "quoin: " + name + ": division by 0: ask first whether it IsZero"
}

// set parses into a target that keeps its old value on an error.
func set[T any](to *T, parse func(string) (T, error), s string) error {
	v, err := parse(s)
	if err == nil {
		*to = v
	}
	return err
}

func quoted(s string) []byte { return []byte(`"` + s + `"`) }
