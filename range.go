package quoin

import (
	"database/sql/driver"
	"fmt"
	"strings"

	"example.com/quoin/internal/prose"
)

// Range is the lowest and the highest value of a figure that is not known exactly, both ends
// included. It stands beside the figure itself, which is the most likely value.
//
// The zero value means that none is given and the figure is certain.
type Range[T any] struct {
	// The lowest it may be.
	Low T `json:"low" need:"yes"`
	// The highest it may be.
	High T `json:"high" need:"yes"`
}

// Between returns the range from low to high.
func Between[T any](low, high T) Range[T] { return Range[T]{low, high} }

// Equal reports whether both have the same ends. Ends are compared by their method Equal, or by
// == if they have none, so T has one of both.
func (r Range[T]) Equal(s Range[T]) bool { return equal(r.Low, s.Low) && equal(r.High, s.High) }

// String returns both ends: "17.00 to 18.50".
func (r Range[T]) String() string { return fmt.Sprint(r.Low) + between + fmt.Sprint(r.High) }

const between = " to "

// Value stores r as text: "17.00 to 18.50".
func (r Range[T]) Value() (driver.Value, error) { return r.String(), nil }

// Scan reads back what Value stored, from text columns. NULL is refused: an Optional
// takes it. Ends are read as T does, which has a Scan, reads itself from text, or is
// int64 or string.
func (r *Range[T]) Scan(src any) error {
	const what = "a range such as 17.00 to 18.50"
	return scanText(src, what, func(text []byte) error {
		low, high, ok := strings.Cut(string(text), between)
		if !ok {
			return Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: what}
		}
		var out Range[T]
		if err := scanInto(&out.Low, low); err != nil {
			return err
		}
		if err := scanInto(&out.High, high); err != nil {
			return err
		}
		*r = out
		return nil
	})
}

// IsZero reports whether no range was given: both ends are zero, by their
// method IsZero or by ==, so T has one of both.
func (r Range[T]) IsZero() bool { return isZero(r.Low) && isZero(r.High) }

func isZero[T any](v T) bool {
	if zero, ok := zeroNumber(v); ok {
		return zero
	}
	if z, ok := any(v).(interface{ IsZero() bool }); ok {
		return z.IsZero()
	}
	var zero T
	return same(v, zero)
}

// zeroNumber is isZero of the numbers that ranges are mostly of; asked for by their
// types, they need not be copied to the heap for it.
func zeroNumber(v any) (zero, ok bool) {
	switch x := v.(type) {
	case Amount:
		return x.IsZero(), true
	case Rate:
		return x.IsZero(), true
	case Factor:
		return x.IsZero(), true
	case Quantity:
		return x.IsZero(), true
	}
	return false, false
}
