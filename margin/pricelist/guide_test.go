package pricelist_test

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// TestGuide prices each step of the guide on the page of the format: what a step shows is laid
// over the document so far, and each price that is named below it is the one decided. The prices
// are worked out by hand there. After step 7 it is the first document of the README.
func TestGuide(t *testing.T) {
	page, err := os.ReadFile("document.md")
	if err != nil {
		t.Fatal(err)
	}
	_, guide, _ := strings.Cut(string(page), "## A first document\n")
	guide, _, _ = strings.Cut(guide, "\n# Reference\n")
	steps := strings.Split(guide, "```json\n")[1:]
	if len(steps) != 10 {
		t.Fatalf("%d steps, want 10", len(steps))
	}
	var doc any
	for i, step := range steps {
		text, below, _ := strings.Cut(step, "```\n")
		below = strings.Join(strings.Fields(below), " ")
		var part any
		if err := json.Unmarshal([]byte(text), &part); err != nil {
			t.Fatal(err, text)
		}
		doc = laidOver(doc, part)
		if i == 6 {
			if diff := cmp.Diff(firstDocument(t), doc); diff != "" {
				t.Errorf("step 7 ends in another document than examples/first (-first +guide):\n%s", diff)
			}
		}
		whole, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		a, err := pricelist.Price(whole)
		if err != nil || len(a.Conflict) > 0 {
			t.Fatalf("%s: %v, %q", whole, err, a.Conflict)
		}
		named := regexp.MustCompile(`(heron-a\d) costs (\d+\.\d\d)`).FindAllStringSubmatch(below, -1)
		if len(named) != len(a.Products) {
			t.Errorf("%d prices are named below\n%s\nwant %d", len(named), text, len(a.Products))
			continue
		}
		if left := regexp.MustCompile(`the fair leaves (\d+\.\d\d)`).FindStringSubmatch(below); left != nil {
			if got := a.Currency.Round(a.Fairs[0].Result, quoin.HalfUp).String(); got != left[1] {
				t.Errorf("the fair leaves %s, and is said to leave %s", got, left[1])
			}
		}
		for i, p := range a.Products {
			if p.ID != named[i][1] || p.Price.String() != named[i][2] {
				t.Errorf("below\n%s\n%s costs %s, and is said to cost %s", text, p.ID, p.Price, named[i][2])
			}
		}
	}
}

func firstDocument(t *testing.T) (doc any) {
	t.Helper()
	text, err := os.ReadFile("../../examples/first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// laidOver is a value with another laid over it: objects field by field, lists of what has an id
// entry by entry, all else as a whole.
func laidOver(below, above any) any {
	switch above := above.(type) {
	case map[string]any:
		out, ok := below.(map[string]any)
		if !ok {
			return above
		}
		for name, v := range above {
			out[name] = laidOver(out[name], v)
		}
		return out
	case []any:
		out, _ := below.([]any)
		for _, v := range above {
			id := idOf(v)
			if id == nil {
				return above
			}
			at := -1
			for i, w := range out {
				if idOf(w) == id {
					at = i
				}
			}
			if at < 0 {
				out = append(out, v)
			} else {
				out[at] = laidOver(out[at], v)
			}
		}
		return out
	}
	return above
}

func idOf(v any) any {
	entry, _ := v.(map[string]any)
	return entry["id"]
}
