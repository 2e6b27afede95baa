package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// object is a JSON object whose members stay in order.
type object []member

type member struct {
	name  string
	value any // an object, a list of them, or what encoding/json writes
}

func raw(text string) json.RawMessage { return json.RawMessage(text) }

// obj is an object of names, each with the value behind it, and of the members of objects that
// stand between them. Names that there are none of are left out, and a name that is there already.
func obj(parts ...any) (o object) {
	for i := 0; i < len(parts); i++ {
		name, ok := parts[i].(string)
		if !ok {
			for _, m := range parts[i].(object) {
				o.add(m)
			}
			continue
		}
		i++
		if names, ok := parts[i].([]string); !ok || len(names) > 0 {
			o.add(member{name, parts[i]})
		}
	}
	return o
}

func (o *object) add(m member) {
	if !o.has(m.name) {
		*o = append(*o, m)
	}
}

func (o object) has(name string) bool {
	return slices.ContainsFunc(o, func(m member) bool { return m.name == name })
}

// text writes an object as JSON: an open one with a line for each member, every other one in a line.
func (o object) text(indent string, open bool) string {
	parts := make([]string, len(o))
	for i, m := range o {
		parts[i] = fmt.Sprintf("%q: %s", m.name, m.text(indent+"  ", open))
	}
	return enclosed("{", parts, "}", indent, open)
}

// text writes the value of a member, of which properties and definitions, and what has properties,
// are open where it stands in what is.
func (m member) text(indent string, open bool) string {
	var parts []string
	switch v := m.value.(type) {
	case object:
		return v.text(indent, open && (m.name == "properties" || m.name == "$defs" || v.has("properties")))
	case []object:
		for _, o := range v {
			parts = append(parts, o.text("", false))
		}
		return enclosed("[", parts, "]", indent, open)
	case []string:
		for _, s := range v {
			parts = append(parts, plain(s))
		}
		return enclosed("[", parts, "]", indent, false)
	case json.RawMessage: // as it was written
		return string(v)
	}
	return plain(m.value)
}

func enclosed(begin string, parts []string, end, indent string, open bool) string {
	if !open {
		return begin + strings.Join(parts, ", ") + end
	}
	line := "\n" + indent + "  "
	return begin + line + strings.Join(parts, ","+line) + "\n" + indent + end
}

// plain writes a value as encoding/json does, but for what that does for HTML.
func plain(v any) string {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		panic(err)
	}
	return strings.TrimSpace(text.String())
}
