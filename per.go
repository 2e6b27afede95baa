package quoin

import "slices"

// Per says what something is counted by. Where it is empty, the field that
// holds it says what that means.
type Per string

const (
	PerItem  Per = "item"  // once for each item sold
	PerOrder Per = "order" // once for each order, however many items it holds
)

// UnmarshalText reads item or order. The error is a Problem.
func (p *Per) UnmarshalText(text []byte) error {
	words := []Per{PerItem, PerOrder}
	if !slices.Contains(words, Per(text)) {
		return unknownWord(string(text), words)
	}
	*p = Per(text)
	return nil
}
