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

// IsZero reports whether no range was given: both ends are zero, by their
// method IsZero or by ==, so T has one of both.
func (r Range[T]) IsZero() bool { return isZero(r.Low) && isZero(r.High) }

func isZero[T any](v T) bool {
	if z, ok := any(v).(interface{ IsZero() bool }); ok {
		return z.IsZero()
	}
	var zero T
	return any(v) == any(zero)
}
