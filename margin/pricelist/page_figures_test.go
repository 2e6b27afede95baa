package pricelist_test

import (
	"encoding/json"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// shown is an example on the page of the format: a sentence, or a cell of a table, and the
// document that its figures come from.
type shown struct {
	says string
	doc  string // laid over pageBase
	// figures are places in the answer with what stands on the page. A name alone is that of a
	// line of the first statement.
	figures []string
}

const pageBase = `{
  "version": 1, "currency": "EUR",
  "supplies": [
    {"id": "paper", "quantity": "50 sheet", "price": "62.00"},
    {"id": "time", "quantity": "1 h", "price": "20.00", "labour": "own"},
    {"id": "scan", "quantity": "1 piece", "price": "12.00"}],
  "products": [{"id": "heron", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
  "channels": [{"id": "web"}],
  "rules": [{"id": "floor", "rule": "price", "at_least": "1.00"}]
}`

// checkShown prices each example and holds its figures against the page, rounded to as many
// places as the page has.
func checkShown(t *testing.T, examples []shown) {
	t.Helper()
	text, err := os.ReadFile("document.md")
	if err != nil {
		t.Fatal(err)
	}
	page := strings.Join(strings.Fields(string(text)), " ")
	for _, e := range examples {
		if !strings.Contains(page, e.says) {
			t.Errorf("the page does not say %q", e.says)
		}
		answer := pagePriced(t, e)
		for _, f := range e.figures {
			at, want, ok := strings.Cut(f, " ")
			if !ok || !strings.Contains(e.says, want) {
				t.Errorf("%q does not say %q", e.says, f)
			}
			if !strings.Contains(at, ".") {
				at = "products.0.channels.0.statement." + at
			}
			if got := pageFigure(standsAt(answer, at), want); got != want {
				t.Errorf("%q: %s is %s, and the page says %s", e.says, at, got, want)
			}
		}
	}
}

func pagePriced(t *testing.T, e shown) any {
	t.Helper()
	var base, over any
	for text, into := range map[string]*any{pageBase: &base, e.doc: &over} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatalf("%q: %v in %s", e.says, err, text)
		}
	}
	whole, err := json.Marshal(laidOver(base, over))
	if err != nil {
		t.Fatal(err)
	}
	a, err := pricelist.Price(whole)
	if err != nil || len(a.Conflict) > 0 {
		t.Fatalf("%q: %v, %q", e.says, err, a.Conflict)
	}
	text, err := json.Marshal(a.WithoutSteps())
	if err != nil {
		t.Fatal(err)
	}
	var answer any
	if err := json.Unmarshal(text, &answer); err != nil {
		t.Fatal(err)
	}
	return answer
}

// standsAt is what stands at a place of the answer: names and numbers with points between.
func standsAt(v any, at string) any {
	for name := range strings.SplitSeq(at, ".") {
		switch in := v.(type) {
		case map[string]any:
			v = in[name]
		case []any:
			i, err := strconv.Atoi(name)
			if err != nil || i >= len(in) {
				return nil
			}
			v = in[i]
		default:
			return nil
		}
	}
	return v
}

// pageFigure writes a figure of the answer with the places that it has on the page.
func pageFigure(v any, like string) string {
	text, ok := v.(string)
	if !ok {
		out, _ := json.Marshal(v)
		return string(out)
	}
	unit := strings.TrimLeft(text, "-0123456789.")
	number, ok := new(big.Rat).SetString(strings.TrimSuffix(text, unit))
	if !ok {
		return text
	}
	_, places, _ := strings.Cut(strings.TrimSuffix(like, unit), ".")
	return number.FloatString(len(places)) + unit
}

// ofPrint is a document whose only product has these fields.
func ofPrint(fields string) string { return `{"products": [{"id": "heron", ` + fields + `}]}` }

// billed is a document whose only product has this one line.
func billed(line string) string { return ofPrint(`"bill": [` + line + `]`) }

// onWeb is a document whose only channel has these fields.
func onWeb(fields string) string { return `{"channels": [{"id": "web", ` + fields + `}]}` }

// charged is a document whose only channel has a fee with these fields.
func charged(fee string) string { return onWeb(`"fees": [{"name": "fee", ` + fee + `}]`) }

// overlaid is one document laid over another.
func overlaid(docs ...string) string {
	var out any
	for _, d := range docs {
		var v any
		if err := json.Unmarshal([]byte(d), &v); err != nil {
			panic(d)
		}
		out = laidOver(out, v)
	}
	text, err := json.Marshal(out)
	if err != nil {
		panic(err)
	}
	return string(text)
}
