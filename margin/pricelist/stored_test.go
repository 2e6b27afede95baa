package pricelist_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// stored is an answer after it was written and read. It is held against the answer: equal, written the same again, and the
// same to those who read it in print.
func stored(t fataler, a pricelist.Answer) pricelist.Answer {
	t.Helper()
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatalf("%v", err)
	}
	var back pricelist.Answer
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	if diff := cmp.Diff(a, back, cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("is read as another answer:\n%s", diff)
	}
	again, err := json.Marshal(back)
	if err != nil || string(again) != string(text) {
		t.Fatalf("%v; written again it is another text:\n%s", err, cmp.Diff(string(text), string(again)))
	}
	if diff := cmp.Diff(printed(a), printed(back)); diff != "" {
		t.Fatalf("in print it is another answer:\n%s", diff)
	}
	return back
}

// printed is an answer as the sheets have it.
func printed(a pricelist.Answer) map[string]string {
	out := map[string]string{"text": sheet.Text(a, 100), "narrow": sheet.Text(a, 46), "markdown": sheet.Markdown(a)}
	for _, l := range a.LineSheets {
		out["line sheet "+l.Channel] = sheet.LineSheet(l, 100) + sheet.LineSheetMarkdown(l) + sheet.LineSheetCSV(l)
	}
	for _, p := range a.Products[:min(len(a.Products), 3)] {
		out["why "+p.ID], _ = sheet.Why(a, p.ID, 100)
	}
	return out
}

// Every answer to a document of the tests is read back.
func TestAnswersAreReadBack(t *testing.T) {
	oneGoroutine(t)
	n, seen := 0, make(parts)
	for _, pattern := range []string{"testdata/cases/*.json", "testdata/codes/*.json", "testdata/hostile/*", "../../examples/shops/*.json", "../../examples/pricesheet/*.json", "../../internal/schematest/testdata/*.json"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			a, err := pricelist.Price(data)
			if err != nil || strings.HasSuffix(f, ".want.json") {
				continue
			}
			t.Run(filepath.Base(f), func(t *testing.T) {
				text, err := json.Marshal(stored(t, a))
				if err != nil {
					t.Fatal(err)
				}
				seen.note(text)
			})
			n++
		}
	}
	seen.wanted(t, "allowed_pattern", "run_start", "inputs", "parcels", "range", "sourcing", "uncertainty")
	if n < 40 {
		t.Errorf("%d answers", n)
	}
}

// What is told of some rules, runs and products alone is told of the same in an answer that was read.
func TestLongAnswersAreReadBack(t *testing.T) {
	oneGoroutine(t)
	var rules []string
	for i := range 14 {
		rules = append(rules, fmt.Sprintf(`{"id": "r%d", "rule": "contribution", "at_least": "9.00"}`, i))
	}
	for what, doc := range map[string]string{
		"fourteen rules": `{"version": 1, "currency": "EUR", "channels": [{"id": "shop"}], "products": [{"id": "a", "price": "12.00"}], "rules": [` + strings.Join(rules, ",") + `]}`,
		"many runs": `{"version": 1, "currency": "EUR", "price_step": "0.50", "channels": [{"id": "shop"}], "products": [{"id": "a"}, {"id": "b"}], "rules": [
			{"id": "end", "rule": "ending", "ends_in": ["0.00", "0.50", "4.50"], "every": "5.00"},
			{"id": "some", "rule": "price", "at_least": "7.00", "at_most": "900.00"}, {"id": "few", "rule": "price", "at_most": "30.00", "products": ["b"]}]}`,
		"yen":                 `{"version": 1, "currency": "JPY", "price_step": "50", "channels": [{"id": "shop"}], "products": [{"id": "a"}]}`,
		"1,500 that break":    strings.ReplaceAll(losing(1500), `"4.00"`, `"5.50"`),
		"a name of all sorts": `{"version": 1, "currency": "EUR", "channels": [{"id": "shop \"<&>\" \u2028"}], "products": [{"id": "Möwe im Ried", "name": "\u00ad\\"}]}`,
	} {
		t.Run(what, func(t *testing.T) {
			a := decidedShop(t, doc)
			back := stored(t, a)
			for i, p := range a.Products[:min(len(a.Products), 2)] {
				for _, at := range []string{"0.01", "5.00", "9.50", "29.50", "30.00", "30.50", "899.99", "900.00"} {
					price := quoin.MustAmount(at)
					if got := back.Products[i].Allowed; got.Contains(price) != p.Allowed.Contains(price) {
						t.Errorf("%s of %s: %t", at, p.ID, got.Contains(price))
					}
				}
			}
			listed := 0
			for _, w := range a.Warnings {
				if w.Code == pricelist.TodayBreaksRule {
					listed++
				}
			}
			if n := len(back.BreaksToday()); n != listed {
				t.Errorf("%d break a rule today, of %d listed", n, listed)
			}
		})
	}
}

// The answer to a lot is read back whatever its detail.
func TestLotsAreReadBack(t *testing.T) {
	shop := marshShop(t)
	for _, detail := range []pricelist.Detail{pricelist.Full, pricelist.Brief, pricelist.Figures} {
		lot := heron("heron", "1")
		lot.Key = "A-17"
		a, err := shop.Decide(lot, detail)
		if err != nil {
			t.Fatal(err)
		}
		if back := stored(t, a); back.Key != "A-17" || back.PriceStep.IsZero() {
			t.Errorf("detail %d: key %q, step %s", detail, back.Key, back.PriceStep)
		}
	}
}

func TestDrawnAnswersAreReadBack(t *testing.T) {
	t.Parallel()
	seen := make(parts)
	rapid.Check(t, func(t *rapid.T) { seen.note(must(json.Marshal(answersAreReadBack(t)))(t)) })
	if !manyDrawn() {
		return
	}
	seen.wanted(t, "because", "bought", "break_even", "conflict", "clashes", "credits", "dead_zones", `dropped":["`, "editions", "fairs", "gaps",
		"line_sheets", "lower", "machines", "worked_out", "months", "orders", "remedies", "sets", "≈", "warnings")
}

// parts is how many answers had what, of all that was asked for.
type parts map[string]int

func (p parts) note(text []byte) {
	for _, word := range []string{
		"allowed_pattern", "because", "bought", "break_even", "conflict", "clashes", "credits", "dead_zones", `dropped":["`, "editions", "fairs", "gaps",
		"run_start", "line_sheets", "lower", "machines", "worked_out", "months", "orders", "parcels", "range", "remedies", "sets", "sourcing", "uncertainty", "inputs", "≈", "warnings",
	} {
		p[word] += min(1, bytes.Count(text, []byte(word)))
	}
}

func (p parts) wanted(t *testing.T, words ...string) {
	for _, word := range words {
		if p[word] == 0 {
			t.Errorf("no answer had %s", word)
		}
	}
}

func FuzzAnswersAreReadBack(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { answersAreReadBack(t) }))
}

// answersAreReadBack: decoding an answer undoes encoding it, with and without its steps; and what it explains still
// follows, each line of a statement from the step with its code.
func answersAreReadBack(t *rapid.T) pricelist.Answer {
	a := must(pricelist.Decide(drawnWays(t)))(t)
	back := stored(t, a)
	for i, p := range back.Products {
		alone := must(json.Marshal(a.Products[i]))(t) // by itself, with prices and reasons that refer to nothing
		var again pricelist.ProductResult
		if err := json.Unmarshal(alone, &again); err != nil {
			t.Fatalf("%v in %s", err, alone)
		}
		if diff := cmp.Diff(a.Products[i], again, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("by itself %s is read as another product:\n%s", p.ID, diff)
		}
		for _, c := range p.Channels {
			if err := quoin.Replay(c.Steps.Steps()); err != nil {
				t.Fatalf("%s in %s: %v", p.ID, c.ID, err)
			}
			explained(t, c)
		}
	}
	for _, s := range back.Sets {
		reasoned(t, s.ID, s.Steps, map[quoin.StepCode]quoin.Figure{pricelist.StepExpected: s.Expected.Figure()})
	}
	for _, f := range back.Fairs {
		reasoned(t, f.ID, f.Steps, nil)
	}
	for _, e := range back.Editions {
		for _, r := range e.Products {
			reasoned(t, r.Product, r.Reasons, map[quoin.StepCode]quoin.Figure{edition.StepGross: r.Proceeds.Figure(), edition.StepKept: r.Contribution.Figure()})
		}
	}
	stored(t, back.WithoutSteps())
	if !cmp.Equal(a.WithoutSteps(), back.WithoutSteps(), cmpopts.EquateEmpty()) {
		t.Fatalf("without steps they are two answers")
	}
	return back
}
