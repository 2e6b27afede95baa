package form

import (
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Word returns the one of words that s is. The error is a Problem that lists the words, and
// the near one.
func Word[T ~string](s string, words ...T) (T, error) {
	names := make([]string, len(words))
	for i, w := range words {
		if s == string(w) {
			return w, nil
		}
		names[i] = string(w)
	}
	return "", quoin.Problem{
		Code: quoin.UnknownWord, Severity: quoin.Fault, Found: prose.Quoted(s),
		Wanted: "one of " + strings.Join(names, ", "), Near: prose.Near(s, names),
	}
}

// SetWord sets a word to the one of words that text is. It keeps its old value where text is
// none; the error is that of Word.
func SetWord[T ~string](to *T, text []byte, words ...T) error {
	w, err := Word(string(text), words...)
	if err == nil {
		*to = w
	}
	return err
}
