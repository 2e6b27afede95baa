package quoin

import (
	"encoding"
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// storedNumber reads back what MarshalJSON wrote, a string, with as many digits as a sum
// can come to. A number of JSON it never writes: that is input, with the bounds of
// input.
func (f form) storedNumber(data []byte) (s string, as form, exponent bool, err error) {
	s, exponent, err = f.literal(data)
	if exponent {
		return s, f, true, err
	}
	return s, f.stored(), false, err
}

// scanText takes what a database driver hands over. Floats are refused: their
// digits are no longer the ones that were stored.
func scanText(src any, what string, set func([]byte) error) error {
	switch v := src.(type) {
	case string:
		return set([]byte(v))
	case []byte:
		return set(v)
	case int64:
		return set(strconv.AppendInt(nil, v, 10))
	}
	return notStored(src, what)
}

func notStored(src any, what string) Problem {
	of := fmt.Sprintf("%T", src)
	p := Problem{Code: NotANumber, Severity: Fault, Found: "a database value of type " + of, Wanted: what + " as text, numeric or integer"}
	switch {
	case src == nil:
		p.Found, p.Remedy = "NULL", "scan a column that may be NULL into an Optional"
	case strings.HasPrefix(of, "float"):
		p.Remedy = "store it as TEXT, or as NUMERIC in a database that has exact numbers: SQLite turns NUMERIC into a float"
	}
	return p
}

// scanInto scans into what has a Scan, reads itself from text, or is a plain value of
// Go.
func scanInto(to, src any) error {
	switch to := to.(type) {
	case interface{ Scan(any) error }:
		return to.Scan(src)
	case *int64:
		return scanText(src, "a whole number", func(text []byte) error {
			n, err := strconv.ParseInt(string(text), 10, 64)
			if err != nil {
				return Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: "a whole number"}
			}
			*to = n
			return nil
		})
	case *string:
		return scanText(src, "a text", func(text []byte) error {
			*to = string(text)
			return nil
		})
	case encoding.TextUnmarshaler:
		return scanText(src, "a text", to.UnmarshalText)
	}
	return Problem{Code: NotANumber, Severity: Fault, Found: fmt.Sprintf("a database value for a %T", to), Wanted: "a type that has Scan, reads text, or is int64 or string"}
}

// unbinary reads what MarshalBinary wrote.
func (f form) unbinary(data []byte) (decimal.Decimal, error) {
	d, ok := decimal.FromBinary(data)
	if !ok {
		return d, Problem{Code: NotANumber, Severity: Fault, Found: fmt.Sprintf("%d bytes", len(data)), Wanted: f.what + " as MarshalBinary writes it"}
	}
	return d, nil
}
