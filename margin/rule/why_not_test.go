package rule_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// told counts refusals, those of neighbours among them.
func told(refusals []rule.Refusal) int {
	n := len(refusals)
	for _, r := range refusals {
		n += told(r.Because)
	}
	return n
}

// Why follows a ladder from size to size: all of it where it is short, and where it is
// long no further than reasons of all its sizes together stay few. Several steps between the
// same sizes do not multiply on the way.
func TestWhyEnds(t *testing.T) {
	for _, c := range []struct{ sizes, steps, most int }{
		{12, 1, 11}, // each of the others but the last holds the one before it
		{12, 3, 33},
		{128, 1, 33},
		{1024, 2, 6},
	} {
		var ids []string
		g, err := quoin.NewGrid(quoin.MustAmount("1.00"), quoin.MustAmount("100.00"))
		if err != nil {
			t.Fatal(err)
		}
		var items []rule.Item
		for range c.sizes {
			it := rule.NewItem(string(rune('a'+len(items)%26))+quoin.AmountOf(int64(len(items)), 0).String(), g)
			items, ids = append(items, it), append(ids, it.ID)
		}
		rules := []rule.Rule{about("ceiling", ceiling(50), ids[c.sizes-1])}
		for n := range c.steps {
			rules = append(rules, about(fmt.Sprint("step ", n), atLeastTimes("1"), ids...))
		}
		d, err := rule.Decide(items, rules, rule.Greatest)
		if err != nil {
			t.Fatal(err)
		}
		why, ok := d.Higher(0, d.Prices[0])
		if n := told(why.By); !ok || n > c.most+c.steps || n < min(c.most, c.sizes-1) {
			t.Errorf("%d sizes, %d steps: %d refusals", c.sizes, c.steps, n)
		}
	}
}

// Of very many rules that refuse a price alike a thousand are listed, and it is said that
// there are more.
func TestWhySaysThatThereIsMore(t *testing.T) {
	for _, n := range []int{1_000, 1_001} {
		var rules []rule.Rule
		for k := range n {
			rules = append(rules, about(fmt.Sprint("floor ", k), floor(30)))
		}
		d, err := rule.Decide(sizes(t, "a4"), rules, rule.Least)
		if err != nil {
			t.Fatal(err)
		}
		why, ok := d.Lower(0, d.Prices[0])
		if !ok || len(why.By) != 1_000 || why.More != (n > 1_000) {
			t.Errorf("%d rules: %d listed, more: %t", n, len(why.By), why.More)
		}
	}
}
