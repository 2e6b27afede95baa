package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A new document has its price list at once; what is to be replaced in it is on standard error.
func TestNewDocument(t *testing.T) {
	var fresh, out, errs bytes.Buffer
	if status := run([]string{"-new"}, nil, &fresh, &errs); status != decided || errs.Len() > 0 {
		t.Fatalf("-new exits with %d: %s", status, &errs)
	}
	text := fresh.String()
	if status := run([]string{"-"}, strings.NewReader(text), &out, &errs); status != decided {
		t.Errorf("the new document exits with %d: %s", status, &errs)
	}
	said := errs.String()
	for _, want := range []string{
		"- the document: replace: your currency,",
		"- supplies[0] paper: replace: what a pack of your paper costs,",
		"- channels[0].orders[0]: replace: what buyers pay for postage,",
		"- channels[0].fees[0] card: replace: what the payment firm takes",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("standard error lacks %q:\n%s", want, said)
		}
	}
	if notes, lines := strings.Count(text, `"note": "replace: `), strings.Count(said, "\n- "); notes != lines {
		t.Errorf("%d notes, and %d are listed", notes, lines)
	}
}

// Every entry of the new document that holds a figure, be it in a list or an object inside, says
// what to put in its place.
func TestNewDocumentIsMarked(t *testing.T) {
	doc := parsed(t, newDocument).(map[string]any)
	if !marked(doc) {
		t.Error("the document has no note on currency and steps")
	}
	entries := 0
	check := func(at string, list any) {
		for i, entry := range list.([]any) {
			entries++
			if e := entry.(map[string]any); hasFigure(e) && !marked(e) {
				t.Errorf("%s[%d] has figures, and no note to replace them", at, i)
			}
		}
	}
	for name, v := range doc {
		if _, ok := v.([]any); ok {
			check(name, v)
		}
	}
	for i, c := range doc["channels"].([]any) {
		for _, name := range []string{"orders", "fees"} {
			if list, ok := c.(map[string]any)[name]; ok {
				check(fmt.Sprintf("channels[%d].%s", i, name), list)
			}
		}
	}
	if entries != 15 {
		t.Errorf("%d entries were looked at, want 4 supplies, a stage, 2 products, 2 channels with 2 orders and a fee, 3 rules: 15", entries)
	}
}

// It is the first document of the README, with today's prices.
func TestNewDocumentIsTheFirst(t *testing.T) {
	first, err := os.ReadFile("../first/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	doc := without(parsed(t, newDocument), "note")
	for _, p := range doc.(map[string]any)["products"].([]any) {
		delete(p.(map[string]any), "price")
	}
	if diff := cmp.Diff(parsed(t, first), doc); diff != "" {
		t.Errorf("-first +new:\n%s", diff)
	}
}

// A note has no part in any sum, and one that is rewritten is no longer listed.
func TestNotesChangeNothing(t *testing.T) {
	bare, err := json.Marshal(without(parsed(t, newDocument), "note"))
	if err != nil {
		t.Fatal(err)
	}
	rewritten := bytes.ReplaceAll(newDocument, []byte(`"replace: `), []byte(`"from the invoice: `))
	var want, got, errs bytes.Buffer
	run([]string{"-full", "-"}, bytes.NewReader(bare), &want, &errs)
	run([]string{"-full", "-"}, bytes.NewReader(rewritten), &got, &errs)
	if diff := cmp.Diff(want.String(), got.String()); diff != "" {
		t.Errorf("-without notes +with:\n%s", diff)
	}
	if errs.Len() > 0 {
		t.Errorf("standard error says %s", &errs)
	}
}

func parsed(t *testing.T, text []byte) (v any) {
	t.Helper()
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func marked(entry map[string]any) bool {
	note, _ := entry["note"].(string)
	return strings.HasPrefix(note, "replace: ") && len(note) > len("replace: ")
}

// hasFigure says whether a number, or a text with a digit, stands somewhere in a value, names and
// ids aside.
func hasFigure(v any) bool {
	switch v := v.(type) {
	case float64:
		return true
	case string:
		return strings.ContainsAny(v, "0123456789")
	case []any:
		for _, w := range v {
			if hasFigure(w) {
				return true
			}
		}
	case map[string]any:
		for name, w := range v {
			if name != "id" && name != "name" && hasFigure(w) {
				return true
			}
		}
	}
	return false
}

// without is a value without a member of this name in any object.
func without(v any, name string) any {
	switch v := v.(type) {
	case []any:
		for i := range v {
			v[i] = without(v[i], name)
		}
	case map[string]any:
		delete(v, name)
		for k := range v {
			v[k] = without(v[k], name)
		}
	}
	return v
}
