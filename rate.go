package quoin

import (
	"database/sql/driver"
	"fmt"
	"math/big"
	"strings"

	"example.com/quoin/internal/decimal"
)

// Rate is a share: a fee of 7.4%, a yield of 92%, a mark-up of 100%. What it
// is a share of, the field or function that uses it says. A multiple such as
// 3.5 is a Factor.
type Rate struct{ d decimal.Decimal }

var (
	one     = decimal.New(1, 0)
	hundred = decimal.New(100, 0)
	percent = decimal.New(1, -2)
)

// ParseRate reads a percentage ("7.4%", "150%") or a fraction ("0.074"). A
// bare number above 1 is refused, since 7.4 most likely means 7.4%. At most 6
// digits before the point and 16 after it. The error is a Problem.
func ParseRate(s string) (Rate, error) { return readRate(s, false) }

func readRate(s string, exponent bool) (Rate, error) {
	if len(s) <= decimal.MaxText {
		if number, ok := strings.CutSuffix(s, "%"); ok {
			d, err := rateForm.read(strings.TrimRight(number, " "), false)
			return Rate{d.Mul(percent)}, refound(err, s)
		}
	}
	d, err := rateForm.read(s, exponent)
	if err != nil {
		return Rate{}, err
	}
	if d.Cmp(one) > 0 || d.Cmp(one.Neg()) < 0 {
		return Rate{}, Problem{
			Code: BarePercentage, Severity: Fault, Found: Quoted(s),
			Wanted: "a fraction from 0 to 1, or a percentage with its sign",
			Remedy: fmt.Sprintf("write %s%% if %s percent was meant", s, s),
		}
	}
	return Rate{d}, nil
}

// refound makes a problem show the whole text it was found in.
func refound(err error, s string) error {
	if p, ok := err.(Problem); ok {
		p.Found = Quoted(s)
		return p
	}
	return err
}

// MustRate is ParseRate for literals in programs and tests; it panics where
// ParseRate errs.
func MustRate(s string) Rate { return must(ParseRate(s)) }

// Add returns r + s, exactly.
func (r Rate) Add(s Rate) Rate { return Rate{r.d.Add(s.d)} }

// Sub returns r − s, exactly.
func (r Rate) Sub(s Rate) Rate { return Rate{r.d.Sub(s.d)} }

// Of returns the part of s that r takes, r × s, exactly.
func (r Rate) Of(s Rate) Rate { return Rate{r.d.Mul(s.d)} }

// Factor returns r as a multiple: 7.4% is the factor 0.074.
func (r Rate) Factor() Factor { return Factor(r) }

// OnePlus returns 1 + r: what a mark-up or a contingency of r multiplies by.
func (r Rate) OnePlus() Factor { return Factor{one.Add(r.d)} }

// Complement returns 1 − r: what is left after a discount or a loss of r.
func (r Rate) Complement() Factor { return Factor{one.Sub(r.d)} }

// Cmp returns −1, 0 or +1 as r is less than, equal to or greater than s.
func (r Rate) Cmp(s Rate) int { return r.d.Cmp(s.d) }

// Equal reports whether r and s are the same share.
func (r Rate) Equal(s Rate) bool { return r.d.Cmp(s.d) == 0 }

// Sign returns −1, 0 or +1.
func (r Rate) Sign() int { return r.d.Sign() }

// IsZero reports whether r is 0.
func (r Rate) IsZero() bool { return r.d.Sign() == 0 }

// IsGiven reports whether r was read, built or computed, 0 or not: MustRate("0%")
// is given, Rate{} is not. It tells a field that was left out from one that
// holds 0. Nothing else does: the zero value is 0 in every other way.
func (r Rate) IsGiven() bool { return r.d.Made() }

// Rat returns the digits of r, as a fraction of 1.
func (r Rate) Rat() *big.Rat { return r.d.Rat() }

// Round returns r to places digits of the percentage, halves away from zero.
func (r Rate) Round(places int) Rate {
	return Rate{r.d.Mul(hundred).Round(places, decimal.HalfUp).Mul(percent)}
}

// String returns r as a percentage with its sign: "7.4%".
func (r Rate) String() string { return r.d.Mul(hundred).Trim().String() + "%" }

// Format serves fmt: %v, %s and %q as String; %f prints the percentage
// without its sign, with a precision rounded half away from zero.
func (r Rate) Format(s fmt.State, verb rune) { format(s, verb, "Rate", r.d.Mul(hundred), r.String()) }

// MarshalText returns String.
func (r Rate) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText is ParseRate.
func (r *Rate) UnmarshalText(text []byte) error { return set(r, ParseRate, string(text)) }

// MarshalJSON returns String as a JSON string.
func (r Rate) MarshalJSON() ([]byte, error) { return quoted(r.String()), nil }

// UnmarshalJSON reads a JSON string as ParseRate does, or a JSON number from
// its digits, with the same bounds.
func (r *Rate) UnmarshalJSON(data []byte) error {
	s, exponent, err := rateForm.literal(data)
	if err != nil {
		return err
	}
	v, err := readRate(s, exponent)
	if err == nil {
		*r = v
	}
	return err
}

// Value stores r as String does, for text columns: a number alone would not say
// whether it is a fraction or a percentage. For numeric ones store its Factor.
func (r Rate) Value() (driver.Value, error) { return r.String(), nil }

// Scan reads text, numeric or integer columns as ParseRate does; floats are
// refused.
func (r *Rate) Scan(src any) error { return scanText(src, rateForm.what, r.UnmarshalText) }
