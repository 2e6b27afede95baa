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
