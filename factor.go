package quoin

import (
	"database/sql/driver"
	"fmt"
	"math/big"

	"example.com/quoin/internal/decimal"
)

// Factor is a multiple: retail at 3.5 times cost, an exchange rate, one price 1.4 times
// another, 1.0870 starts for one good print. Compare factors with Equal and Cmp: 3.5 and 3.50
// are the same factor. == would tell them apart, so it does not compile.
type Factor struct{ d decimal.Decimal }

// ParseFactor reads plain decimal text such as "3.5", with at most 12 digits
// before the point and 16 after it. The error is a Problem.
func ParseFactor(s string) (Factor, error) {
	var d decimal.Decimal
	err := factorForm.read(&d, s, false)
	return Factor{d}, err
}

// MustFactor is ParseFactor for literals in programs and tests; it panics
// where ParseFactor errs.
func MustFactor(s string) Factor { return must("MustFactor", ParseFactor, s) }

// FactorOf returns n as a factor.
func FactorOf(n int64) Factor { return Factor{decimal.New(n, 0)} }

// Units returns f in units of the last of places. It returns false if f is not a whole number
// of units, does not fit in 64 bits, or is a quotient that does not end.
func (f Factor) Units(places int) (int64, bool) { return f.d.Units(places) }

// Places returns how many digits after the point f is written with.
func (f Factor) Places() int { return f.d.Trim().Places() }

// Add returns f + g, exactly.
func (f Factor) Add(g Factor) Factor { return Factor{f.d.Add(g.d)} }

// Sub returns f − g, exactly.
func (f Factor) Sub(g Factor) Factor { return Factor{f.d.Sub(g.d)} }

// Times returns f × g, exactly.
func (f Factor) Times(g Factor) Factor { return Factor{f.d.Mul(g.d)} }

// Over returns f ÷ g to 34 significant digits. It panics if g is 0.
func (f Factor) Over(g Factor) Factor { return Factor{quotient("Factor.Over", f.d, g.d)} }

// Power returns f to the power of e, for f above 0 and e from −10 to 10, and 0 for all others.
// Whole powers are exact products, or 1 divided by one. Other powers have 34 significant
// digits, as a quotient has: 2 to the power of 0.5, squared, is 2.
func (f Factor) Power(e Factor) Factor { return Factor{f.d.Pow(e.d)} }

// Rate returns f as a share: 0.074 is 7.4%.
func (f Factor) Rate() Rate { return Rate(f) }

// Cmp returns −1, 0 or +1 as f is less than, equal to or greater than g.
func (f Factor) Cmp(g Factor) int { return f.d.Cmp(g.d) }

// Equal reports whether f and g are the same number.
func (f Factor) Equal(g Factor) bool { return f.d.Cmp(g.d) == 0 }

// Sign returns −1, 0 or +1.
func (f Factor) Sign() int { return f.d.Sign() }

// IsZero reports whether f is 0.
func (f Factor) IsZero() bool { return f.d.Sign() == 0 }

// IsGiven reports whether f was read, built or computed, even as 0: MustFactor("0") is given,
// Factor{} is not. It tells a missing field from one that holds 0. In every other way the zero
// value is 0.
func (f Factor) IsGiven() bool { return f.d.Made() }

// Rat returns f as a fraction.
func (f Factor) Rat() *big.Rat { return f.d.Rat() }

// Round returns f with exactly places digits after the point.
func (f Factor) Round(places int, how Rounding) Factor { return Factor{f.d.Round(places, how.mode())} }

// Float64 returns the nearest float, for drawing only: 3.50 is 3.5. It is not exact, and sums
// of floats are not money. Beyond 10^308 it is infinite.
func (f Factor) Float64() float64 {
	x, _ := f.d.Rat().Float64()
	return x
}

// String returns plain decimal text, without zeros at the end.
func (f Factor) String() string { return f.d.Trim().String() }

// Format serves fmt: %v, %s and %q as String, %f with a precision rounded
// half away from zero, all with a width.
func (f Factor) Format(s fmt.State, verb rune) { format(s, verb, "Factor", f.d, f.String()) }

// MarshalText returns String.
func (f Factor) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// AppendText writes String behind b.
func (f Factor) AppendText(b []byte) ([]byte, error) { return f.d.Trim().Append(b), nil }

// UnmarshalText reads back what MarshalText wrote: at most 1,000 digits before the point and
// 1,000 after it, more than any sum has. For what a person wrote, use ParseFactor, which has
// closer bounds. The error is a Problem.
func (f *Factor) UnmarshalText(text []byte) error { return factorForm.setText(&f.d, text) }

// MarshalJSON returns String as a JSON string.
func (f Factor) MarshalJSON() ([]byte, error) { return f.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (f Factor) AppendJSON(b []byte) ([]byte, error) {
	b, err := f.AppendText(append(b, '"'))
	return append(b, '"'), err
}

// UnmarshalJSON reads a JSON string as UnmarshalText does, and a JSON number, which
// MarshalJSON never writes, from its digits with the bounds of ParseFactor.
func (f *Factor) UnmarshalJSON(data []byte) error { return factorForm.setJSON(&f.d, data) }

// MarshalBinary writes f with all its digits, also for gob. It comes back unchanged, even as a
// quotient that does not end.
func (f Factor) MarshalBinary() ([]byte, error) { return f.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (f Factor) AppendBinary(b []byte) ([]byte, error) { return f.d.AppendBinary(b), nil }

// UnmarshalBinary reads what MarshalBinary wrote. The error is a Problem.
func (f *Factor) UnmarshalBinary(data []byte) error { return factorForm.setBinary(&f.d, data) }

// Value stores f as text, for numeric columns.
func (f Factor) Value() (driver.Value, error) { return f.String(), nil }

// Scan reads back what Value stored: text, numeric and integer columns. Floats are
// refused, and so is NULL, which an Optional takes.
func (f *Factor) Scan(src any) error { return scanText(src, factorForm.what, f.UnmarshalText) }
