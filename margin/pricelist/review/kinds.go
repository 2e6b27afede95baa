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

// isSize reports whether it is how large or heavy something is, which is given and costs nothing.
func (m meaning) isSize() bool {
	switch ref, _ := m.at["$ref"].(string); strings.TrimPrefix(ref, "#/$defs/") {
	case "positive_length", "positive_mass", "positive_volume":
		return true
	}
	return false
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
	switch k {
	case isOfRule:
		return isFactor.same(a, b) || isRate.same(a, b)
	case isQuantity: // 1 cm is 10 mm
		q, err := quoin.ParseQuantity(x)
		p, err2 := quoin.ParseQuantity(y)
		return x == y || err == nil && err2 == nil && q.Equal(p)
	}
	m, _, ok := k.parsed(x)
	n, _, also := k.parsed(y)
	return x == y || ok && also && m.Equal(n)
}

// parsed is the number that is written at a place, and its unit.
func (k kind) parsed(text string) (n quoin.Factor, unit quoin.Unit, ok bool) {
	switch k {
	case isRate:
		r, err := quoin.ParseRate(text)
		return r.Factor(), "", err == nil
	case isQuantity:
		q, err := quoin.ParseQuantity(text)
		return q.Number(), q.Unit(), err == nil
	case isAmount, isFactor:
		f, err := quoin.ParseFactor(text)
		return f, "", err == nil
	}
	return n, "", false
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
