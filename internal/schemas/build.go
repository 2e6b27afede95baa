package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"example.com/quoin/internal/form"
)

// builder makes the schema of a type: of what a person writes, or of an answer.
type builder struct {
	*schema
	said  *comments
	defs  map[string]object
	types map[string]reflect.Type // of objects that are defined
}

// build returns the schema as JSON.
func (s *schema) build(said *comments) []byte {
	b := &builder{s, said, make(map[string]object), make(map[string]reflect.Type)}
	o := obj("$schema", "https://json-schema.org/draft/2020-12/schema", "$id", "https://example.com/quoin/"+s.id, "title", s.title, "description", s.description)
	o = append(o, b.object(s.of)...)
	var defs object
	for name, def := range b.defs {
		defs = append(defs, member{name, def})
	}
	slices.SortFunc(defs, func(a, b member) int { return cmp.Compare(a.name, b.name) })
	for field := range s.more {
		if !b.used[field] {
			panic("no field or definition " + field)
		}
	}
	return append(o, member{"$defs", defs}).text()
}

// define refers to a definition, and makes it where there is none yet.
func (b *builder) define(name string, make func() object) object {
	if _, ok := b.defs[name]; !ok {
		b.defs[name] = nil // before what it holds, should that be itself
		b.defs[name] = make()
	}
	return obj("$ref", "#/$defs/"+name)
}

// value is the schema of a value that stands in a field.
func (b *builder) value(f *form.Field, s span, t reflect.Type) object {
	if as := b.written[t]; as != nil {
		t = as
	}
	if of := optional(t); of != nil {
		t = of
	}
	if leaf := b.leaf(f, s, t); leaf != nil {
		return leaf
	}
	switch t.Kind() {
	case reflect.Pointer:
		return b.value(f, s, t.Elem())
	case reflect.Slice:
		return b.list(f, s, t)
	case reflect.Array:
		return obj("type", "array", "items", b.value(f, s, t.Elem()), "minItems", t.Len(), "maxItems", t.Len())
	case reflect.Map:
		return obj("type", "object", "additionalProperties", b.value(f, s, t.Elem()))
	case reflect.Struct:
		return b.structure(f, s, t)
	}
	panic(fmt.Sprintf("no schema of %v, %s", t, f.Name))
}

// list is the schema of a list. A type of lists with a name has a definition.
func (b *builder) list(f *form.Field, s span, t reflect.Type) object {
	if t.Name() != "" {
		return b.named(t, func() object {
			o := append(obj("description", b.said.of(t, ""), "type", "array"), b.extra(b.name(t))...)
			if !o.has("items") {
				o.add(member{"items", b.value(&form.Field{Name: f.Name}, s, t.Elem())})
			}
			return o
		})
	}
	o := obj("type", "array", "items", b.value(f, s, t.Elem()))
	if f.Most > 0 {
		o.add(member{"maxItems", f.Most})
	}
	return o
}

func (b *builder) structure(f *form.Field, s span, t reflect.Type) object {
	if strings.HasPrefix(t.Name(), "Range[") {
		return b.ends(f, s, t)
	}
	return b.named(t, func() object {
		return append(obj("description", b.said.of(t, "")), b.object(t)...)
	})
}

// named refers to the definition of a type.
func (b *builder) named(t reflect.Type, make func() object) object {
	name := b.name(t)
	if was := b.types[name]; b.defs[name] != nil && was != t {
		panic(fmt.Sprintf("%s is the name of %v and of %v", name, was, t))
	}
	b.types[name] = t
	return b.define(name, make)
}

// ends is the schema of a range, whose ends are what its value is.
func (b *builder) ends(f *form.Field, s span, t reflect.Type) object {
	end := b.value(f, s, t.Field(0).Type)
	name := strings.TrimPrefix(end[0].value.(string), "#/$defs/")
	return b.define(name+"_range", func() object {
		var properties object
		var names []string
		for _, f := range form.Of(t).Fields {
			properties.add(member{f.Name, append(obj("description", b.said.of(t, f.Go.Name)), end...)})
			names = append(names, f.Name)
		}
		return obj("description", b.said.of(t, ""), "type", "object", "properties", properties, "required", names, "additionalProperties", false)
	})
}

// name is what the definition of a type is called.
func (b *builder) name(t reflect.Type) string {
	if own := b.names[t]; own != "" {
		return own
	}
	return snake(plainName(t))
}

// snake is a name in Go as a name in JSON: PurchaseLine is purchase_line.
func snake(name string) string {
	var out []rune
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			out = append(out, '_')
		}
		out = append(out, unicode.ToLower(r))
	}
	return string(out)
}

// optional is what an optional value is of; nil of all others.
func optional(t reflect.Type) reflect.Type {
	if !strings.HasPrefix(t.Name(), "Optional[") {
		return nil
	}
	get, _ := t.MethodByName("Get")
	return get.Type.Out(0)
}

// object is the schema of an object.
func (b *builder) object(t reflect.Type) object {
	if form.Of(t).Kind >= 0 {
		return b.union(t)
	}
	properties, required := b.fields(form.Of(t).Fields, b.name(t))
	o := obj("type", "object", "properties", properties)
	if len(required) > 0 {
		o.add(member{"required", required})
	}
	o = append(o, rivals(form.Of(t).Fields)...)
	o = append(o, b.extra(b.name(t))...)
	return append(o, member{"additionalProperties", false})
}

// fields are the schemas of the fields of an object, and which of them must be there.
func (b *builder) fields(fields []form.Field, owner string) (properties object, required []string) {
	if owner == "document" {
		properties = obj("$schema", obj("description", "The schema that an editor checks it by. It is ignored.", "type", "string"))
	}
	for i := range fields {
		f := &fields[i]
		says := b.said.of(f.Owner, f.Go.Name)
		of := f // which says what values there are
		if f.Dear != "" {
			of = &fields[i-1]
			says = cmp.Or(says, "The range of "+of.Name+", where it is not known exactly.")
		}
		if says == "" {
			panic(owner + "." + f.Name + " has no comment that says what it is")
		}
		o := obj("description", says)
		o.add(b.extra(owner + "." + f.Name)...)
		o.add(b.value(of, spanOf(of.Go.Tag.Get("range")), f.Go.Type)...)
		if b.answer {
			o.add(filled(f, o)...)
		}
		properties = append(properties, member{f.Name, o})
		if b.needs(f) {
			required = append(required, f.Name)
		}
	}
	return properties, required
}

// filled is what is known of a field of an answer that is left out where it is empty.
func filled(f *form.Field, o object) object {
	if !omitted(f) {
		return nil
	}
	for _, m := range o {
		switch kind, _ := m.value.(string); kind {
		case "boolean":
			return obj("const", true)
		case "string":
			return obj("minLength", 1)
		case "array":
			return obj("minItems", 1)
		}
	}
	return nil
}

func omitted(f *form.Field) bool { return strings.Contains(f.Go.Tag.Get("json"), ",omit") }

func (b *builder) needs(f *form.Field) bool {
	if b.answer {
		return !omitted(f)
	}
	return f.Need && len(f.Instead) == 0
}

// extra is what Go does not say of a definition, or of a field of one.
func (b *builder) extra(at string) object {
	b.used[at] = true
	return members(b.more[at])
}

// rivals is which fields stand in each other's place: one of them must be there, or one may.
func rivals(fields []form.Field) (o object) {
	var one []object // of which one must be
	var not []object // of which none may be
	for i := range fields {
		f := &fields[i]
		all := append([]string{f.Name}, f.Instead...)
		switch {
		case len(all) == 1:
		case f.Need:
			var each []object
			for _, name := range all {
				each = append(each, obj("required", []string{name}))
			}
			one = append(one, obj("oneOf", each))
		default:
			for k := range all {
				for _, name := range all[k+1:] {
					pair := obj("required", []string{all[k], name})
					if !slices.ContainsFunc(not, func(p object) bool { return reflect.DeepEqual(p, pair) }) {
						not = append(not, pair)
					}
				}
			}
		}
	}
	switch {
	case len(one) == 1:
		o.add(one[0]...)
	case len(one) > 1:
		o.add(member{"allOf", one})
	}
	if len(not) > 0 {
		o.add(member{"not", obj("anyOf", not)})
	}
	return o
}

// union is the schema of an object whose kind a word says.
func (b *builder) union(t reflect.Type) object {
	of := form.Of(t)
	words, kinds := form.KindsOf(t.Field(of.Kind).Type)
	properties, required := b.fields(of.Fields, b.name(t))
	properties.add(member{of.KindName, obj("description", b.said.of(t, t.Field(of.Kind).Name), "enum", words)})
	var each []object
	for i, k := range kinds {
		word := obj("properties", obj(of.KindName, obj("const", words[i])), "required", []string{of.KindName})
		each = append(each, obj("if", word, "then", b.kind(k, snake(plainName(k))+"_"+of.KindName)))
	}
	o := obj("type", "object", "properties", properties, "required", append(required, of.KindName))
	o = append(o, b.extra(b.name(t))...)
	return append(o, member{"allOf", each}, member{"unevaluatedProperties", false})
}

// kind refers to the definition of the fields that one kind has by itself.
func (b *builder) kind(t reflect.Type, name string) object {
	return b.define(name, func() object {
		properties, required := b.fields(form.Of(t).Fields, name)
		o := obj("description", b.said.of(t, ""), "properties", properties)
		if len(required) > 0 {
			o.add(member{"required", required})
		}
		o = append(o, rivals(form.Of(t).Fields)...)
		return append(o, b.extra(name)...)
	})
}

func raw(text string) json.RawMessage { return json.RawMessage(text) }

// a is a noun with its article.
func a(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "An " + noun
	}
	return "A " + noun
}
