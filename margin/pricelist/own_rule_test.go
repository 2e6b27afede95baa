package pricelist_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// wholePrices is a print that may cost 1 to 40 in whole euros.
func wholePrices(id string) rule.Item {
	g, err := quoin.NewGrid(quoin.AmountOf(1, 0), quoin.AmountOf(40, 0))
	if err != nil {
		panic(err)
	}
	return rule.NewItem(id, g)
}

// notThirteen allows no price from 13.00 to below 14.00; judged is where its judgement has
// the hole begin.
func notThirteen(judged quoin.Amount) rule.Custom {
	from, to := quoin.AmountOf(13, 0), quoin.AmountOf(14, 0)
	return rule.Custom{
		Name: "not 13",
		Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
			step := it.Grid.Step()
			return rule.All(it.Grid).Without(rule.Between(it.Grid, from, to.Sub(step)))
		},
		Judge: func(_ rule.Item, _ []rule.Offer, p quoin.Amount) []rule.Verdict {
			return []rule.Verdict{{OK: p.Cmp(judged) < 0 || p.Cmp(to) >= 0, Got: p.Figure(), Reason: "buyers here take 13 for bad luck"}}
		},
	}
}

// small is a print of paper for 2.00, sold at a fair that takes nothing; rules follow.
func small(t *testing.T, rules string) pricelist.Document {
	t.Helper()
	doc, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "price_limit": "40.00", "choose": "least",
	  "supplies": [{"id": "paper", "quantity": "3 sheet", "price": "6.00", "price_range": {"low": "3.00", "high": "9.00"}}],
	  "channels": [{"id": "fair"}], "products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}], "rules": [` + rules + `]}`))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// A rule of the caller's own decides beside those of a document, and is told of: why the
// price is no lower, with its own words. Goods of 2.00 and 11.50 to be left ask for 13.50,
// which the hole moves to 14.00; with paper at 1.00, for 12.50; at 3.00, for 14.50.
func TestOwnRuleInADocument(t *testing.T) {
	doc := small(t, `{"id": "keeps", "rule": "contribution", "at_least": "11.50"}`)
	var ends []rule.RangeEnd
	own := notThirteen(quoin.AmountOf(13, 0))
	allowed := own.Allowed
	own.Allowed = func(it rule.Item, offers []rule.Offer) (rule.Set, error) {
		ends = append(ends, it.End)
		return allowed(it, offers)
	}
	doc.Rules = append(doc.Rules, rule.Rule{ID: "no bad luck", Kind: own})
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	p := a.Products[0]
	low, _ := p.Uncertainty.Cheapest.Price.Get()
	high, _ := p.Uncertainty.Dearest.Price.Get()
	if got := fmt.Sprint(p.Price, low, high); got != "14.00 12.50 14.50" {
		t.Errorf("priced at %s", got)
	}
	if !slices.Equal(slices.Compact(ends), []rule.RangeEnd{rule.Likely, rule.Cheapest, rule.Dearest}) {
		t.Errorf("asked about %q", ends)
	}
	why, ok := p.Lower.Why()
	if !ok || len(why.By) != 1 || why.By[0].Rule != "no bad luck" || why.By[0].Kind != "not 13" || why.By[0].Bound != rule.OneOf || !strings.Contains(why.By[0].Reason, "bad luck") {
		t.Errorf("why no lower: %+v", why)
	}
	text, err := json.Marshal(a)
	if err != nil || !strings.Contains(string(text), `"reason":"buyers here take 13 for bad luck"`) {
		t.Errorf("%v: %s", err, text)
	}
}

// A conflict names it, and others of its rules can be changed to end it: of 13.10 to 13.90
// the least may go down to 12.99, and the greatest up to 14.00.
func TestConflictWithAnOwnRule(t *testing.T) {
	doc := small(t, `{"id": "about thirteen", "rule": "price", "at_least": "13.10", "at_most": "13.90"}`)
	doc.Rules = append(doc.Rules, rule.Rule{ID: "no bad luck", Kind: notThirteen(quoin.AmountOf(13, 0))})
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(a.Conflict, []string{"about thirteen", "no bad luck"}) || len(a.Clashes) != 2 || a.Clashes[1].Rule != "no bad luck" {
		t.Fatalf("conflict %q, clashes %+v", a.Conflict, a.Clashes)
	}
	var got []string
	for _, r := range a.Remedies {
		got = append(got, r.Path+" "+r.To.String())
	}
	if want := []string{"rules[0].at_least 12.99", "rules[0].at_most 14.00"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// What a document made in Go cannot be decided by is refused where it stands, by Check,
// Decide and Open alike.
func TestRulesMadeInGoAreChecked(t *testing.T) {
	var none *rule.SizeRatio
	for _, c := range []struct {
		what string
		kind rule.Kind
		code quoin.Code
	}{
		{"a pointer", &rule.Price{}, quoin.WrongType},
		{"a pointer to nothing", none, quoin.WrongType},
		{"no functions", rule.Custom{Name: "mine"}, rule.BadOwnRule},
		{"no kind", nil, quoin.MissingField},
	} {
		doc := small(t, ``)
		doc.Rules = []rule.Rule{{ID: "a", Kind: c.kind}}
		_, decided := pricelist.Decide(doc)
		_, opened := pricelist.Open(doc)
		for door, err := range map[string]error{"check": doc.Check(), "decide": decided, "open": opened} {
			if ps, ok := err.(quoin.Problems); !ok || len(ps) != 1 || ps[0].Code != c.code || ps[0].Path != "rules[0].rule" {
				t.Errorf("%s, %s: %v", c.what, door, err)
			}
		}
	}
}

// A rule that fails ends the decision, and says which and of what.
func TestOwnRuleThatFails(t *testing.T) {
	own := notThirteen(quoin.AmountOf(13, 0))
	own.Allowed = func(rule.Item, []rule.Offer) (rule.Set, error) {
		return rule.Set{}, fmt.Errorf("no list of bad numbers")
	}
	doc := small(t, ``)
	doc.Rules = []rule.Rule{{ID: "a", Kind: own}}
	_, err := pricelist.Decide(doc)
	ps, ok := err.(quoin.Problems)
	if !ok || len(ps) != 1 || ps[0].Code != rule.BadOwnRule || ps[0].Path != "rules[0]" || !strings.Contains(ps[0].Found, "no list of bad numbers") || !strings.Contains(ps[0].Found, "heron") {
		t.Errorf("%v", err)
	}
}

// A document can have rules that only a program can say: here no price from 13.00 to 13.99.
// Goods of 2.00 and 11.50 to be left would come to 13.50.
func ExampleDecide_ownRule() {
	doc, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "price_limit": "40.00",
	  "supplies": [{"id": "paper", "quantity": "3 sheet", "price": "6.00"}], "channels": [{"id": "fair"}],
	  "products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
	  "rules": [{"id": "keeps", "rule": "contribution", "at_least": "11.50"}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	first, last := quoin.MustAmount("13.00"), quoin.MustAmount("13.99")
	doc.Rules = append(doc.Rules, rule.Rule{ID: "no bad luck", Kind: rule.Custom{
		Name: "not 13",
		Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
			return rule.All(it.Grid).Without(rule.Between(it.Grid, first, last))
		},
		Judge: func(_ rule.Item, _ []rule.Offer, p quoin.Amount) []rule.Verdict {
			return []rule.Verdict{{OK: p.Cmp(first) < 0 || p.Cmp(last) > 0, Got: p.Figure(), Reason: "13 brings bad luck"}}
		},
	}})
	answer, err := pricelist.Decide(doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	heron := answer.Products[0]
	why, _ := heron.Lower.Why()
	fmt.Println(heron.Price, "and not", why.Price, "since", why.By[0].Reason)
	// Output: 14.00 and not 13.99 since 13 brings bad luck
}
