package main

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.com/quoin/margin/pricelist"
	"go.yaml.in/yaml/v4"
)

// converted is YAML as JSON in one line.
func converted(t *testing.T, text string) string {
	t.Helper()
	var root yaml.Node
	if err := yaml.Load([]byte(text), &root); err != nil {
		t.Fatal(err)
	}
	var doc document
	if err := doc.add(root.Content[0], 0); err != nil {
		t.Fatal(err)
	}
	if lines := bytes.Count(doc.json, []byte("\n")); lines != len(doc.nodes) {
		t.Errorf("%d line ends for %d nodes", lines, len(doc.nodes))
	}
	return strings.ReplaceAll(string(doc.json), "\n", "")
}

func TestScalarsStayAsWritten(t *testing.T) {
	for _, c := range []struct{ yaml, want string }{
		{"123456789012.12345678", `"123456789012.12345678"`},
		{"0123", `"0123"`},
		{"62.00", `"62.00"`},
		{"10", `"10"`},
		{"-0", `"-0"`},
		{"20%", `"20%"`},
		{"1e3", `"1e3"`},
		{"0x10", `"0x10"`},
		{"0o17", `"0o17"`},
		{"1_000", `"1_000"`},
		{".5", `".5"`},
		{".inf", `".inf"`},
		{"no", `"no"`},
		{"NO", `"NO"`},
		{"yes", `"yes"`},
		{"y", `"y"`},
		{"on", `"on"`},
		{"true", `true`},
		{"True", `true`},
		{"FALSE", `false`},
		{`"true"`, `"true"`},
		{"2026-01-05", `"2026-01-05"`},
		{"12:30:45", `"12:30:45"`},
		{"null", `null`},
		{"~", `null`},
		{"", `null`},
		{`""`, `""`},
		{`"null"`, `"null"`},
		{"0.5 sheet", `"0.5 sheet"`},
		{"8 1/2 x 11 in", `"8 1/2 x 11 in"`},
		{`'it''s "one"'`, `"it's \"one\""`},
		{`"a\tb"`, `"a\tb"`},
		{"'Eisvogel, groß'", `"Eisvogel, groß"`},
		{"|\n  one\n  two\n", `"one\ntwo\n"`},
		{">-\n  one\n  two\n", `"one two"`},
		{"one\n  two", `"one two"`},
		{"[1, [2], {}, []]", `["1",["2"],{},[]]`},
		{"{a: 1, b: {c: no}}", `{"a":"1","b":{"c":"no"}}`},
	} {
		want := `{"v":` + c.want + `}`
		if got := converted(t, "v: "+c.yaml); got != want {
			t.Errorf("%s is %s, wanted %s", c.yaml, got, want)
		}
	}
}

// The embedded shop is the first document of the library's README, which is JSON.
func TestEmbeddedShopIsTheFirstDocument(t *testing.T) {
	text, err := os.ReadFile("../first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	want, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	got, err := pricelist.Decode([]byte(converted(t, string(shop))))
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("found %+v, wanted %+v", got, want)
	}
}

// minimal is a shop with a place for one supply, one product and one channel.
const minimal = `version: 1
currency: EUR
supplies:
  - SUPPLY
products:
  - PRODUCT
channels:
  - CHANNEL
`

func shopOf(supply, product, channel string) string {
	return strings.NewReplacer("SUPPLY", supply, "PRODUCT", product, "CHANNEL", channel).Replace(minimal)
}

const (
	paper = "{id: paper, quantity: 50 sheet, price: 62.00}"
	heron = "{id: heron, bill: [{supply: paper, quantity: 1 sheet}]}"
	web   = "{id: web}"
)

// What is read of numbers and ids is what was written, to the digit.
func TestDigitsSurvive(t *testing.T) {
	text := shopOf("{id: 0123, quantity: 1 sheet, price: 123456789012.12345678}", "{id: no, name: 1e3, bill: [{supply: 0123, quantity: 0.10 sheet}]}", "{id: 0x10, orders: [{items: 10}], tax: {rate: 20%, in_price: true}}")
	doc, err := pricelist.Decode([]byte(converted(t, text)))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ got, want string }{
		{doc.Supplies[0].ID, "0123"},
		{doc.Supplies[0].Price.String(), "123456789012.12345678"},
		{doc.Products[0].ID, "no"},
		{doc.Products[0].Name, "1e3"},
		{doc.Products[0].Bill[0].Supply, "0123"},
		{doc.Channels[0].ID, "0x10"},
	} {
		if c.got != c.want {
			t.Errorf("found %s, wanted %s", c.got, c.want)
		}
	}
}

func TestProblemsStandAtLinesOfTheYAML(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a power of ten", shopOf("{id: paper, quantity: 50 sheet, price: 1e3}", heron, web), `f.yaml:4:44: supplies[0].price: found "1e3", wanted an amount`},
		{"a hexadecimal price", shopOf("{id: paper, quantity: 50 sheet, price: 0x10}", heron, web), `f.yaml:4:44: supplies[0].price: found "0x10"`},
		{"an underscore", shopOf("{id: paper, quantity: 50 sheet, price: 1_000}", heron, web), `f.yaml:4:44: supplies[0].price: found "1_000"`},
		{"a bare percentage", shopOf(paper, heron, "{id: web, tax: {rate: 7.4, in_price: true}}"), `f.yaml:8:27: channels[0].tax.rate: found "7.4"`},
		{"an underscore in a count", shopOf(paper, heron, "{id: web, orders: [{items: 1_0}]}"), `f.yaml:8:32: channels[0].orders[0].items: found "1_0", wanted a whole number`},
		{"yes for true", shopOf(paper, heron, "{id: web, tax: {rate: 20%, in_price: yes}}"), `f.yaml:8:42: channels[0].tax.in_price: found "yes", wanted true or false`},
		{"true as a name", shopOf(paper, heron, "{id: true}"), `f.yaml:8:10: channels[0].id: found true, wanted text`},
		{"nothing", shopOf("{id: paper, quantity: 50 sheet, price: }", heron, web), `f.yaml:4:44: supplies[0].price: found null, wanted an amount`},
		{"a date as a price", shopOf("{id: paper, quantity: 50 sheet, price: 2026-01-05}", heron, web), `f.yaml:4:44: supplies[0].price: found "2026-01-05"`},
		{"a text of several lines", shopOf("\n    id: paper\n    note: |\n      one\n      two\n    quantity: 50 sheet\n    price: 62.00", heron, web), `f.yaml:6:11: supplies[0].note: found`},
		{"a field that is not known", shopOf("{id: paper, quantity: 50 sheet, prise: 62.00}", heron, web), `f.yaml:4:44: supplies[0].prise: found`},
		{"a field twice", shopOf("{id: paper, id: card, quantity: 50 sheet, price: 62.00}", heron, web), `f.yaml:4:21: supplies[0].id: found`},
		{"what an alias stands for", shopOf("{id: paper, quantity: 50 sheet, price: &p x1}", heron, "{id: web, fees: [{name: card, fixed: *p}]}"), `f.yaml:4:44: channels[0].fees[0].fixed: found "x1"`},
		{"a merge", "<<: {version: 1}\n", `f.yaml:1:1: found what is no name of a field, wanted a name such as supplies, and merged fields written out`},
		{"a list as a name", "? [a]\n: 1\n", `f.yaml:1:3: found what is no name of a field`},
		{"a truth as a name", "true: 1\n", `f.yaml:1:1: found what is no name of a field`},
		{"a tag", "version: !!binary aGk=\n", `f.yaml:1:10: found the tag !!binary, wanted a value without a tag`},
		{"a list for a shop", "- version: 1\n", `f.yaml:1:1: found a list`},
		{"two documents", "version: 1\n---\nversion: 1\n", "expected single document, found multiple"},
		{"no document", "# only a comment\n", "no documents"},
		{"no YAML", "version: [1\n", "f.yaml: wanted one shop as YAML: "},
		{"an alias of nothing", "version: *one\n", "unknown anchor 'one'"},
	} {
		_, err := price("f.yaml", []byte(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: found %v, wanted %s", c.name, err, c.want)
		}
	}
}

func TestAllProblemsAtOnce(t *testing.T) {
	_, err := price("f.yaml", []byte(shopOf("{id: paper, quantity: 50, price: 62.00}", "{bill: []}", "{id: web, fees: [{name: card, rate: 2}]}")))
	if err == nil {
		t.Fatal("no problems")
	}
	for _, want := range []string{"f.yaml:4:27: supplies[0].quantity", "f.yaml:6:5: products[0].id", "f.yaml:8:41: channels[0].fees[0].rate"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("found\n%v\nwanted %s among it", err, want)
		}
	}
}

// There is a bound on how many problems are listed, and the last says that there are more.
func TestMoreProblemsThanAreListed(t *testing.T) {
	_, err := price("f.yaml", []byte(shopOf(paper, heron, web)+"rules:\n"+strings.Repeat("  - {prise: 1}\n", 5000)))
	if err == nil || !strings.Contains(err.Error(), "more_problems") {
		t.Errorf("found %.300v", err)
	}
}

// Ten lists of ten aliases each would be 10¹⁰ values; an anchor inside of itself never ends.
func TestAliasBombsAreRefused(t *testing.T) {
	var bomb strings.Builder
	bomb.WriteString("a0: &a0 x\n")
	for i := 1; i <= 10; i++ {
		n := string(rune('0' + i%10))
		before := string(rune('0' + (i-1)%10))
		if i == 10 {
			n = "x"
		}
		bomb.WriteString("a" + n + ": &a" + n + " [" + strings.TrimSuffix(strings.Repeat("*a"+before+", ", 10), ", ") + "]\n")
	}
	for name, text := range map[string]string{
		"a bomb":           bomb.String(),
		"a ring":           "a: &a [*a]\n",
		"a wide ring":      "a: &a [*a, *a]\n",
		"lists in lists":   "a: " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000) + "\n",
		"a ring of names":  "a: &a {b: *a, c: *a}\n",
		"a scalar in many": "a: &a " + strings.Repeat("x", 1<<16) + "\nb: [" + strings.Repeat("*a, ", 1000) + "]\n",
	} {
		began := time.Now()
		_, err := price("f.yaml", []byte(text))
		if err == nil || !strings.Contains(err.Error(), "found more than is read") {
			t.Errorf("%s: found %.200v", name, err)
		}
		if took := time.Since(began); took > 20*time.Second {
			t.Errorf("%s took %s", name, took)
		}
	}
}

// Aliases that are meant are written out.
func TestAliasesAreWrittenOut(t *testing.T) {
	if got, want := converted(t, "a: &x {b: [1]}\nc: *x\n"), `{"a":{"b":["1"]},"c":{"b":["1"]}}`; got != want {
		t.Errorf("found %s, wanted %s", got, want)
	}
}

func TestExitStatuses(t *testing.T) {
	folder := t.TempDir()
	file := func(name, text string) string {
		at := filepath.Join(folder, name)
		if err := os.WriteFile(at, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return at
	}
	conflict := shopOf(paper, heron, web) + "rules:\n  - {id: high, rule: price, at_least: 50}\n  - {id: low, rule: price, at_most: 40}\n"
	for _, c := range []struct {
		args      []string
		want      int
		out, errs string
	}{
		{nil, 0, "not tax, legal or accounting", ""},
		{[]string{file("conflict.yaml", conflict)}, 1, "high", ""},
		{[]string{file("faulty.yaml", "version: 2\n")}, 2, "", "faulty.yaml:1:10: version: found 2"},
		{[]string{filepath.Join(folder, "none.yaml")}, 2, "", "none.yaml"},
	} {
		var out, errs strings.Builder
		got := run(c.args, &out, &errs)
		if got != c.want || !strings.Contains(out.String(), c.out) || !strings.Contains(errs.String(), c.errs) || c.errs == "" && errs.Len() > 0 {
			t.Errorf("%v: status %d, wanted %d; printed\n%s\n%s", c.args, got, c.want, &out, &errs)
		}
	}
}

func FuzzAnyTextIsAnsweredOrRefused(f *testing.F) {
	f.Add(shop)
	f.Add([]byte("a: &a [*a]\n"))
	f.Add([]byte("? {}\n: !!str x\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		_, err := price("f.yaml", text)
		if err != nil && !strings.HasPrefix(err.Error(), "f.yaml:") {
			t.Errorf("found %v, wanted an error that names the file", err)
		}
	})
}
