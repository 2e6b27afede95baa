package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestNarrower(t *testing.T) {
	const older = `{"description": "a shop", "required": ["name"], "properties": {
		"name": {"type": "string", "maxLength": 10}, "kind": {"enum": ["a", "b"]}, "count": {"type": "integer", "minimum": 1},
		"list": {"type": "array", "items": {"$ref": "#/$defs/entry"}, "maxItems": 5}},
		"$defs": {"entry": {"pattern": "^x$"}}}`
	for _, c := range []struct{ what, from, to, document, answer string }{
		{"nothing", "", "", "", ""},
		{"what people read", "a shop", "the shop", "", ""},
		{"a field comes", `"name": {`, `"more": {"type": "string"}, "name": {`, "", ""},
		{"a field goes", `"count": {"type": "integer", "minimum": 1},`, "", "/properties/count: is gone", "/properties/count: is gone"},
		{"a part goes", `"entry"`, `"row"`, "/$defs/entry: is gone", "/$defs/entry: is gone"},
		{"another type", `"integer"`, `"number"`, `/properties/count: type was "integer" and is "number"`, `/properties/count: type was "integer" and is "number"`},
		{"a word comes", `["a", "b"]`, `["a", "b", "c"]`, "", ""},
		{"a word goes", `["a", "b"]`, `["a"]`, "/properties/kind: the word b is gone", "/properties/kind: the word b is gone"},
		{"more has to be given", `["name"]`, `["name", "kind"]`, "(top): kind has to be given now", ""},
		{"less has to be given", `["name"]`, `[]`, "", "(top): the promised field name is gone"},
		{"a longer text", `"maxLength": 10`, `"maxLength": 11`, "", "/properties/name: maxLength was 11 and is 10"},
		{"a shorter text", `"maxLength": 10`, `"maxLength": 9`, "/properties/name: maxLength was 10 and is 9", ""},
		{"any text", `, "maxLength": 10`, "", "", "/properties/name: maxLength was not there and is 10"},
		{"from 0", `"minimum": 1`, `"minimum": 0`, "", "/properties/count: minimum was 0 and is 1"},
		{"from 2", `"minimum": 1`, `"minimum": 2`, "/properties/count: minimum was 1 and is 2", ""},
		{"other entries", `"#/$defs/entry"`, `"#/$defs/x"`, `/properties/list/items: $ref was "#/$defs/entry" and is "#/$defs/x"`, `/properties/list/items: $ref was "#/$defs/entry" and is "#/$defs/x"`},
		{"another pattern", "^x$", "^y$", `/$defs/entry: pattern was "^x$" and is "^y$"`, `/$defs/entry: pattern was "^x$" and is "^y$"`},
		{"a pattern comes", `"type": "string",`, `"type": "string", "pattern": "x",`, `/properties/name: pattern was not there and is "x"`, `/properties/name: pattern was not there and is "x"`},
	} {
		newer := strings.Replace(older, c.from, c.to, 1)
		if got := strings.Join(narrower(read(t, older), read(t, newer), false), "; "); got != c.document {
			t.Errorf("%s, of a document: %q, want %q", c.what, got, c.document)
		}
		if got := strings.Join(narrower(read(t, older), read(t, newer), true), "; "); got != c.answer {
			t.Errorf("%s, of an answer: %q, want %q", c.what, got, c.answer)
		}
	}
}

func read(t *testing.T, text string) schema {
	t.Helper()
	var s schema
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatal(err)
	}
	return s
}
