package review

import (
	"bytes"
	"encoding/json"
	"maps"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// object is a JSON object. A document is looked at as the tree that it is written
// as: objects, lists ([]any), texts, numbers as they are written, true and false.
type object = map[string]any

// treeOf checks a document and writes it as a tree. The error is quoin.Problems.
func treeOf(doc pricelist.Document) (object, error) {
	if err := doc.Check(); err != nil {
		return nil, err
	}
	data, err := json.Marshal(doc)
	if err != nil {
		return nil, fault(quoin.BadJSON, "", err.Error(), "rules that a document can hold")
	}
	return read(data)
}

func read(data []byte) (object, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var tree object
	err := d.Decode(&tree)
	return tree, err
}

func write(tree any) []byte {
	data, err := json.Marshal(tree)
	if err != nil {
		return nil // what was read from JSON can be written
	}
	return data
}

// fault is a single problem as an error.
func fault(code quoin.Code, path, found, wanted string, remedy ...string) error {
	return quoin.Problems{{Code: code, Severity: quoin.Fault, Path: path, Found: found, Wanted: wanted, Remedy: strings.Join(remedy, "")}}
}

func listOf(tree object, name string) []any {
	list, _ := tree[name].([]any)
	return list
}

// leaves calls of with each value in a part of a document that is no object and no list.
func leaves(v any, of func(any)) {
	switch x := v.(type) {
	case object:
		for _, e := range x {
			leaves(e, of)
		}
	case []any:
		for _, e := range x {
			leaves(e, of)
		}
	default:
		of(v)
	}
}

// word is a text in an object; empty where there is none.
func word(v any, name string) string {
	o, _ := v.(object)
	s, _ := o[name].(string)
	return s
}

// with is an object with another value of one field; nil, or an empty list, leaves the field out.
func with(tree object, name string, value any) object {
	out := maps.Clone(tree)
	out[name] = value
	if list, ok := value.([]any); value == nil || ok && len(list) == 0 {
		delete(out, name)
	}
	return out
}

// withOf is an object with what is made of each entry of a list; nil leaves an entry out.
func withOf(tree object, name string, of func(object) object) object {
	var out []any
	for _, e := range listOf(tree, name) {
		if made := of(e.(object)); made != nil {
			out = append(out, made)
		}
	}
	return with(tree, name, out)
}

// onlyOf is an object with the entries of a list that are wanted.
func onlyOf(tree object, name string, want func(object) bool) object {
	return withOf(tree, name, func(e object) object {
		if want(e) {
			return e
		}
		return nil
	})
}

// floored is the part of a document that floors rest on: without the rules that ask nothing of
// channels, what is sold together, shown or compared, today's prices, names and ranges. Nor has
// it the price step and the price points of channels: which prices can be asked moves no floor, and
// would hide or swell what costs did to it.
func floored(tree object) object {
	out := bare(tree).(object)
	for _, name := range []string{"sets", "fairs", "editions", "edition_limits", "what_if_board", "comparables", "choose", "price_step"} {
		delete(out, name)
	}
	for _, c := range listOf(out, "channels") {
		delete(c.(object), "price_points")
	}
	for _, p := range listOf(out, "products") {
		for _, name := range []string{"price", "quotes", "demand", "volume"} {
			delete(p.(object), name)
		}
	}
	return onlyOf(out, "rules", func(r object) bool { return asks(word(r, "rule")) })
}

// asks reports whether a kind of rule asks something of channels.
func asks(kind string) bool {
	switch kind {
	case "cost_multiple", "gross_margin", "net_margin", "contribution":
		return true
	}
	return false
}

// bare is a copy without ranges, and without names beside ids.
func bare(v any) any {
	switch x := v.(type) {
	case []any:
		out := make([]any, len(x))
		for i := range x {
			out[i] = bare(x[i])
		}
		return out
	case object:
		_, known := x["id"].(string)
		out := make(object, len(x))
		for name, value := range x {
			_, text := value.(string)
			if known && text && name == "name" || isRange(name, value) {
				continue
			}
			out[name] = bare(value)
		}
		return out
	}
	return v
}

func isRange(name string, v any) bool {
	o, ok := v.(object)
	return ok && strings.HasSuffix(name, "_range") && len(o) == 2 && o["low"] != nil && o["high"] != nil
}
