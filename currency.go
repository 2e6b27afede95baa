package quoin

import (
	"database/sql/driver"

	"github.com/bojanz/currency"

	"example.com/quoin/internal/prose"
)

// Currency is an ISO 4217 currency code with its minor unit. The zero value means that none is
// given.
type Currency struct{ code string }

// ParseCurrency reads an ISO 4217 code such as "EUR". The error is a Problem.
func ParseCurrency(code string) (Currency, error) {
	if len(code) == 3 && currency.IsValid(code) {
		return Currency{code}, nil
	}
	return Currency{}, Problem{
		Code: UnknownCurrency, Severity: Fault, Found: prose.Quoted(code),
		Wanted: "an ISO 4217 currency code such as EUR", Near: prose.Near(code, currency.GetCurrencyCodes()),
	}
}

// MustCurrency is ParseCurrency for literals in programs and tests; it panics
// where ParseCurrency errs.
func MustCurrency(code string) Currency { return must("MustCurrency", ParseCurrency, code) }

// Digits returns the digits of the minor unit (ISO 4217): JPY 0, EUR 2, KWD 3.
// The zero value has 2.
func (c Currency) Digits() int {
	if d, ok := currency.GetDigits(c.code); ok {
		return int(d)
	}
	return 2
}

// Minor returns one minor unit: 0.01 of EUR.
func (c Currency) Minor() Amount { return AmountOf(1, c.Digits()) }

// Round returns a rounded to the minor unit.
func (c Currency) Round(a Amount, how Rounding) Amount { return a.Round(c.Digits(), how) }

// Equal reports whether c and d are the same currency.
func (c Currency) Equal(d Currency) bool { return c == d }

// IsZero reports whether c is the zero value.
func (c Currency) IsZero() bool { return c.code == "" }

// String returns the code.
func (c Currency) String() string { return c.code }

// MarshalText returns the code.
func (c Currency) MarshalText() ([]byte, error) { return []byte(c.code), nil }

// AppendText writes the code behind b.
func (c Currency) AppendText(b []byte) ([]byte, error) { return append(b, c.code...), nil }

// UnmarshalText is ParseCurrency; empty text is no currency.
func (c *Currency) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Currency{}
		return nil
	}
	return set(c, ParseCurrency, string(text))
}

// Value stores the code as text, or empty text if none is given.
func (c Currency) Value() (driver.Value, error) { return c.code, nil }

// Scan reads back what Value stored, from text columns. NULL is refused: an Optional
// takes it.
func (c *Currency) Scan(src any) error {
	return scanText(src, "an ISO 4217 currency code such as EUR", c.UnmarshalText)
}
