package quoin

import (
	"database/sql/driver"
	"encoding"
	"encoding/json"
	"fmt"
)

// Optional is a value that may be missing, where zero would mean something else. The zero value
// is missing.
type Optional[T any] struct {
	value T
	given bool
}

// Some returns v as given.
func Some[T any](v T) Optional[T] { return Optional[T]{v, true} }

// Get returns the value and whether it was given.
func (o Optional[T]) Get() (T, bool) { return o.value, o.given }

// IsGiven reports whether a value was given.
func (o Optional[T]) IsGiven() bool { return o.given }

// Or returns the value, or v if none is given.
func (o Optional[T]) Or(v T) T {
	if o.given {
		return o.value
	}
	return v
}

// Equal reports whether both have the same value, or none. Values are compared by their Equal
// method, or by == if they have none, so T has one of both.
func (o Optional[T]) Equal(p Optional[T]) bool {
	return o.given == p.given && equal(o.value, p.value)
}

// equal compares by the method Equal, or by == where there is none.
func equal[T any](v, w T) bool {
	if e, ok := any(v).(interface{ Equal(T) bool }); ok {
		return e.Equal(w)
	}
	return same(v, w)
}

// same compares by ==, where there is one.
func same(v, w any) bool {
	defer func() {
		if recover() != nil {
			panic(fmt.Sprintf("quoin: %T has no == that compiles: give it the methods Equal and IsZero", v))
		}
	}()
	return v == w
}

// IsZero reports whether no value was given.
func (o Optional[T]) IsZero() bool { return !o.given }

// String returns the value's text, or "none".
func (o Optional[T]) String() string {
	if !o.given {
		return "none"
	}
	return fmt.Sprint(o.value)
}

// MarshalJSON returns the value's JSON, or null.
func (o Optional[T]) MarshalJSON() ([]byte, error) { return o.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (o *Optional[T]) AppendJSON(b []byte) ([]byte, error) {
	if !o.given {
		return append(b, "null"...), nil
	}
	if v, ok := any(&o.value).(interface {
		AppendJSON([]byte) ([]byte, error)
	}); ok {
		return v.AppendJSON(b)
	}
	text, err := json.Marshal(o.value)
	return append(b, text...), err
}

// UnmarshalJSON reads the value as T does; null is none.
func (o *Optional[T]) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		*o = Optional[T]{}
		return nil
	}
	var v T
	if err := json.Unmarshal(data, &v); err != nil {
		return err
	}
	*o = Some(v)
	return nil
}

// Value stores the value as T does, and none as NULL.
func (o Optional[T]) Value() (driver.Value, error) {
	if !o.given {
		return nil, nil
	}
	return storedAs(o.value, &o.value)
}

// Scan reads back what Value stored: NULL is none, and all else is read as T does. T has
// a Scan, reads itself from text, or is int64 or string.
func (o *Optional[T]) Scan(src any) error {
	if src == nil {
		*o = Optional[T]{}
		return nil
	}
	var v T
	if err := scanInto(&v, src); err != nil {
		return err
	}
	*o = Some(v)
	return nil
}

// storedAs is what a database stores of a value, which also stands at a place.
func storedAs(v, at any) (driver.Value, error) {
	switch x := v.(type) {
	case driver.Valuer:
		return x.Value()
	case int64, string:
		return x, nil
	}
	if _, ok := at.(encoding.TextUnmarshaler); ok {
		return fmt.Sprint(v), nil
	}
	return nil, Problem{Code: NotANumber, Severity: Fault, Found: fmt.Sprintf("a %T for a database", v), Wanted: "a type that has Value, is read from text, or is int64 or string"}
}
