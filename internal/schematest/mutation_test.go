package schematest_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// spot is one value of the full document, which can be exchanged in place.
type spot struct {
	at    string
	value any
	set   func(any)
	// drop takes the field out; nil for an entry of a list.
	drop func()
}

// spots lists every value below v, parents first.
func spots(at string, v any) []spot {
	var out []spot
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			out = append(out, spot{at + "." + name, v[name], func(x any) { v[name] = x }, func() { delete(v, name) }})
			out = append(out, spots(at+"."+name, v[name])...)
		}
	case []any:
		for i := range v {
			at := fmt.Sprintf("%s[%d]", at, i)
			out = append(out, spot{at, v[i], func(x any) { v[i] = x }, nil})
			out = append(out, spots(at, v[i])...)
		}
	}
	return out
}

var (
	index  = regexp.MustCompile(`\[[0-9]+\]`)
	common = regexp.MustCompile(`^\.rules\[[0-9]+\]\.(id|rule|strength|products|channels)\b`)
)

// field is the field of the schema that a spot is of: another one in each kind
// of rule, but for those that every rule has.
func (s spot) field() string {
	if strings.HasPrefix(s.at, ".rules[") && !common.MatchString(s.at) {
		return s.at
	}
	return index.ReplaceAllString(s.at, "[]")
}

// mutant is the full document, to be changed and put right again.
type mutant struct {
	*testing.T
	schema *jsonschema.Schema
	doc    map[string]any
}

func newMutant(t *testing.T) mutant {
	doc := parsed(t, documents(t)[full]).(map[string]any)
	return mutant{t, compiled(t, documentID, ""), doc}
}

func (m mutant) spots() []spot { return spots("", m.doc) }

func (m mutant) judge() verdict {
	m.Helper()
	text, err := json.Marshal(m.doc)
	if err != nil {
		m.Fatal(err)
	}
	return judge(m.T, m.schema, text)
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
	pricelist.WrongType, pricelist.UnknownField, pricelist.MissingField, pricelist.OutOfRange, pricelist.TooMany,
	pricelist.EmptyList, pricelist.UnknownRule, quoin.NotANumber, quoin.TooLong, quoin.TooLarge, quoin.TooFine,
	quoin.BarePercentage, quoin.MissingUnit, quoin.UnknownWord,
}

// agree reports whether the decoder refuses all that the schema refuses, and
// the schema all that is wrong by its form.
func (v verdict) agree() bool {
	if v.schema != nil {
		return len(v.engine) > 0
	}
	return !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return slices.Contains(formal, p.Code) })
}

// The full document has every field of the schema, so that the tests below
// break each.
func TestFullDocumentIsFull(t *testing.T) {
	n := notes{root: parsed(t, pricelist.DocumentSchema()).(map[string]any), seen: make(map[string]bool)}
	n.note("document", n.root, any(newMutant(t).doc))
	each("document", n.root, func(at string, s map[string]any) {
		owner := at[strings.LastIndex(at, "/")+1:]
		if properties, ok := s["properties"].(map[string]any); ok && owner != "if" && !strings.HasSuffix(owner, "_rule") {
			for name := range properties {
				if field := owner + "." + name; !n.seen[field] && field != "ink.rated_pages" { // which is there to be refused
					t.Errorf("%s is not in the full document", field)
				}
			}
		}
	})
	// Which definition a rule's fields are of depends on its kind.
	w := newWalker(t, documentID, nil)
	rules := n.root["$defs"].(map[string]any)["rule"].(map[string]any)
	for _, kind := range sorted(rules["properties"].(map[string]any)["rule"].(map[string]any)["enum"]) {
		wanted := slices.Sorted(maps.Keys(w.ofKind(rules, kind)["properties"].(map[string]any)))
		if !slices.ContainsFunc(newMutant(t).doc["rules"].([]any), func(r any) bool {
			fields := r.(map[string]any)
			return fields["rule"] == kind && slices.Equal(slices.Sorted(maps.Keys(fields)), wanted)
		}) {
			t.Errorf("the full document has no rule of kind %s with %q", kind, wanted)
		}
	}
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

// A value of another JSON type is refused by both.
func TestWrongTypeAnywhere(t *testing.T) {
	t.Parallel()
	m := newMutant(t)
	for _, s := range m.spots() {
		wrong := []any{nil, true, map[string]any{}, []any{}}
		switch v := s.value.(type) {
		case map[string]any:
			wrong = []any{nil, true, json.Number("7"), "word", []any{}, []any{v}}
		case []any:
			wrong = []any{nil, true, json.Number("7"), "word", map[string]any{}, map[string]any{"0": v}}
		case bool:
			wrong = []any{nil, json.Number("1"), "true", map[string]any{}, []any{}}
		}
		for _, w := range wrong {
			s.set(w)
			m.refused(fmt.Sprintf("%T %v in %s", w, w, s.at))
		}
		s.set(s.value)
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

// probes are numbers, texts and words around the bounds of every field.
var probes = []any{
	json.Number("0"), json.Number("1"), json.Number("-1"), json.Number("2"), json.Number("0.5"), json.Number("1.5"),
	json.Number("1000000"), json.Number("1000001"), json.Number("1000000000"), json.Number("1000000001"),
	json.Number("999999999999"), json.Number("1000000000000"), json.Number("0.00000001"), json.Number("-0.1"),
	"0", "0.00", "1", "1.0", "-1", "2", "0.5", "1.5", "1000000", "1000001", "1000000000", "1000000001",
	"999999999999", "1000000000000", "0.00000001", "0.000000001", "0.0000000000000001", "0.00000000000000001",
	"0%", "0.01%", "50%", "99.99%", "100%", "100.00%", "100.01%", "150%", "999999%", "1000000%", "-1%", "%", "5 %",
	"0 sheet", "0.0 m2", "1 sheet", "1  ml", "-1 sheet", "1sheet", "1 2up", "1 sheet of", "0.000000000001 g", "0.0000000000001 g",
	" ", "x", ".5", "5.", "1,5", "1e3", "NaN", "+Inf", strings.Repeat("7", 65), strings.Repeat("0", 64), strings.Repeat("0", 65),
	strings.Repeat("0", 19) + "1", strings.Repeat("0", 20) + "1", strings.Repeat("0", 61) + "1 g", strings.Repeat("0", 62) + "1 g",
	"item", "items", "order", "tax", "half_up", "down", "marginal", "whole", "average", "worst", "must", "prefer",
	"least", "nearest", "price", "step", "EUR", "USD", "eur", "EURO",
}

// Every single value, exchanged for values around the bounds of all, is right
// or wrong for both.
func TestBoundsAnywhere(t *testing.T) {
	t.Parallel()
	m := newMutant(t)
	var both, neither int
	probed := make(map[string]bool)
	for _, s := range m.spots() {
		switch s.value.(type) {
		case map[string]any, []any, bool:
			continue
		}
		if field := s.field(); probed[field] {
			continue
		} else {
			probed[field] = true
		}
		for _, p := range probes {
			s.set(p)
			v := m.judge()
			switch {
			case !v.agree():
				t.Errorf("%v in %s: the schema says %v, the decoder %v", p, s.at, v.schema, v.engine)
			case v.schema != nil:
				both++
			default:
				neither++
			}
		}
		s.set(s.value)
	}
	if both == 0 || neither == 0 {
		t.Errorf("%d values refused and %d taken: the probes tell nothing", both, neither)
	}
}

// As many entries as a list may have are taken, and one more is refused.
func TestEntriesOfListsAnywhere(t *testing.T) {
	t.Parallel()
	m := newMutant(t)
	for _, s := range m.spots() {
		list, ok := s.value.([]any)
		if !ok || len(list) == 0 {
			continue
		}
		for _, n := range []int{0, 1, 2, 3, 4, 12, 13, 50, 51, 100, 101, 200, 201, 1000, 1001} {
			s.set(slices.Repeat(list[:1], n))
			if v := m.judge(); !v.agree() {
				t.Errorf("%d entries in %s: the schema says %.400v, the decoder %.400v", n, s.at, v.schema, v.engine)
			}
		}
		s.set(s.value)
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
