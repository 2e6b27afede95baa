package pricelist_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Law 13: every figure that a step takes from a path stands at that path in the document.
func TestFiguresStandWhereStepsSay(t *testing.T) {
	t.Parallel()
	n := make(taken)
	rapid.Check(t, func(t *rapid.T) {
		d := drawnWays(t)
		n.holds(t, must(json.Marshal(d))(t), must(pricelist.Decide(d))(t))
	})
	n.among(t, "drawn")
}

func FuzzFiguresStandWhereStepsSay(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		d := drawnWays(t)
		make(taken).holds(t, must(json.Marshal(d))(t), must(pricelist.Decide(d))(t))
	}))
}

// So do those of the examples, as they are written.
func TestFiguresOfExamplesStandWhereStepsSay(t *testing.T) {
	n := make(taken)
	for _, pattern := range []string{"../../examples/*/*.json", "testdata/codes/*.json", "testdata/cases/*.json", "../../internal/schematest/testdata/full.json"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			if a, err := pricelist.Price(text); err == nil {
				n.holds(t, text, a)
			}
		}
	}
	n.among(t, "written")
}

// taken counts the figures that were found, by the last field of their paths.
type taken map[string]int

func (n taken) among(t *testing.T, what string) {
	sum := 0
	for _, count := range n {
		sum += count
	}
	t.Logf("%d %s figures, of %d fields: %v", sum, what, len(n), slices.Sorted(maps.Keys(n)))
	if what == "drawn" && !manyDrawn() {
		return
	}
	for _, field := range []string{"rate", "price", "quantity", "fixed", "items", "share", "postage", "shipping", "yield", "cost"} {
		if n[field] == 0 {
			t.Errorf("no figure of a field %s was taken", field)
		}
	}
	if sum < 1000 {
		t.Errorf("%d figures were taken, wanted a thousand", sum)
	}
}

func (n taken) holds(t fataler, text []byte, a pricelist.Answer) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var document any
	if err := d.Decode(&document); err != nil {
		t.Fatalf("%v", err)
	}
	for _, steps := range reasonsOf(a) {
		for _, s := range steps {
			for _, o := range s.Operands {
				if o.Path.IsZero() || o.Step != 0 || o.Default {
					continue
				}
				if found := foundAt(document, o.Path.String()); !sameFigure(found, o) {
					t.Fatalf("%s %s: %s is %s, and at %s stands %v", s.At, s.Code, o.Name, o.Value, o.Path, found)
				}
				n[lastField(o.Path.String())]++
			}
		}
	}
}

// reasonsOf are the reasons of all parts of an answer.
func reasonsOf(a pricelist.Answer) [][]quoin.Step {
	var out [][]quoin.Step
	for _, p := range a.Products {
		for _, c := range p.Channels {
			out = append(out, c.Steps.Steps())
		}
	}
	for _, f := range a.Fairs {
		out = append(out, f.Steps.Steps())
	}
	for _, s := range a.Sets {
		out = append(out, s.Steps.Steps())
	}
	for _, e := range a.Editions {
		for _, p := range e.Products {
			out = append(out, p.Reasons.Steps())
		}
	}
	return out
}

// dots writes channels[0].fees[1] as channels.0.fees.1.
var dots = strings.NewReplacer("[", ".", "]", "")

func lastField(path string) string {
	return strings.TrimRight(path[strings.LastIndex(path, ".")+1:], "[]0123456789")
}

// sameFigure compares what a document says, such as "7.4%", "25 sheet" or "A5", with a figure. Of a size,
// a figure is its width or its height.
func sameFigure(found any, o quoin.Operand) bool {
	text := fmt.Sprint(found)
	_, unit, _ := strings.Cut(o.Value.String(), " ")
	if size, err := quoin.ParseSize(text); err == nil && unit != "" {
		side := size.Width()
		if o.Name == "height" {
			side = size.Height()
		}
		text = side.String()
	}
	if q, err := quoin.ParseQuantity(text); err == nil {
		if unit == "" { // the areas and the inks that are added up
			unit = map[string]string{"area": "m2", "ink": "ml"}[o.Name]
		}
		in, err := q.In(cmp.Or(quoin.Unit(unit), q.Unit()))
		return err == nil && in.Number().Rat().Cmp(o.Value.Rat()) == 0
	}
	text = strings.TrimSuffix(text, "x")
	number, percent := strings.CutSuffix(text, "%")
	r, ok := new(big.Rat).SetString(number)
	if !ok {
		return false
	}
	if percent {
		r.Quo(r, big.NewRat(100, 1))
	}
	return r.Cmp(o.Value.Rat()) == 0
}

// foundAt is what a document has at a path. What a product, a channel or an entry of its list takes over from
// another one is found there.
func foundAt(document any, path string) any {
	path = dots.Replace(path)
	if found := standsAt(document, path); found != nil {
		return found
	}
	list, rest, _ := strings.Cut(path, ".")
	n, rest, _ := strings.Cut(rest, ".")
	based, _ := standsAt(document, list+"."+n+".extends").(string)
	entries, _ := standsAt(document, list).([]any)
	for i := range entries {
		if at := fmt.Sprintf("%s.%d.", list, i); based != "" && standsAt(document, at+"id") == based {
			return foundAt(document, at+rest)
		}
	}
	return nil
}
