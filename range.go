package quoin

// Range is what a value that is not known exactly lies between, both ends
// included. It stands beside the value itself, which is the most likely one.
// The zero value stands for none given: the value is certain.
type Range[T any] struct {
	Low  T `json:"low" need:"yes"`
	High T `json:"high" need:"yes"`
}

// Between returns the range from low to high.
func Between[T any](low, high T) Range[T] { return Range[T]{low, high} }

// Equal reports whether both have the same ends. Ends are compared by their
// method Equal, or by == where they have none, so T has one of both.
func (r Range[T]) Equal(s Range[T]) bool { return equal(r.Low, s.Low) && equal(r.High, s.High) }

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
	return any(v) == any(zero)
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
