package pricelist_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/pricelist"
)

// TestTwoDoors changes one value of a random document, mostly into something that is at
// fault, once as a value in Go and once in JSON: both are refused with the same problems, or
// decided alike.
func TestTwoDoors(t *testing.T) {
	drawn := make(map[string]int)
	rapid.Check(t, func(t *rapid.T) {
		text := genDocument(t)
		for range 8 {
			doc, err := pricelist.Decode(text)
			if err != nil {
				t.Skip("not sound")
			}
			drawn[changedInBoth(t, doc)]++
		}
	})
	t.Log(drawn)
	if !manyDrawn() {
		return
	}
	for _, name := range []string{"left out", "a word that is none", "text with a NUL", "below its range", "too fine", "sound"} {
		if drawn[name] == 0 {
			t.Errorf("never drawn: %s", name)
		}
	}
}

// manyDrawn reports whether as many are drawn as by default, so that all has been drawn that
// is not rare.
func manyDrawn() bool {
	n, err := strconv.Atoi(flag.Lookup("rapid.checks").Value.String())
	return err == nil && n >= 100
}

// changedInBoth changes a document at one place in Go and in JSON, and returns what was changed, or
// that it stayed sound.
func changedInBoth(t *rapid.T, doc pricelist.Document) string {
	var tree any
	text := must(json.Marshal(doc))(t) // in which nothing is written that Go takes for left out
	if err := decodeNumbers(text, &tree); err != nil {
		t.Fatal(err)
	}
	all := spots(nil, reflect.ValueOf(&doc).Elem(), form.Field{}, func() {})
	at := rapid.SampledFrom(all).Draw(t, "place")
	change := rapid.SampledFrom(at.changes()).Draw(t, "change")
	edited := edit(t, tree, at.path, change)
	if in, ok := parent(tree, at.path).(map[string]any); ok && change.gone && len(in) == 0 {
		return "an object of nothing, which in Go is none"
	}
	if change.value == nil {
		at.value.SetZero()
	} else {
		at.value.Set(reflect.ValueOf(change.value))
	}
	at.after()

	inGo, goErr := pricelist.Decide(doc)
	inJSON, jsonErr := pricelist.Price(edited)
	if diff := cmp.Diff(placeless(jsonErr), placeless(goErr)); diff != "" {
		t.Fatalf("%s at %v: other problems in Go (+) than in JSON (−):\n%s", change.name, at.path, diff)
	}
	_, goErr2 := pricelist.Open(doc)
	_, jsonErr2 := pricelist.DecodeShop(withoutProducts(t, tree))
	if diff := cmp.Diff(placeless(jsonErr2), placeless(goErr2)); diff != "" {
		t.Fatalf("%s at %v: other problems of a shop in Go (+) than in JSON (−):\n%s", change.name, at.path, diff)
	}
	if goErr != nil {
		return change.name
	}
	if got, want := trimmed(answered(t)(inGo, nil)), trimmed(answered(t)(inJSON, nil)); !bytes.Equal(got, want) {
		n := 0
		for n < min(len(got), len(want)) && got[n] == want[n] {
			n++
		}
		from := max(0, n-300)
		t.Fatalf("%s at %v: in Go decided … %.400s\nin JSON … %.400s", change.name, at.path, got[from:], want[from:])
	}
	return "sound"
}

var (
	zerosBehind = regexp.MustCompile(`(\d\.\d*?)0+("| |%|x)`)
	pointBehind = regexp.MustCompile(`(\d)\.("| |%|x)`)
)

// trimmed writes numbers without zeros behind: a rate of 0.00% is not written, and then is 0.
func trimmed(text []byte) []byte {
	return pointBehind.ReplaceAll(zerosBehind.ReplaceAll(text, []byte("$1$2")), []byte("$1$2"))
}

// spot is where a value stands in a document, in JSON and in Go.
type spot struct {
	path  []any // names and numbers
	value reflect.Value
	field form.Field
	after func() // puts a kind back where it came from
}

// spots lists all values of a document that can be set, but those in lists by name.
func spots(path []any, v reflect.Value, f form.Field, after func()) []spot {
	here := spot{slices.Clone(path), v, f, after}
	switch {
	case form.IsLeaf(v.Type()):
		return []spot{here}
	case v.Kind() == reflect.Pointer && !v.IsNil():
		return spots(path, v.Elem(), f, after)
	case v.Kind() == reflect.Slice:
		out := []spot{here}
		for i := range v.Len() {
			out = append(out, spots(append(path, i), v.Index(i), f, after)...)
		}
		return out
	case v.Kind() == reflect.Struct:
		var out []spot
		if len(path) > 0 && f.Need {
			out = append(out, here)
		}
		s := form.Of(v.Type())
		for _, f := range s.Fields {
			if of := v.Field(f.Index); f.Need || !of.IsZero() {
				out = append(out, spots(append(path, f.Name), of, f, after)...)
			}
		}
		if s.Kind >= 0 {
			kind := reflect.New(v.Field(s.Kind).Elem().Type()).Elem()
			kind.Set(v.Field(s.Kind).Elem())
			out = append(out, spots(path, kind, form.Field{}, func() { v.Field(s.Kind).Set(kind) })...)
			out = append(out, spot{append(slices.Clone(path), s.KindName), v.Field(s.Kind), form.Field{}, after})
		}
		return out
	}
	return nil
}

// swap is another value, which JSON may leave out.
type swap struct {
	name  string
	value any
	gone  bool
}

// changes are what may be made of a place.
func (p spot) changes() []swap {
	_, inList := p.path[len(p.path)-1].(int)
	zero := reflect.Zero(p.value.Type()).Interface()
	var out []swap
	if !inList {
		out = append(out, swap{"left out", zero, true})
	}
	add := func(name string, v any) { out = append(out, swap{name, v, false}) }
	amount := quoin.MustAmount
	switch p.value.Interface().(type) {
	case quoin.Amount:
		add("below its range", amount("-1"))
		add("a written 0", amount("0"))
		add("too fine", amount("10").Over(quoin.FactorOf(3)))
		add("too large", quoin.AmountOf(1_000_000_000_000, 0))
	case quoin.Optional[quoin.Amount]:
		add("below its range", quoin.Some(amount("-1")))
		add("a written 0", quoin.Some(amount("0")))
		add("too fine", quoin.Some(quoin.AmountOf(1, 9)))
	case quoin.Rate:
		add("below its range", quoin.MustRate("-1%"))
		add("a written 0", quoin.MustRate("0"))
		add("above its range", quoin.MustRate("1000%"))
	case quoin.Optional[quoin.Rate]:
		add("below its range", quoin.Some(quoin.MustRate("-1%")))
		add("above its range", quoin.Some(quoin.MustRate("1000%")))
	case quoin.Factor:
		add("below its range", quoin.MustFactor("-1"))
		add("a written 0", quoin.MustFactor("0"))
	case quoin.Quantity:
		add("below its range", quoin.MustQuantity("-1 sheet"))
		add("a unit that is none", quoin.Unit("a b").Times(quoin.FactorOf(1)))
		add("another unit", quoin.MustQuantity("1 parsec"))
	case quoin.Rounding:
		add("a word that is none", quoin.Rounding(77))
	case int64:
		add("below its range", int64(-1))
		add("above its range", int64(2_000_000_000))
	}
	switch p.value.Kind() {
	case reflect.String:
		text := func(name, s string) { add(name, reflect.ValueOf(s).Convert(p.value.Type()).Interface()) }
		text("a word that is none", "wurst")
		text("text with a NUL", "a\x00b")
		text("text that is too long", strings.Repeat("a", 401))
	case reflect.Slice:
		add("an empty list", reflect.MakeSlice(p.value.Type(), 0, 0).Interface())
		if n := p.value.Len(); n > 0 {
			twice := reflect.AppendSlice(p.value.Slice(0, n), p.value).Interface()
			add("all of it twice", twice)
		}
		if most := p.field.Most; most > 0 && most <= 100 && p.value.Len() > 0 {
			many := reflect.MakeSlice(p.value.Type(), 0, most+1)
			for range most + 1 {
				many = reflect.Append(many, p.value.Index(0))
			}
			add("too many", many.Interface())
		}
	}
	if len(out) == 0 { // what stands in a list, and is no text or number
		add("as it is", p.value.Interface())
	}
	return out
}

// edit is a document with a change at a place.
func edit(t *rapid.T, tree any, path []any, c swap) []byte {
	in := parent(tree, path)
	text, err := json.Marshal(c.value)
	if r, ok := c.value.(quoin.Rounding); ok && err != nil {
		text, err = json.Marshal(r.String()) // which is refused to be written
	}
	if err != nil {
		t.Fatal(err)
	}
	var value any
	if err := decodeNumbers(text, &value); err != nil {
		t.Fatal(err)
	}
	switch last := path[len(path)-1].(type) {
	case int:
		in.([]any)[last] = value
	case string:
		if in.(map[string]any)[last] = value; c.gone {
			delete(in.(map[string]any), last)
		}
	}
	text, err = json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// withoutProducts is a document as that of a shop whose products come in lots.
func withoutProducts(t *rapid.T, tree any) []byte {
	shop := maps.Clone(tree.(map[string]any))
	delete(shop, "products")
	text, err := json.Marshal(shop)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// parent is what the value at a path stands in.
func parent(tree any, path []any) any {
	for _, step := range path[:len(path)-1] {
		tree = reach(tree, step)
	}
	return tree
}

func reach(in, step any) any {
	if i, ok := step.(int); ok {
		return in.([]any)[i]
	}
	return in.(map[string]any)[step.(string)]
}

func decodeNumbers(text []byte, to *any) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	return d.Decode(to)
}

// placeless is problems without where they stand in a text.
func placeless(err error) []string {
	var ps quoin.Problems
	if errors.As(err, &ps) {
		out := make([]string, len(ps))
		for i, p := range ps {
			p.Line, p.Column = 0, 0
			out[i] = fmt.Sprintf("%+v", p)
		}
		slices.Sort(out) // the fields of an object have no order
		return out
	}
	if err != nil {
		return []string{err.Error()}
	}
	return nil
}
