package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// object is a JSON object whose members stay in order.
type object []member

type member struct {
	name  string
	value any // an object, a json.RawMessage, or what encoding/json writes
}

// obj is an object of names, each with the value behind it.
func obj(pairs ...any) object {
	var o object
	for i := 0; i < len(pairs); i += 2 {
		o = append(o, member{pairs[i].(string), pairs[i+1]})
	}
	return o
}

// add adds members to an object. One that has a name already is left out.
func (o *object) add(members ...member) {
	for _, m := range members {
		if !slices.ContainsFunc(*o, func(has member) bool { return has.name == m.name }) {
			*o = append(*o, m)
		}
	}
}

// members are those of an object written as JSON.
func members(text string) object {
	if text == "" {
		return nil
	}
	d := json.NewDecoder(bytes.NewReader([]byte("{" + text + "}")))
	_, err := d.Token()
	var o object
	for err == nil && d.More() {
		var name json.Token
		var value json.RawMessage
		if name, err = d.Token(); err == nil {
			err = d.Decode(&value)
			o = append(o, member{fmt.Sprint(name), value})
		}
	}
	if err != nil {
		panic(fmt.Sprintf("%v in %s", err, text))
	}
	return o
}

// text writes an object as JSON: one with properties or definitions, and those, with a line
// for each member, every other one in a line.
func (o object) text() []byte {
	var b bytes.Buffer
	o.write(&b, "", true)
	b.WriteByte('\n')
	return b.Bytes()
}

func (o object) write(b *bytes.Buffer, indent string, open bool) {
	apart, end, inner := ", ", "", ""
	if open {
		inner = indent + "  "
		apart, end = ",\n"+inner, "\n"+indent
		b.WriteString("{\n" + inner)
	} else {
		b.WriteByte('{')
	}
	for i, m := range o {
		if o[:i].has(m.name) {
			panic(fmt.Sprintf("%q twice in %v", m.name, o))
		}
		if i > 0 {
			b.WriteString(apart)
		}
		fmt.Fprintf(b, "%q: ", m.name)
		in, ok := m.value.(object)
		if !ok {
			writeValue(b, m.value, inner)
			continue
		}
		in.write(b, inner, open && (m.name == "properties" || m.name == "$defs" || in.has("properties")))
	}
	b.WriteString(end + "}")
}

func (o object) has(name string) bool {
	return slices.ContainsFunc(o, func(m member) bool { return m.name == name })
}

func writeValue(b *bytes.Buffer, v any, indent string) {
	switch v := v.(type) {
	case json.RawMessage:
		b.Write(v)
	case []object:
		writeList(b, v, indent, func(o object) { o.write(b, "", false) })
	case []string:
		writeList(b, v, "", func(s string) { writeValue(b, s, "") })
	default:
		var text bytes.Buffer
		e := json.NewEncoder(&text)
		e.SetEscapeHTML(false)
		if err := e.Encode(v); err != nil {
			panic(err)
		}
		b.Write(bytes.TrimSpace(text.Bytes()))
	}
}

// writeList writes a list in a line; with an indent in a line for each entry.
func writeList[T any](b *bytes.Buffer, list []T, indent string, write func(T)) {
	begin, apart, end := "[", ", ", "]"
	if indent != "" {
		begin, apart, end = "[\n  "+indent, ",\n  "+indent, "\n"+indent+"]"
	}
	b.WriteString(begin)
	for i, v := range list {
		if i > 0 {
			b.WriteString(apart)
		}
		write(v)
	}
	b.WriteString(end)
}
