package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
	"example.com/quoin/margin/rule"
)

// Of a shop of 6,000 prints an answer tells four rules that refuse a price and no more, and the sheet and the story
// say that there are others.
func TestOthersAreSpokenOf(t *testing.T) {
	var products, rules []string
	for i := range 6000 {
		products = append(products, fmt.Sprintf(`{"id": "p%d"}`, i))
	}
	for i := range 6 {
		rules = append(rules, fmt.Sprintf(`{"id": "r%d", "rule": "price", "at_least": "9.00"}`, i))
	}
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "choose": "least", "channels": [{"id": "fair"}], "products": [` + strings.Join(products, ",") +
		`], "rules": [` + strings.Join(rules, ",") + `]}`))
	if err != nil {
		t.Fatal(err)
	}
	why, _ := a.Products[0].Lower.Why()
	if len(why.By) != 4 || !why.More {
		t.Fatalf("%d told, more %t", len(why.By), why.More)
	}
	if story, _ := sheet.Why(a, "p0", 200); !strings.Contains(story, "and other rules") {
		t.Errorf("%s", story)
	}
	a.Products = a.Products[:1]
	if text := sheet.Text(a, 200); !strings.Contains(text, `held from below by "r0", "r1", "r2", "r3" and others`) {
		t.Errorf("%s", text)
	}
}

// Names do nothing to the Markdown of a conflict either: a link, a tag and a column stay text.
func TestNamesInAConflict(t *testing.T) {
	const name = "<b>[a](b)|*c*"
	a := pricelist.Answer{
		Conflict: []string{name, "market"}, Clashes: []pricelist.RuleBounds{{Product: name, Rule: name}},
		Gaps: []rule.Gap{{Product: name, FloorBy: []string{name}}}, Remedies: []pricelist.Remedy{{Change: pricelist.GoodsTo, Name: name}},
	}
	text := sheet.Markdown(a)
	if n := strings.Count(text, `\<b\>\[a\]\(b\)\|\*c\*`); n != 6 || strings.Contains(text, name) {
		t.Errorf("%d of 6 names are escaped:\n%s", n, text)
	}
}
