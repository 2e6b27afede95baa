package quoin

import (
	"database/sql/driver"
	"fmt"
	"math/big"

	"example.com/quoin/internal/decimal"
)

// Rate is a share: a fee of 7.4%, a yield of 92%, a mark-up of 100%. The field or function that
// uses it says what it is a share of. A multiple such as 3.5 is a Factor. Compare rates with
// Equal and Cmp: 7.4% and 7.40% are the same rate. == would tell them apart, so it does not
// compile.
type Rate struct{ d decimal.Decimal }

var (
	one     = decimal.New(1, 0)
	hundred = decimal.New(100, 0)
	percent = decimal.New(1, -2)
)

// ParseRate reads a percentage ("7.4%", "150%") or a fraction ("0.074"). A bare number above 1
// is refused, because 7.4 most likely means 7.4%. At most 6 digits stand before the point and
// 16 after it. The error is a Problem.
func ParseRate(s string) (Rate, error) {
	var d decimal.Decimal
	err := rateForm.parse(&d, s, false)
	return Rate{d}, err
}

// MustRate is ParseRate for literals in programs and tests; it panics where
// ParseRate errs.
func MustRate(s string) Rate { return must("MustRate", ParseRate, s) }

// Add returns r + s, exactly.
func (r Rate) Add(s Rate) Rate { return Rate{r.d.Add(s.d)} }

// Sub returns r − s, exactly.
func (r Rate) Sub(s Rate) Rate { return Rate{r.d.Sub(s.d)} }

// Of returns the share r of s, exactly: r × s. 20% of 50% is 10%.
func (r Rate) Of(s Rate) Rate { return Rate{r.d.Mul(s.d)} }

// Factor returns r as a multiple: 7.4% is the factor 0.074.
func (r Rate) Factor() Factor { return Factor(r) }

// OnePlus returns 1 + r, the factor of a mark-up or a contingency of r: 20% gives 1.2.
func (r Rate) OnePlus() Factor { return Factor{one.Add(r.d)} }

// Complement returns 1 − r, what is left after a discount or a loss of r: 20% gives 0.8.
func (r Rate) Complement() Factor { return Factor{one.Sub(r.d)} }

// Cmp returns −1, 0 or +1 as r is less than, equal to or greater than s.
func (r Rate) Cmp(s Rate) int { return r.d.Cmp(s.d) }

// Equal reports whether r and s are the same share.
func (r Rate) Equal(s Rate) bool { return r.d.Cmp(s.d) == 0 }

// Sign returns −1, 0 or +1.
func (r Rate) Sign() int { return r.d.Sign() }

// IsZero reports whether r is 0.
func (r Rate) IsZero() bool { return r.d.Sign() == 0 }

// IsGiven reports whether r was read, built or computed, even as 0: MustRate("0%") is given,
// Rate{} is not. It tells a missing field from one that holds 0. In every other way the zero
// value is 0.
func (r Rate) IsGiven() bool { return r.d.Made() }

// Rat returns r as a fraction: 7.4% is 37/500.
func (r Rate) Rat() *big.Rat { return r.d.Rat() }

// Round returns r with so many digits in its percentage, halves away from zero: 7.456% with 1
// is 7.5%.
func (r Rate) Round(places int) Rate {
	return Rate{r.d.Mul(hundred).Round(places, decimal.HalfUp).Mul(percent)}
}

// Float64 returns the nearest float, for drawing only: 7.4% is 0.074. It is not exact, and sums
// of floats are not money. Beyond 10^308 it is infinite.
func (r Rate) Float64() float64 {
	f, _ := r.d.Rat().Float64()
	return f
}

// String returns r as a percentage with its sign: "7.4%".
func (r Rate) String() string { return r.d.Mul(hundred).Trim().String() + "%" }

// Format serves fmt: %v, %s and %q as String; %f prints the percentage
// without its sign, with a precision rounded half away from zero.
func (r Rate) Format(s fmt.State, verb rune) { format(s, verb, "Rate", r.d.Mul(hundred), r.String()) }

// MarshalText returns String.
func (r Rate) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// AppendText writes String behind b.
func (r Rate) AppendText(b []byte) ([]byte, error) {
	return append(r.d.Mul(hundred).Trim().Append(b), '%'), nil
}

// UnmarshalText reads back what MarshalText wrote: at most 1,000 digits before the point and
// 1,000 after it, more than any sum has. For what a person wrote, use ParseRate, which has
// closer bounds. The error is a Problem.
func (r *Rate) UnmarshalText(text []byte) error { return rateForm.setText(&r.d, text) }

// MarshalJSON returns String as a JSON string.
func (r Rate) MarshalJSON() ([]byte, error) { return r.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (r Rate) AppendJSON(b []byte) ([]byte, error) {
	b, err := r.AppendText(append(b, '"'))
	return append(b, '"'), err
}

// UnmarshalJSON reads a JSON string as UnmarshalText does, and a JSON number, which
// MarshalJSON never writes, from its digits with the bounds of ParseRate.
func (r *Rate) UnmarshalJSON(data []byte) error { return rateForm.setJSON(&r.d, data) }

// MarshalBinary writes r with all its digits, also for gob. It comes back unchanged, even as a
// quotient that does not end.
func (r Rate) MarshalBinary() ([]byte, error) { return r.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (r Rate) AppendBinary(b []byte) ([]byte, error) { return r.d.AppendBinary(b), nil }

// UnmarshalBinary reads what MarshalBinary wrote. The error is a Problem.
func (r *Rate) UnmarshalBinary(data []byte) error { return rateForm.setBinary(&r.d, data) }

// Value stores r as a fraction of 1, which numeric columns take: 7.4% is 0.074, 150%
// is 1.5.
func (r Rate) Value() (driver.Value, error) { return r.d.Trim().String(), nil }

// Scan reads back what Value stored: text, numeric or integer. A plain number is a fraction of
// 1, so 1.5 is 150%; one with a percent sign is a percentage. Floats are refused, and so is
// NULL, which an Optional takes.
func (r *Rate) Scan(src any) error {
	return scanText(src, rateForm.what, func(text []byte) error {
		stored := rateForm.stored()
		_, err := stored.readShare(&r.d, string(text), false)
		return err
	})
}
