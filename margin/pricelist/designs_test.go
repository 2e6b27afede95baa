package pricelist_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// marsh is two designs in sizes that are not listed by size, and a card that shows none. A print costs
// nothing but has to keep 4.00 for the smallest, and nothing for others, so that all else follows from
// the rules given. All invented.
func marsh(rules string) string {
	return `{"version": 1, "currency": "EUR", "price_limit": "900.00", "choose": "least",
	"channels": [{"id": "shop"}],
	"rules": [` + rules + `],
	"products": [` + marshPrints + `]}`
}

const marshPrints = `
	{"id": "heron-a3", "design": "heron", "sheet": "A3"}, {"id": "heron-a5", "design": "heron", "sheet": "A5"}, {"id": "heron-a4", "design": "heron", "image": "200 x 290 mm"},
	{"id": "rail-a4", "design": "rail", "sheet": "297 x 210 mm"}, {"id": "rail-a5", "design": "rail", "sheet": "A5"},
	{"id": "card", "sheet": "A6"}`

const (
	fourEuros = `{"id": "four stay", "rule": "contribution", "at_least": "4.00", "products": ["heron-a5", "rail-a5"]}`
	twoEach   = `{"id": "sizes", "rule": "size_ratio", "at_least": "2"}`
)

func TestLaddersOfDesigns(t *testing.T) {
	for _, c := range []struct{ what, rules, want string }{
		// 4.00, twice that for A4, and four times for A3. The card is on no ladder.
		{"by size", fourEuros + `,` + twoEach, "heron-a3 16.00, heron-a5 4.00, heron-a4 8.00, rail-a4 8.00, rail-a5 4.00, card 0.01"},
		{"by size, said", fourEuros + `, {"id": "sizes", "rule": "size_ratio", "at_least": "2", "order": "size"}`, "heron-a3 16.00, heron-a5 4.00, heron-a4 8.00, rail-a4 8.00, rail-a5 4.00, card 0.01"},
		// As listed A5 follows A3, and A4 follows A5; of the rail A5 follows A4. A3 and the rail's A4 are the first and may cost
		// 0.01.
		{"as listed", fourEuros + `, {"id": "sizes", "rule": "size_ratio", "at_least": "2", "order": "listed"}`, "heron-a3 0.01, heron-a5 4.00, heron-a4 8.00, rail-a4 0.01, rail-a5 4.00, card 0.01"},
		{"of one design", fourEuros + `, {"id": "sizes", "rule": "size_ratio", "at_least": "2", "designs": ["rail"]}`, "heron-a3 0.01, heron-a5 4.00, heron-a4 0.01, rail-a4 8.00, rail-a5 4.00, card 0.01"},
		{"another rule of a design", `{"id": "six stay", "rule": "contribution", "at_least": "6.00", "designs": ["rail"]}`, "heron-a3 0.01, heron-a5 0.01, heron-a4 0.01, rail-a4 6.00, rail-a5 6.00, card 0.01"},
		// At most 1.5 times: 4.00, 6.00, 9.00 are the most beside a smallest of at most 4.00.
		{
			"a preference of every design", fourEuros + `,` + twoEach + `, {"id": "small", "rule": "price", "at_most": "5.00", "products": ["heron-a3"], "strength": "prefer"}`,
			"heron-a3 16.00, heron-a5 4.00, heron-a4 8.00, rail-a4 8.00, rail-a5 4.00, card 0.01",
		},
	} {
		a := decidedShop(t, marsh(c.rules))
		if got := priced(a); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.what, got, c.want)
		}
	}
}

func priced(answers ...pricelist.Answer) string {
	var out []string
	for _, a := range answers {
		for _, p := range a.Products {
			out = append(out, p.ID+" "+p.Price.String())
		}
	}
	return strings.Join(out, ", ")
}

// A conflict of one design names its rules and speaks of its prints alone, however many others
// are on ladders of the same rule.
func TestConflictsOfADesign(t *testing.T) {
	a, err := pricelist.Price([]byte(marsh(fourEuros + `,` + twoEach + `, {"id": "cheap", "rule": "price", "at_most": "15.00", "products": ["heron-a3"]}`)))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"four stay", "sizes", "cheap"}, a.Conflict); diff != "" {
		t.Error(diff)
	}
	// 4.00 × 2 × 2 is asked of A3, and 15.00 is the most that it may cost.
	if len(a.Gaps) != 1 || !strings.HasPrefix(a.Gaps[0].Product, "heron-") {
		t.Errorf("gaps: %v", a.Gaps)
	}
	// 1.93 × 1.93 × 4.00 = 14.90, and 1.94 × 1.94 × 4.00 = 15.05.
	found := false
	for _, r := range a.Remedies {
		found = found || r.Path == "rules[1].at_least" && r.To.String() == "1.93"
	}
	if !found {
		t.Errorf("no remedy of the step: %v", a.Remedies)
	}
}

// A print that is refused a lower price is told so by the smaller size of its design.
func TestWhyALadderOfADesign(t *testing.T) {
	a := decidedShop(t, marsh(fourEuros+`,`+twoEach))
	why, ok := a.Products[0].Lower.Why() // heron, A3
	if !ok || len(why.By) != 1 || why.By[0].Rule != "sizes" || why.By[0].Neighbour != "heron-a4" || why.By[0].Because[0].Neighbour != "heron-a5" {
		t.Errorf("%v, %t", why, ok)
	}
}

// Sizes of one design may come as a lot, or one after the other in a document of any length: they are
// decided as in the whole document.
func TestDesignsInLots(t *testing.T) {
	whole := decidedShop(t, marsh(fourEuros2+`,`+twoEach))
	text := strings.Replace(marsh(fourEuros2+`,`+twoEach), `"products": [`+marshPrints+`]`, ``, 1)
	text = strings.TrimRight(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "}")), ",")
	for _, workers := range []int{1, 3} {
		var answers []pricelist.Answer
		stream := text + `, "products": [` + marshPrints + `]}`
		for a, err := range (pricelist.Batch{Workers: workers}).Document(context.Background(), strings.NewReader(stream)) {
			if err != nil {
				t.Fatal(err)
			}
			answers = append(answers, a)
		}
		if len(answers) != 3 || priced(answers...) != priced(whole) {
			t.Errorf("%d lots: %s, want %s", len(answers), priced(answers...), priced(whole))
		}
	}
	shop, err := pricelist.DecodeShop([]byte(text + `}`))
	if err != nil {
		t.Fatal(err)
	}
	var answers []pricelist.Answer
	for a, err := range (pricelist.Batch{}).Lines(context.Background(), shop, strings.NewReader(`{"products": [`+strings.ReplaceAll(marshPrints, "\n", " ")+`]}`)) {
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, a)
	}
	if priced(answers...) != priced(whole) {
		t.Errorf("a line: %s, want %s", priced(answers...), priced(whole))
	}
}

// fourEuros2 names no products, which a shop does not know.
const fourEuros2 = `{"id": "four stay", "rule": "contribution", "at_least": "4.00", "designs": ["heron", "rail"]}`

func TestDesignsAtFault(t *testing.T) {
	for _, c := range []struct{ what, old, new, want string }{
		{"two of a size", `"id": "rail-a5", "design": "rail", "sheet": "A5"`, `"id": "rail-a5", "design": "rail", "sheet": "A4"`, "same_size products[4].design"},
		{"none of a size", `"id": "rail-a5", "design": "rail", "sheet": "A5"`, `"id": "rail-a5", "design": "rail"`, "missing_field products[4].sheet"},
		{"a size that is not asked for", `"design": "rail", "sheet": "297 x 210 mm"`, `"design": "teal"`, ""},
		{"an order beside products", twoEach, `{"id": "sizes", "rule": "size_ratio", "at_least": "2", "products": ["rail-a5", "rail-a4"], "order": "size"}`, "stray_terms rules[1].order"},
		{"designs beside products", twoEach, `{"id": "sizes", "rule": "size_ratio", "at_least": "2", "products": ["rail-a5", "rail-a4"], "designs": ["rail"]}`, "rival_fields rules[1].designs"},
		{"a design that nothing shows", twoEach, `{"id": "sizes", "rule": "size_ratio", "at_least": "2", "designs": ["heron", "rial"]}`, "unknown_id rules[1].designs[1]"},
		{"the id of a product", twoEach, `{"id": "sizes", "rule": "size_ratio", "at_least": "2", "designs": ["card"]}`, "unknown_id rules[1].designs[0]"},
		{"no design of two", `"id": "rail-a4", "design": "rail"`, `"id": "rail-a4", "design": "rail, large"`, ""},
		{"a word that is none", twoEach, `{"id": "sizes", "rule": "size_ratio", "at_least": "2", "order": "area"}`, "unknown_word rules[1].order"},
	} {
		document := marsh(fourEuros + `,` + twoEach)
		if !strings.Contains(document, c.old) {
			t.Fatalf("no %s", c.old)
		}
		a, err := pricelist.Price([]byte(strings.Replace(document, c.old, c.new, 1)))
		a.Products = nil
		if got := strings.Join(told(a, err), ", "); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// Where no design has two prints there is nothing to step between.
func TestNoLadderAtAll(t *testing.T) {
	_, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "shop"}], "products": [{"id": "a", "design": "heron"}, {"id": "b"}, {"id": "c"}],
		"rules": [` + twoEach + `]}`))
	if got := told(pricelist.Answer{}, err); !cmp.Equal(got, []string{"short_ladder rules[0].products"}) {
		t.Errorf("%q", got)
	}
}

// In a stream the prints of a design have to stand together, since no others are decided with them.
func TestDesignsThatStandApart(t *testing.T) {
	prints := `{"id": "heron-a5", "design": "heron", "sheet": "A5"}, {"id": "card"}, {"id": "heron-a4", "design": "heron", "sheet": "A4"}, {"id": "rail", "design": "rail", "sheet": "A5"}`
	text := strings.Replace(strings.Replace(marsh(twoEach), `"rules"`, `"rules"`, 1), marshPrints, prints, 1)
	var got []string
	for a, err := range (pricelist.Batch{GoOn: true}).Document(context.Background(), strings.NewReader(text)) {
		got = append(got, told(a, err)...)
	}
	if diff := cmp.Diff([]string{"heron-a5", "card", "design_apart products[2].design", "rail"}, got); diff != "" {
		t.Error(diff)
	}
	// What is wrong with a print stands where it is in the document.
	got = nil
	text = strings.Replace(marsh(twoEach), `"id": "rail-a5", "design": "rail", "sheet": "A5"`, `"id": "rail-a5", "design": "rail"`, 1)
	for a, err := range (pricelist.Batch{GoOn: true}).Document(context.Background(), strings.NewReader(text)) {
		got = append(got, told(a, err)...)
	}
	if diff := cmp.Diff([]string{"heron-a3", "heron-a5", "heron-a4", "missing_field products[4].sheet", "card"}, got); diff != "" {
		t.Error(diff)
	}
}

// many is designs in four sizes, with a ladder of each by one rule, or by as many as there are designs.
func many(designs int, rules bool) string {
	names := []string{"a5", "a4", "a3", "a2"}
	ladder := func(d int) string {
		return fmt.Sprintf(`{"id": "sizes %d", "rule": "size_ratio", "at_least": "1.5", "products": [%s]}`, d, list(4, func(s int) string { return fmt.Sprintf(`"d%d-%s"`, d, names[s]) }))
	}
	step := `{"id": "sizes", "rule": "size_ratio", "at_least": "1.5"}`
	if rules {
		step = list(designs, ladder)
	}
	return `{"version": 1, "currency": "EUR", "price_limit": "900.00", "choose": "least", "channels": [{"id": "shop", "fees": [{"name": "payment", "rate": "2.1%"}]}],
	"rules": [{"id": "four stay", "rule": "contribution", "at_least": "4.00"}, ` + step + `],
	"products": [` + list(4*designs, func(i int) string {
		return fmt.Sprintf(`{"id": "d%d-%s", "design": "d%d", "sheet": "%s"}`, i/4, names[i%4], i/4, strings.ToUpper(names[i%4]))
	}) + `]}`
}

// However many designs there are, one rule or one of each is not too many. 4.09 less 0.09 is the first to keep
// 4.00; then 6.14, 9.21 and 13.82 are each half as much again.
func TestManyLadders(t *testing.T) {
	const want = "4.09 6.14 9.21 13.82"
	for _, rules := range []bool{false, true} {
		a := decidedShop(t, many(300, rules))
		for i := 0; i < len(a.Products); i += 4 {
			var got []string
			for _, p := range a.Products[i : i+4] {
				got = append(got, p.Price.String())
			}
			if got := strings.Join(got, " "); got != want {
				t.Fatalf("one rule of each: %t, design %d: %s, want %s", rules, i/4, got, want)
			}
		}
	}
}

// More rules for more products in more channels than can be asked in reasonable time are refused with their number.
func TestTooManyQuestions(t *testing.T) {
	document := `{"version": 1, "currency": "EUR", "channels": [` + list(100, func(i int) string { return fmt.Sprintf(`{"id": "c%d"}`, i) }) + `],
		"rules": [` + list(400, func(i int) string { return fmt.Sprintf(`{"id": "r%d", "rule": "contribution", "at_least": "1.00"}`, i) }) + `],
		"products": [` + list(251, func(i int) string { return fmt.Sprintf(`{"id": "p%d"}`, i) }) + `]}`
	_, err := pricelist.Decode([]byte(document))
	ps, ok := err.(quoin.Problems)
	if !ok || len(ps) != 1 || ps[0].Code != quoin.TooMany || ps[0].Path != "rules" || !strings.Contains(ps[0].Found, "10040000 times") {
		t.Errorf("%v", err)
	}
}
