package quoin

import (
	"cmp"
	"database/sql/driver"
	"fmt"
	"strconv"

	"example.com/quoin/internal/prose"
)

// Date is a day of the Gregorian calendar, written 2026-03-01 (ISO 8601). The zero value means
// that none is given.
type Date struct{ year, month, day int16 }

// ParseDate reads a date. The error is a Problem.
func ParseDate(s string) (Date, error) {
	p := Problem{Code: BadDate, Severity: Fault, Found: prose.Quoted(s), Wanted: "a date such as 2026-03-01"}
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return Date{}, p
	}
	var n [3]int
	for i, part := range []string{s[:4], s[5:7], s[8:]} {
		v, err := strconv.ParseUint(part, 10, 16)
		if err != nil {
			return Date{}, p
		}
		n[i] = int(v)
	}
	if n[0] < 1 || n[1] < 1 || n[1] > 12 || n[2] < 1 || n[2] > daysIn(n[0], n[1]) {
		return Date{}, p
	}
	return Date{int16(n[0]), int16(n[1]), int16(n[2])}, nil
}

// MustDate is ParseDate for literals in programs and tests; it panics where
// ParseDate errs.
func MustDate(s string) Date { return must("MustDate", ParseDate, s) }

func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// Cmp returns −1, 0 or +1 as d is before, on or after e.
func (d Date) Cmp(e Date) int {
	return cmp.Or(cmp.Compare(d.year, e.year), cmp.Compare(d.month, e.month), cmp.Compare(d.day, e.day))
}

// Equal reports whether d and e are the same day.
func (d Date) Equal(e Date) bool { return d == e }

// IsZero reports whether no date was given.
func (d Date) IsZero() bool { return d == Date{} }

// String returns the date as ParseDate reads it, or empty text if none is given.
func (d Date) String() string {
	text, _ := d.AppendText(nil)
	return string(text)
}

// AppendText writes String behind b.
func (d Date) AppendText(b []byte) ([]byte, error) {
	if d.IsZero() {
		return b, nil
	}
	b = appendDigits(b, d.year, 1000)
	b = appendDigits(append(b, '-'), d.month, 10)
	return appendDigits(append(b, '-'), d.day, 10), nil
}

// appendDigits writes n with as many digits as unit, a power of ten, has.
func appendDigits(b []byte, n, unit int16) []byte {
	for ; unit > 0; unit /= 10 {
		b = append(b, byte('0'+n/unit%10))
	}
	return b
}

// MarshalText returns String.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText is ParseDate; empty text is no date.
func (d *Date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = Date{}
		return nil
	}
	return set(d, ParseDate, string(text))
}

// Value stores d as text, 2026-03-01, which DATE columns take, or as empty text if none is
// given. If a date may be missing, store an Optional, which is then NULL.
func (d Date) Value() (driver.Value, error) { return d.String(), nil }

// Scan reads what Value stored: text, or what a driver makes of a DATE column, a
// time.Time, of which it takes the date in its own zone, whatever the hour. NULL is
// refused: an Optional takes it. The error is a Problem.
func (d *Date) Scan(src any) error {
	p := Problem{
		Code: BadDate, Severity: Fault, Found: fmt.Sprintf("a database value of type %T", src), Wanted: "a date as text, or of a DATE column",
	}
	switch v := src.(type) {
	case string:
		return d.UnmarshalText([]byte(v))
	case []byte:
		return d.UnmarshalText(v)
	case calendarDay:
		year, n := v.Year(), v.YearDay()
		if year < 1 || year > 9999 {
			p.Found = "the year " + strconv.Itoa(year)
			return p
		}
		month := 1
		for ; n > daysIn(year, month); month++ {
			n -= daysIn(year, month)
		}
		*d = Date{int16(year), int16(month), int16(n)}
		return nil
	case nil:
		p.Found, p.Remedy = "NULL", "scan a column that may be NULL into an Optional"
	}
	return p
}

// calendarDay is what a time.Time has of a date.
type calendarDay interface {
	Year() int
	YearDay() int
}
