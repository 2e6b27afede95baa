package review

import (
	"encoding/json"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// meaning says what stands at a place of a document, as the schema of documents
// has it.
type meaning struct {
	defs, at object
}

func meanings() (meaning, error) {
	schema, err := read(pricelist.DocumentSchema())
	if err != nil {
		return meaning{}, err
	}
	defs, _ := schema["$defs"].(object)
	return meaning{defs, schema}, nil
}

// resolved follows references to where something is defined, and returns the name
// it has there.
func (m meaning) resolved() (object, string) {
	at, name := m.at, ""
	for range 8 {
		ref, ok := at["$ref"].(string)
		if !ok {
			break
		}
		name = strings.TrimPrefix(ref, "#/$defs/")
		at, _ = m.defs[name].(object)
	}
	return at, name
}

// field is what stands in a field of an object, or under a name of its own.
func (m meaning) field(name string) meaning {
	at, _ := m.resolved()
	fields, _ := at["properties"].(object)
	next, ok := fields[name].(object)
	if !ok {
		next, _ = at["additionalProperties"].(object)
	}
	return meaning{m.defs, next}
}

// entry is what stands in a list.
func (m meaning) entry() meaning {
	at, _ := m.resolved()
	next, _ := at["items"].(object)
	return meaning{m.defs, next}
}

// kind is what is written at a place, as far as it is a number.
type kind string

const (
	isText     kind = ""
	isAmount   kind = "amount"
	isRate     kind = "rate"
	isFactor   kind = "factor"
	isQuantity kind = "quantity"
	isOfRule   kind = "rule" // a field of a rule, which its kind gives a meaning
)

func (m meaning) kind() kind {
	_, name := m.resolved()
	switch name {
	case "amount":
		return isAmount
	case "rate", "open_rate", "loss":
		return isRate
	case "factor":
		return isFactor
	case "quantity":
		return isQuantity
	}
	return isText
}

// same reports whether two texts or numbers mean the same: 17.5 is 17.50.
func (k kind) same(a, b any) bool {
	x, y := textOf(a), textOf(b)
	if x == y {
		return true
	}
	switch k {
	case isAmount, isFactor:
		return equal(x, y, quoin.ParseFactor)
	case isRate:
		return equal(x, y, quoin.ParseRate)
	case isQuantity:
		return equal(x, y, quoin.ParseQuantity)
	case isOfRule:
		return equal(x, y, quoin.ParseFactor) || equal(x, y, quoin.ParseRate)
	}
	return false
}

func equal[T interface{ Equal(T) bool }](x, y string, parse func(string) (T, error)) bool {
	a, err := parse(x)
	if err != nil {
		return false
	}
	b, err := parse(y)
	return err == nil && a.Equal(b)
}

// textOf is a value as it is written: a text as it is, anything else as JSON.
func textOf(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case string:
		return x
	case json.Number:
		return x.String()
	}
	return string(write(v))
}
