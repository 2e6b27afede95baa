package schematest_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// spot is one value of a document, which can be exchanged in place.
type spot struct {
	at string
	// field is the field of the schema that it is of: the path without places in
	// lists, and another one in each kind of rule.
	field string
	value any
	set   func(any)
	// drop takes the field out; nil for an entry of a list.
	drop func()
}

// spots lists every value below v, parents first.
func spots(at, field string, v any) []spot {
	var out []spot
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			at, field := at+"."+name, field+"."+name
			out = append(out, spot{at, field, v[name], func(x any) { v[name] = x }, func() { delete(v, name) }})
			out = append(out, spots(at, field, v[name])...)
		}
	case []any:
		for i := range v {
			at, field := fmt.Sprintf("%s[%d]", at, i), field+"[]"+kindOf(field, v[i])
			out = append(out, spot{at, field, v[i], func(x any) { v[i] = x }, nil})
			out = append(out, spots(at, field, v[i])...)
		}
	}
	return out
}

// kindOf is the kind of a rule: what fields it has depends on that.
func kindOf(list string, entry any) string {
	if rule, ok := entry.(map[string]any); ok && list == ".rules" {
		return fmt.Sprint(rule["rule"])
	}
	return ""
}

// object is the field that a spot's field stands in.
func (s spot) object() string { return s.field[:strings.LastIndexAny(s.field, ".[")] }

// mutant is a sound document, to be changed and put right again.
type mutant struct {
	*testing.T
	schema *jsonschema.Schema
	doc    map[string]any
}

func newMutant(t *testing.T) mutant {
	doc := parsed(t, documents(t)[full]).(map[string]any)
	return mutant{t, compiled(t, documentID, ""), doc}
}

func (m mutant) spots() []spot { return spots("", "", m.doc) }

func (m mutant) judge() verdict {
	m.Helper()
	return judge(m.T, m.schema, m.text())
}

func (m mutant) text() []byte {
	m.Helper()
	text, err := json.Marshal(m.doc)
	if err != nil {
		m.Fatal(err)
	}
	return text
}

// refused checks that both refuse the document as it is, in the same place.
func (m mutant) refused(what string) {
	m.Helper()
	v := m.judge()
	if v.schema == nil || len(v.engine) == 0 || !v.meet() {
		m.Errorf("%s: the schema says %v, the decoder %v", what, v.schema, v.engine)
	}
}

// formal are the problems that a schema can see too. The others are of what
// fields mean together.
var formal = []quoin.Code{
	quoin.WrongType, quoin.UnknownField, quoin.MissingField, quoin.OutOfRange, quoin.TooMany,
	quoin.EmptyList, rule.UnknownRule, quoin.NotANumber, quoin.TooLong, quoin.TooLarge, quoin.TooFine,
	quoin.BarePercentage, quoin.MissingUnit, quoin.UnknownWord,
}

// agree reports whether the decoder refuses all that the schema refuses, and
// the schema all that is wrong by its form.
func (v verdict) agree() bool {
	if v.schema != nil {
		return len(v.engine) > 0
	}
	return !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool {
		return slices.Contains(formal, p.Code) && !besides(p.Wanted)
	})
}

// besides reports whether it is another field that sets the bound, or asks for the field.
func besides(wanted string) bool {
	return slices.ContainsFunc([]string{"of the net amount", "prints that are sold", "by which its tariff charges", "a day on or after"}, func(of string) bool {
		return strings.Contains(wanted, of)
	})
}

// The full document has every field of the schema, so that the tests below
// break each.
func TestFullDocumentIsFull(t *testing.T) {
	n := notes{root: parsed(t, pricelist.DocumentSchema()).(map[string]any), seen: make(map[string]bool)}
	n.note("document", n.root, any(newMutant(t).doc))
	each("document", n.root, func(at string, s map[string]any) {
		owner := at[strings.LastIndex(at, "/")+1:]
		if properties, ok := s["properties"].(map[string]any); ok && !conditional(at) {
			for name := range properties {
				if field := owner + "." + name; !n.seen[field] && field != "ink.rated_pages" && field != "document.$schema" { // which is there to be refused
					t.Errorf("%s is not in the full document", field)
				}
			}
		}
	})
}

// An unknown field beside any other is refused by both.
func TestUnknownFieldAnywhere(t *testing.T) {
	t.Parallel()
	m := newMutant(t)
	objects := []spot{{at: "the document", value: m.doc}}
	for _, s := range append(objects, m.spots()...) {
		if o, ok := s.value.(map[string]any); ok {
			o["misplaced"] = 7 // no list, for where lists have names of their own
			m.refused("an unknown field in " + s.at)
			delete(o, "misplaced")
		}
	}
}

// A field left out is missed by both or by none.
func TestFieldLeftOutAnywhere(t *testing.T) {
	t.Parallel()
	m := newMutant(t)
	missed := 0
	for _, s := range m.spots() {
		if s.drop == nil {
			continue
		}
		s.drop()
		if v := m.judge(); !v.agree() {
			t.Errorf("without %s: the schema says %v, the decoder %v", s.at, v.schema, v.engine)
		} else if v.schema != nil {
			missed++
		}
		s.set(s.value)
	}
	if missed == 0 {
		t.Error("no field is missed")
	}
}

// Documents that show the codes of problems are wrong by their form for both
// or for none.
func TestExamplesOfProblems(t *testing.T) {
	s := compiled(t, documentID, "")
	for name, data := range examples(t) {
		if _, err := jsonschema.UnmarshalJSON(bytes.NewReader(data)); err != nil {
			continue // the example of what is no JSON
		}
		if v := judge(t, s, data); !v.agree() {
			t.Errorf("%s: the schema says %v, the decoder %v", name, v.schema, v.engine)
		}
	}
}
