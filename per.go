package quoin

import "strings"

// Per says what something is counted by. Where it is empty, the field that
// holds it says what that means.
type Per string

const (
	PerItem  Per = "item"  // once for each item sold
	PerOrder Per = "order" // once for each order, however many items it holds
)

// ParsePer reads item or order. The error is a Problem.
func ParsePer(s string) (Per, error) { return Word(s, PerItem, PerOrder) }

// UnmarshalText is ParsePer.
func (p *Per) UnmarshalText(text []byte) error { return set(p, ParsePer, string(text)) }

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
		Code: UnknownWord, Severity: Fault, Found: Quoted(s),
		Wanted: "one of " + strings.Join(names, ", "), Near: Near(s, names),
	}
}
