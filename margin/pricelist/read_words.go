package pricelist

import (
	"encoding"
	"encoding/json"

	"example.com/quoin"
)

// word reads what is written as one text; false for all else.
func (r *answerReader) word(t json.Token, to any, at *path) (bool, error) {
	text, ok := to.(encoding.TextUnmarshaler)
	if !ok {
		return false, nil
	}
	s, ok := t.(string)
	switch to.(type) {
	case *quoin.Currency: // none is written so
		if s == "" && ok {
			return true, nil
		}
	case *quoin.Quantity:
		if s == "0" {
			return true, nil
		}
	}
	if !ok {
		return true, r.fault(at, quoin.WrongType, described(t), "a text")
	}
	return true, locatedAt(at, text.UnmarshalText([]byte(s)))
}
