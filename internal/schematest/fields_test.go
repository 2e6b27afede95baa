package schematest_test

import (
	"encoding"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// walker goes down a Go type and the schema of its JSON side by side.
type walker struct {
	*testing.T
	root map[string]any
	// required says from its tag whether a field must be there.
	required func(reflect.StructField) bool
	seen     map[reflect.Type]bool
}

func newWalker(t *testing.T, id string, required func(reflect.StructField) bool) walker {
	return walker{t, parsed(t, texts()[id]).(map[string]any), required, make(map[reflect.Type]bool)}
}

func TestDocumentHasTheFieldsOfItsTypes(t *testing.T) {
	w := newWalker(t, documentID, func(f reflect.StructField) bool { return f.Tag.Get("need") != "" && f.Tag.Get("or") == "" })
	w.walk("document", reflect.TypeFor[pricelist.Document](), w.root)
}

// A field of the answer is always there unless its tag says that it is left
// out where it is empty.
func TestAnswerHasTheFieldsOfItsTypes(t *testing.T) {
	w := newWalker(t, answerID, func(f reflect.StructField) bool {
		_, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		return !strings.Contains(options, "omit")
	})
	properties := w.root["properties"].(map[string]any)
	w.walk("answer.steps", reflect.TypeFor[[]quoin.Step](), properties["steps"])
	delete(properties, "steps") // which stand in the type where they explain something
	w.walk("answer", reflect.TypeFor[pricelist.Answer](), w.root)
}

// whole follows references, and lays what stands beside a reference over what
// it refers to.
func (w walker) whole(v any) map[string]any {
	s, _ := v.(map[string]any)
	ref, ok := s["$ref"].(string)
	if !ok {
		return s
	}
	defs := w.root["$defs"].(map[string]any)
	out := maps.Clone(w.whole(defs[strings.TrimPrefix(ref, "#/$defs/")]))
	maps.Copy(out, s)
	delete(out, "$ref")
	return out
}

func (w walker) walk(at string, t reflect.Type, v any) {
	s := w.whole(v)
	switch {
	case s == nil:
		w.Errorf("%s: the schema has nothing for %v", at, t)
	case t == reflect.TypeFor[rule.Rule]():
		w.rules(at, s)
	case t == reflect.TypeFor[pricelist.AllowedPrices]():
		w.types(at, s, "array")
	case t == reflect.TypeFor[pricelist.Reasons]():
		w.types(at, s, "array") // written as where its steps stand in those of the answer
	case t == reflect.TypeFor[pricelist.WhyNot]():
		w.walk(at, reflect.TypeFor[rule.WhyNot](), v) // written as what it says
	case t == reflect.TypeFor[pricelist.ByChannel]():
		w.walk(at, reflect.TypeFor[[]pricelist.InChannel](), v) // written as its channels
	case optionalObject(t) != nil:
		w.walk(at, optionalObject(t), v)
	case isLeaf(t):
		w.leaf(at, t, s)
	case t.Kind() == reflect.Pointer:
		w.walk(at, t.Elem(), s)
	case t.Kind() == reflect.Slice:
		w.types(at, s, "array")
		w.walk(at+"[]", t.Elem(), s["items"])
	case t.Kind() == reflect.Map:
		w.types(at, s, "object")
		w.walk(at+"{}", t.Elem(), s["additionalProperties"])
	case t.Kind() == reflect.Struct && !w.seen[t]:
		w.seen[t] = true
		w.types(at, s, "object")
		w.fields(at, s, fieldsOf(t))
	}
}

// isLeaf reports whether t is written as one JSON value that is no list and no
// object.
func isLeaf(t reflect.Type) bool {
	switch t {
	case reflect.TypeFor[cost.Supply](), reflect.TypeFor[channel.Tier](), reflect.TypeFor[quoin.Step](), reflect.TypeFor[quoin.Operand](), reflect.TypeFor[pricelist.Answer]():
		return false // written as their fields, but for what is not there
	}
	switch t.Kind() {
	case reflect.String, reflect.Int, reflect.Int64, reflect.Bool:
		return true
	case reflect.Struct, reflect.Uint8:
		return t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) || t.Implements(reflect.TypeFor[json.Marshaler]())
	}
	return false
}

// optionalObject is the type of an optional value that is written as an object;
// nil of all others.
func optionalObject(t reflect.Type) reflect.Type {
	get, ok := t.MethodByName("Get")
	if !ok || t.PkgPath() != module || !strings.HasPrefix(t.Name(), "Optional[") {
		return nil
	}
	if of := get.Type.Out(0); of.Kind() == reflect.Struct && !isLeaf(of) {
		return of
	}
	return nil
}

// fieldsOf has the fields of an embedded struct among those of the struct
// around it, as its JSON has.
func fieldsOf(types ...reflect.Type) map[string]reflect.StructField {
	out := make(map[string]reflect.StructField)
	for _, t := range types {
		for i := range t.NumField() {
			f := t.Field(i)
			if f.Anonymous && f.Tag.Get("json") == "" && f.Type.Kind() == reflect.Struct {
				maps.Copy(out, fieldsOf(f.Type))
				continue
			}
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" && name != "-" {
				out[name] = f
			}
		}
	}
	return out
}

// fields compares the fields of an object.
func (w walker) fields(at string, s map[string]any, fields map[string]reflect.StructField) {
	properties, _ := s["properties"].(map[string]any)
	var required []string
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		f := fields[name]
		if w.required(f) {
			required = append(required, name)
		}
		property, ok := properties[name]
		if !ok {
			w.Errorf("%s.%s: a field of the type and not of the schema", at, name)
			continue
		}
		w.walk(at+"."+name, f.Type, property)
		most := f.Tag.Get("most")
		if got := w.whole(property)["maxItems"]; most != "" && got != json.Number(most) {
			w.Errorf("%s.%s: at most %v entries by the schema, %s by the type", at, name, got, most)
		} else if most == "" && got != nil && got != json.Number("0") {
			w.Errorf("%s.%s: at most %v entries by the schema alone", at, name, got)
		}
	}
	w.rivals(at, s, fields)
	for name := range properties {
		if _, ok := fields[name]; !ok && name != "$schema" {
			w.Errorf("%s.%s: a field of the schema and not of the type", at, name)
		}
	}
	if got := sorted(s["required"]); !slices.Equal(got, slices.Sorted(slices.Values(required))) {
		w.Errorf("%s: the schema requires %q, the type %q", at, got, required)
	}
}

// rivals compares which fields may stand in each other's place, of which an
// object has one at most, or exactly one where one must be given.
func (w walker) rivals(at string, s map[string]any, fields map[string]reflect.StructField) {
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		tag := fields[name].Tag
		all := append([]string{name}, strings.Fields(tag.Get("or"))...)
		for i, a := range all {
			for _, b := range all[:i] {
				if !excludes(s, a, b) {
					w.Errorf("%s: the schema takes %s beside %s", at, a, b)
				}
			}
		}
		if len(all) > 1 && tag.Get("need") != "" && s["oneOf"] == nil {
			w.Errorf("%s: the schema does not need one of %q", at, all)
		}
	}
}

// excludes reports whether a schema of an object refuses two fields together.
func excludes(s map[string]any, a, b string) bool {
	properties, _ := s["properties"].(map[string]any)
	for _, name := range []string{a, b} {
		if field, _ := properties[name].(map[string]any); field["not"] != nil {
			if never, _ := field["not"].(map[string]any); len(never) == 0 {
				return true // a field that is there to be refused
			}
		}
	}
	not, _ := s["not"].(map[string]any)
	several, _ := not["anyOf"].([]any)
	for _, branch := range append(slices.Clone(several), not) {
		if one, _ := branch.(map[string]any); slices.Equal(sorted(one["required"]), slices.Sorted(slices.Values([]string{a, b}))) {
			return true
		}
	}
	for _, word := range [][2]string{{a, b}, {b, a}} {
		if !alone(s, word[0], word[1]) {
			return false
		}
	}
	return true
}

// alone reports whether a choice of one needs a field without another.
func alone(s map[string]any, name, without string) bool {
	choice, _ := s["oneOf"].([]any)
	return slices.ContainsFunc(choice, func(branch any) bool {
		required := sorted(branch.(map[string]any)["required"])
		return slices.Contains(required, name) && !slices.Contains(required, without)
	})
}

func sorted(list any) []string {
	var out []string
	all, _ := list.([]any)
	for _, v := range all {
		out = append(out, v.(string))
	}
	slices.Sort(out)
	return out
}

// kindField is the field that a rule's kind stands in, which no struct has.
var kindField = reflect.StructField{Type: reflect.TypeFor[string](), Tag: `json:"rule" need:"yes"`}

// rules compares each kind of rule: its fields and those of every rule.
func (w walker) rules(at string, s map[string]any) {
	var kinds []string
	for _, k := range rule.Kinds() {
		kinds = append(kinds, k.String())
	}
	properties := s["properties"].(map[string]any)
	if got := sorted(w.whole(properties["rule"])["enum"]); !slices.Equal(got, slices.Sorted(slices.Values(kinds))) {
		w.Errorf("%s: the schema has the kinds %q, the rules are %q", at, got, kinds)
	}
	for _, k := range rule.Kinds() {
		fields := fieldsOf(reflect.TypeFor[rule.Rule](), reflect.TypeOf(k))
		fields["rule"] = kindField
		w.fields(at+" "+k.String(), w.ofKind(s, k.String()), fields)
	}
}

// ofKind is the schema of one kind of rule: of every rule, and what the
// condition on the kind adds.
func (w walker) ofKind(s map[string]any, kind string) map[string]any {
	properties := maps.Clone(s["properties"].(map[string]any))
	required := slices.Clone(s["required"].([]any))
	for _, branch := range s["allOf"].([]any) {
		b := branch.(map[string]any)
		asked := b["if"].(map[string]any)["properties"].(map[string]any)["rule"].(map[string]any)
		if asked["const"] != kind && !slices.Contains(sorted(asked["enum"]), kind) {
			continue
		}
		then := w.whole(b["then"])
		for name, property := range then["properties"].(map[string]any) {
			both := maps.Clone(w.whole(properties[name]))
			if both == nil {
				both = make(map[string]any)
			}
			maps.Copy(both, w.whole(property))
			properties[name] = both
		}
		more, _ := then["required"].([]any)
		required = append(required, more...)
	}
	return map[string]any{"properties": properties, "required": required}
}

func (w walker) types(at string, s map[string]any, want ...string) {
	var got []string
	switch t := s["type"].(type) {
	case string:
		got = []string{t}
	case []any:
		got = sorted(t)
	}
	if !slices.Equal(got, want) {
		w.Errorf("%s: the schema takes %q, the type %q", at, got, want)
	}
}

// open are words that the engine may find more of.
var open = []reflect.Type{reflect.TypeFor[quoin.Code](), reflect.TypeFor[quoin.StepCode](), reflect.TypeFor[quoin.Unit]()}

func (w walker) leaf(at string, t reflect.Type, s map[string]any) {
	document := w.root["$id"] == documentID
	switch {
	case t == reflect.TypeFor[quoin.Rounding]() || t.Kind() == reflect.String && t.PkgPath() != "" && !slices.Contains(open, t):
		if got, want := sorted(s["enum"]), words(w.T, t); !slices.Equal(got, want) {
			w.Errorf("%s: the schema has the words %q, %v is one of %q", at, got, t, want)
		}
	case t.Kind() == reflect.Bool && s["const"] == true: // left out where it is false
	case t.Kind() == reflect.Bool:
		w.types(at, s, "boolean")
	case document && strings.HasSuffix(at, ".rule"): // compared with the kinds
	case strings.Contains(t.String(), "int"):
		if document {
			w.types(at, s, "integer", "string")
		} else {
			w.types(at, s, "integer")
		}
	case document && isNumber(t):
		w.types(at, s, "number", "string")
	default:
		w.types(at, s, "string")
	}
}

// isNumber reports whether t can be written as a JSON number too.
func isNumber(t reflect.Type) bool {
	return slices.Contains([]reflect.Type{
		reflect.TypeFor[quoin.Amount](), reflect.TypeFor[quoin.Optional[quoin.Amount]](),
		reflect.TypeFor[quoin.Rate](), reflect.TypeFor[quoin.Optional[quoin.Rate]](),
		reflect.TypeFor[quoin.Factor](), reflect.TypeFor[quoin.Optional[quoin.Factor]](),
	}, t)
}
