package quoin

import (
	"example.com/quoin/internal/prose"
	"strings"
)

// Per says what something is counted by. Where it is empty, the field that
// holds it says what that means.
type Per string

const (
	PerItem  Per = "item"  // once for each item sold
	PerOrder Per = "order" // once for each order, however many items it holds
)

// UnmarshalText reads item or order. The error is a Problem.
func (p *Per) UnmarshalText(text []byte) error {
	v, err := Word(string(text), PerItem, PerOrder)
	if err == nil {
		*p = v
	}
	return err
}

// Word returns the one of words that s is. The error is a Problem that lists
// the words, and the near one.
func Word[T ~string](s string, words ...T) (T, error) {
	names := make([]string, len(words))
	for i, w := range words {
		if s == string(w) {
			return w, nil
		}
		names[i] = string(w)
	}
	return "", Problem{
		Code: UnknownWord, Severity: Fault, Found: prose.Quoted(s),
		Wanted: "one of " + strings.Join(names, ", "), Near: prose.Near(s, names),
	}
}
