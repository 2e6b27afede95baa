package main

import (
	"cmp"
	"fmt"
	"maps"
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
	used  map[string]bool         // by field or definition, of more
}

// build returns the schema as JSON.
func (s *schema) build(said *comments) []byte {
	b := &builder{s, said, make(map[string]object), make(map[string]reflect.Type), make(map[string]bool)}
	o := obj("$schema", "https://json-schema.org/draft/2020-12/schema", "$id", "https://example.com/quoin/"+s.id, "title", s.title,
		"description", s.description, b.object(s.of))
	var defs object
	for _, name := range slices.Sorted(maps.Keys(b.defs)) {
		defs.add(member{name, b.defs[name]})
	}
	for field := range s.more {
		if !b.used[field] {
			panic("no field or definition " + field)
		}
	}
	return []byte(obj(o, "$defs", defs).text("", true) + "\n")
}

func reference(name string) object { return obj("$ref", "#/$defs/"+name) }

// define refers to a definition, and makes it where there is none yet.
func (b *builder) define(name string, parts ...any) object {
	if b.defs[name] == nil {
		b.defs[name] = obj(parts...)
	}
	return reference(name)
}

// value is the schema of a value that stands in a field.
func (b *builder) value(f *form.Field, s span, t reflect.Type) object {
	if as := b.written[t]; as != nil {
		t = as
	}
	if strings.HasPrefix(t.Name(), "Optional[") {
		get, _ := t.MethodByName("Get")
		t = get.Type.Out(0)
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
		if strings.HasPrefix(t.Name(), "Range[") {
			return b.ends(f, s, t)
		}
		return b.named(t, func() object { return b.object(t) })
	}
	panic(fmt.Sprintf("no schema of %v, %s", t, f.Name))
}

// list is the schema of a list. A type of lists with a name has a definition.
func (b *builder) list(f *form.Field, s span, t reflect.Type) object {
	if t.Name() != "" {
		return b.named(t, func() object {
			return obj("type", "array", b.extra(b.name(t)), "items", b.value(&form.Field{Name: f.Name}, s, t.Elem()))
		})
	}
	o := obj("type", "array", "items", b.value(f, s, t.Elem()))
	if f.Some {
		o.add(member{"minItems", 1})
	}
	if f.Most > 0 {
		o.add(member{"maxItems", f.Most})
	}
	return o
}

// named refers to the definition of a type.
func (b *builder) named(t reflect.Type, make func() object) object {
	name := b.name(t)
	was := b.types[name]
	if was != t && (was != nil || b.defs[name] != nil) {
		panic(fmt.Sprintf("%s is the name of %v and of %v", name, was, t))
	}
	if was == nil {
		b.types[name] = t // before what it holds, should that be itself
		b.define(name, "description", b.said.of(t, ""), make())
	}
	return reference(name)
}

// ends is the schema of a range, whose ends are what its value is.
func (b *builder) ends(f *form.Field, s span, t reflect.Type) object {
	end := b.value(f, s, t.Field(0).Type)
	name := strings.TrimPrefix(end[0].value.(string), "#/$defs/")
	var properties object
	fields := form.Of(t).Fields
	for _, f := range fields {
		properties.add(member{f.Name, obj("description", b.said.of(t, f.Go.Name), end)})
	}
	return b.define(name+"_range", "description", b.said.of(t, ""), "type", "object", "properties", properties,
		"required", form.Names(fields), "additionalProperties", false)
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

// object is the schema of an object, also of one whose kind a word says.
func (b *builder) object(t reflect.Type) object {
	name, of := b.name(t), form.Of(t)
	if of.Kind < 0 {
		return obj("type", "object", b.members(t, name), "additionalProperties", false)
	}
	words, kinds := form.KindsOf(t.Field(of.Kind).Type)
	var each []object
	for i, k := range kinds {
		word := obj("properties", obj(of.KindName, obj("const", words[i])), "required", []string{of.KindName})
		own := snake(plainName(k)) + "_" + of.KindName
		each = append(each, obj("if", word, "then", b.define(own, "description", b.said.of(k, ""), b.members(k, own))))
	}
	return obj("type", "object", b.members(t, name), "allOf", each, "unevaluatedProperties", false)
}

// members is what is said of the members of an object.
func (b *builder) members(t reflect.Type, name string) object {
	of := form.Of(t)
	properties, required := b.fields(of.Fields, name)
	if of.Kind >= 0 {
		words, _ := form.KindsOf(t.Field(of.Kind).Type)
		properties.add(member{of.KindName, obj("description", b.said.of(t, t.Field(of.Kind).Name), "enum", words)})
		required = append(required, of.KindName)
	}
	return obj("properties", properties, "required", required, rivals(of.Fields), b.extra(name))
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
		o := obj("description", says, b.extra(owner+"."+f.Name), b.value(of, spanOf(of.Go.Tag.Get("range")), f.Go.Type))
		needed := f.Need && len(f.Instead) == 0
		if b.answer {
			needed = !omitted(f)
		}
		if needed {
			required = append(required, f.Name)
		} else if b.answer {
			o = filled(o)
		}
		properties.add(member{f.Name, o})
	}
	return properties, required
}

// filled adds what is known of a field of an answer that is left out where it is empty.
func filled(o object) object {
	for _, m := range o {
		switch m.value {
		case "boolean":
			return obj(o, "const", true)
		case "string":
			return obj(o, "minLength", 1)
		case "array":
			return obj(o, "minItems", 1)
		}
	}
	return o
}

func omitted(f *form.Field) bool { return strings.Contains(f.Go.Tag.Get("json"), ",omit") }

// extra is what Go does not say of a definition, or of a field of one.
func (b *builder) extra(at string) object {
	b.used[at] = true
	return b.more[at]
}

// rivals is which fields stand in each other's place: one of them must be there, or one may.
func rivals(fields []form.Field) object {
	var one []object // of which one must be
	var not []object // of which none may be
	for _, f := range fields {
		all := append([]string{f.Name}, f.Instead...)
		if f.Need && len(all) > 1 {
			var each []object
			for _, name := range all {
				each = append(each, obj("required", []string{name}))
			}
			one = append(one, obj("oneOf", each))
			continue
		}
		for k, name := range all {
			for _, other := range all[k+1:] {
				pair := obj("required", []string{name, other})
				if !slices.ContainsFunc(not, func(p object) bool { return reflect.DeepEqual(p, pair) }) {
					not = append(not, pair)
				}
			}
		}
	}
	var o object
	switch len(one) {
	case 0:
	case 1:
		o = one[0]
	default:
		o = obj("allOf", one)
	}
	if len(not) > 0 {
		o.add(member{"not", obj("anyOf", not)})
	}
	return o
}

// a is a noun with its article.
func a(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "An " + noun
	}
	return "A " + noun
}
