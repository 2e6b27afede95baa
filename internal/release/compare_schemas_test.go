package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
)

// schema is a JSON Schema, or a part of one.
type schema = map[string]any

// narrower lists what a schema took away since an older one. A document that the older one
// accepts must be accepted by the newer, so nothing may vanish or take less; an answer must keep
// what the older one promised, so nothing may vanish or hold something else. What cannot be
// compared word by word, such as a pattern, may not change at all.
func narrower(older, newer schema, answer bool) []string {
	c := &comparison{answer: answer}
	c.compare("", older, newer)
	slices.Sort(c.found)
	return c.found
}

type comparison struct {
	answer bool
	found  []string
}

func (c *comparison) add(at, format string, args ...any) {
	c.found = append(c.found, cmp.Or(at, "(top)")+": "+fmt.Sprintf(format, args...))
}

// told are words that speak to people only.
var told = map[string]bool{"$schema": true, "$id": true, "title": true, "description": true, "examples": true}

func (c *comparison) compare(at string, older, newer schema) {
	words := maps.Clone(older)
	maps.Copy(words, newer)
	for _, word := range slices.Sorted(maps.Keys(words)) {
		if !told[word] {
			c.word(at, word, older[word], newer[word])
		}
	}
}

func (c *comparison) word(at, word string, older, newer any) {
	switch word {
	case "$defs", "properties":
		c.named(at+"/"+word, asSchema(older), asSchema(newer))
	case "items":
		c.compare(at+"/items", asSchema(older), asSchema(newer))
	case "required":
		c.required(at, texts(older), texts(newer))
	case "enum":
		c.gone(at, "the word", texts(older), texts(newer))
	case "maximum", "maxItems", "maxLength", "exclusiveMaximum":
		c.bound(at, word, older, newer, 1)
	case "minimum", "minItems", "minLength", "exclusiveMinimum":
		c.bound(at, word, older, newer, -1)
	default:
		if !reflect.DeepEqual(older, newer) {
			c.add(at, "%s was %s and is %s", word, asJSON(older), asJSON(newer))
		}
	}
}

// named compares parts that have names: none may vanish.
func (c *comparison) named(at string, older, newer schema) {
	for _, name := range slices.Sorted(maps.Keys(older)) {
		if newer[name] == nil {
			c.add(at+"/"+name, "is gone")
			continue
		}
		c.compare(at+"/"+name, asSchema(older[name]), asSchema(newer[name]))
	}
}

// required: a document may not have to give more, an answer may not promise less.
func (c *comparison) required(at string, older, newer []string) {
	if c.answer {
		c.gone(at, "the promised field", older, newer)
		return
	}
	for _, name := range newer {
		if !slices.Contains(older, name) {
			c.add(at, "%s has to be given now", name)
		}
	}
}

func (c *comparison) gone(at, what string, older, newer []string) {
	for _, name := range older {
		if !slices.Contains(newer, name) {
			c.add(at, "%s %s is gone", what, name)
		}
	}
}

// bound: a bound of a document may only move outward, or go; one of an answer may only move inward.
func (c *comparison) bound(at, word string, older, newer any, outward float64) {
	if c.answer {
		older, newer = newer, older
	}
	from, had := older.(float64)
	to, has := newer.(float64)
	if has && (!had || (to-from)*outward < 0) {
		c.add(at, "%s was %s and is %s", word, asJSON(older), asJSON(newer))
	}
}

func asSchema(v any) schema {
	s, _ := v.(schema)
	return s
}

func texts(v any) []string {
	list, _ := v.([]any)
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = strings.Trim(asJSON(x), `"`)
	}
	return out
}

func asJSON(v any) string {
	if v == nil {
		return "not there"
	}
	text, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(text)
}
