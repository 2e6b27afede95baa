package schematest_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
)

// Every field is tried in a part of the full document that is cut down as far as
// it stays sound and has all fields of the object: what a field takes does not
// depend on what else the shop has, and a small document is judged many times as
// fast.
func TestFieldsAnywhere(t *testing.T) {
	lists := make(map[string]objects)
	for _, s := range newMutant(t).spots() {
		top, _, _ := strings.Cut(strings.TrimLeft(s.field, "."), ".")
		if lists[top] == nil {
			lists[top] = make(objects)
		}
		lists[top].add(s)
	}
	var both, neither atomic.Int64
	t.Run("in", func(t *testing.T) { // which returns when all parts are through
		for _, top := range slices.Sorted(maps.Keys(lists)) {
			in := lists[top]
			t.Run(top, func(t *testing.T) {
				t.Parallel()
				whole := newMutant(t).part(in.fields())
				for _, object := range slices.Sorted(maps.Keys(in)) {
					fields := in[object]
					t.Run(object, func(t *testing.T) {
						t.Parallel()
						m := mutant{t, whole.schema, parsed(t, whole.text()).(map[string]any)}.part(fields)
						for _, s := range m.firsts(fields) {
							m.wrongType(s)
							m.entries(s)
							m.bounds(s, &both, &neither)
						}
					})
				}
			})
		}
	})
	if both.Load() == 0 || neither.Load() == 0 {
		t.Errorf("%d values refused and %d taken: the probes tell nothing", both.Load(), neither.Load())
	}
}

// objects is the fields of each object that the full document has.
type objects map[string]map[string]bool

func (o objects) add(s spot) {
	if o[s.object()] == nil {
		o[s.object()] = make(map[string]bool)
	}
	o[s.object()][s.field] = true
}

func (o objects) fields() map[string]bool {
	out := make(map[string]bool)
	for _, fields := range o {
		maps.Copy(out, fields)
	}
	return out
}

// A value of another JSON type is refused by both.
func (m mutant) wrongType(s spot) {
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

// As many entries as a list may have are taken, and one more is refused.
func (m mutant) entries(s spot) {
	list, ok := s.value.([]any)
	if !ok || len(list) == 0 {
		return
	}
	for _, n := range []int{0, 1, 2, 3, 4, 5, 10, 11, 12, 13, 20, 21, 50, 51, 100, 101, 200, 201, 1000, 1001} {
		s.set(slices.Repeat(list[:1], n))
		if v := m.judge(); !v.agree() {
			m.Errorf("%d entries in %s: the schema says %.400v, the decoder %.400v", n, s.at, v.schema, v.engine)
		}
	}
	s.set(s.value)
}

// probes are numbers, texts and words around the bounds of every field.
var probes = []any{
	json.Number("0"), json.Number("1"), json.Number("-1"), json.Number("2"), json.Number("0.5"), json.Number("1.5"),
	json.Number("365"), json.Number("366"), json.Number("999"), json.Number("1000"), json.Number("1001"),
	json.Number("100000"), json.Number("100001"), json.Number("100000000"), json.Number("100000001"),
	json.Number("1000000"), json.Number("1000001"), json.Number("1000000000"), json.Number("1000000001"),
	json.Number("999999999999"), json.Number("1000000000000"), json.Number("0.00000001"), json.Number("-0.1"),
	"0", "0.00", "1", "1.0", "-1", "2", "0.5", "1.5", "365", "366", "999", "1000", "1001", "100000", "100001", "100000000", "100000001", "1000000", "1000001", "1000000000", "1000000001",
	"999999999999", "1000000000000", "0.00000001", "0.000000001", "0.0000000000000001", "0.00000000000000001",
	"0%", "0.01%", "50%", "99.99%", "100%", "100.00%", "100.01%", "150%", "999999%", "1000000%", "-1%", "%", "5 %",
	"0 sheet", "0.0 m2", "1 sheet", "1  ml", "-1 sheet", "1sheet", "1 2up", "1 sheet of", "0.000000000001 g", "0.0000000000001 g",
	"0 mm", "1 mm", "1 cm3", "0 ml", "0 g", "30 g", "g", "cm", "sheet", "mass", "2026-03-01", "2026-02-30", "1 March",
	" ", "x", ".5", "5.", "1,5", "1e3", "NaN", "+Inf", strings.Repeat("7", 65), strings.Repeat("0", 64), strings.Repeat("0", 65),
	strings.Repeat("0", 19) + "1", strings.Repeat("0", 20) + "1", strings.Repeat("0", 61) + "1 g", strings.Repeat("0", 62) + "1 g",
	"item", "items", "order", "tax", "half_up", "down", "marginal", "whole", "average", "worst", "must", "prefer",
	"gross", "net", "after", "before", "discount", "collect", "prepaid", "shared", "forbidden", "shop", "maker", "royalty", "flat_fee",
	"up", "as_measured", "sales", "sold", "kept",
	"least", "nearest", "price", "step", "EUR", "USD", "eur", "EURO",
}

// A value exchanged for values around the bounds of all is right or wrong for
// both.
func (m mutant) bounds(s spot, both, neither *atomic.Int64) {
	switch s.value.(type) {
	case map[string]any, []any, bool:
		return
	}
	for _, p := range probes {
		s.set(p)
		v := m.judge()
		switch {
		case !v.agree():
			m.Errorf("%v in %s: the schema says %v, the decoder %v", p, s.at, v.schema, v.engine)
		case v.schema != nil:
			both.Add(1)
		default:
			neither.Add(1)
		}
	}
	s.set(s.value)
}

// firsts is one spot of each of the fields.
func (m mutant) firsts(fields map[string]bool) []spot {
	var out []spot
	found := make(map[string]bool)
	for _, s := range m.spots() {
		if fields[s.field] && !found[s.field] {
			found[s.field] = true
			out = append(out, s)
		}
	}
	return out
}

// part takes out of the document what can be left out while it is sound and has
// the fields.
func (m mutant) part(fields map[string]bool) mutant {
	may := func() bool {
		if len(m.firsts(fields)) < len(fields) {
			return false
		}
		v := m.judge()
		return v.schema == nil && len(v.engine) == 0
	}
	if !may() {
		m.Fatal("the full document is not sound")
	}
	prune(m.doc, may, nil)
	return m
}

// tiny is the size of what is not worth taking out.
const tiny = 40

// prune takes out of v what it may; set puts another list in place of v.
func prune(v any, may func() bool, set func(any)) {
	if text, _ := json.Marshal(v); len(text) < tiny {
		return
	}
	switch v := v.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			old := v[name]
			if delete(v, name); may() {
				continue
			}
			v[name] = old
			prune(old, may, func(x any) { v[name] = x })
		}
	case []any:
		for i := len(v) - 1; i >= 0; i-- {
			if fewer := slices.Delete(slices.Clone(v), i, i+1); len(fewer) > 0 {
				if set(fewer); may() {
					v = fewer
					continue
				}
				set(v)
			}
			prune(v[i], may, func(x any) { v[i] = x })
		}
	}
}
