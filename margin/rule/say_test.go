package rule_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// What a person reads where a value is printed.
func TestSaid(t *testing.T) {
	item := twoChannels(t, "heron")
	whole := rule.Rule{ID: "whole", Kind: rule.Ending{EndsIn: []quoin.Amount{amount("0")}}}
	d := decideAlone(t, []rule.Item{item}, keepsFive(), whole)
	lower, _ := d.Lower(0, d.Prices[0])
	ladder := about("ladder", atLeastTimes("1.4"), "a5", "a4")
	steps, err := rule.Decide(sizes(t, "a5", "a4"), []rule.Rule{about("to 28", ceiling(28), "a4"), ladder}, rule.Greatest)
	if err != nil {
		t.Fatal(err)
	}
	higher, _ := steps.Higher(0, steps.Prices[0])
	apart, err := rule.Decide(sizes(t, "a5", "a4"), []rule.Rule{about("to 28", ceiling(28), "a4"), about("from 24", floor(24), "a5"), ladder}, rule.Greatest)
	if err != nil {
		t.Fatal(err)
	}
	zones, err := rule.DeadZones(exampleGrid(), exampleItem().Offers[0])
	if err != nil {
		t.Fatal(err)
	}
	endings, err := whole.Allowed(item)
	if err != nil {
		t.Fatal(err)
	}
	own := rule.Verdict{Reason: "13 brings bad luck"}
	for _, c := range []struct {
		value any
		want  string
	}{
		{lower, `14.00 is refused by "five are left", as at least 5.00 is asked in market, and it gives 4.70`}, // 14.00 − 2.80 − 6.50
		{lower.By[0], `heron at 14.00 is refused by "five are left": at least 5.00 is asked in market, and it gives 4.70`},
		{higher, `21.00 is refused by "ladder", as a4 cannot be more than 28.00, so at most 20.00 is asked`}, // 28 ÷ 1.4
		{higher.By[0], `a5 at 21.00 is refused by "ladder": a4 cannot be more than 28.00, so at most 20.00 is asked`},
		{keepsFive().Judge(item, amount("15.00"))[0], "at least 5.00 is asked in shop, and it gives 7.00: it holds"}, // 15.00 − 1.50 − 6.50
		{keepsFive().Judge(item, amount("14.00"))[1], "at least 5.00 is asked in market, and it gives 4.70: it does not hold"},
		{own, "13 brings bad luck: it does not hold"},
		{apart.Gaps[0], `a5 is to cost at least 24.00 by "from 24", and at most 20.00 by "to 28" and "ladder"`},
		{zones[0], "from 25.00 to 29.48 a sale keeps less than at 24.99, where it keeps 29.49; at 29.49 it keeps as much again"},
		{apart, `"to 28", "from 24" and "ladder" cannot hold together`},
		{d, "heron 15.00"},
		{keepsFive(), `"five are left" asks for contribution`},
		{rule.Rule{ID: "a", Products: []string{"x", "y"}, Channels: []string{"fair"}, Strength: rule.Prefer, Kind: rule.MaxChange{}}, `"a" asks for max_change of x and y in fair, if it can be had`},
		{rule.Rule{ID: "a"}, `"a" asks for nothing`},
		{rule.Rule{ID: "a", Products: []string{"x"}, Kind: rule.Ending{}}, `"a" asks for ending of x`},
		{rule.Rule{ID: "a", Designs: []string{"rail"}, Kind: rule.Ending{}}, `"a" asks for ending of rail`},
		{rule.Rule{ID: "a", Products: []string{"a", "b", "c", "d"}, Kind: rule.Ending{}}, `"a" asks for ending of a, b, c and d`},
		{rule.Rule{ID: "a", Products: []string{"a", "b", "c", "d", "e"}, Kind: rule.Ending{}}, `"a" asks for ending of a, b, c and 2 more`},
		{item, `item "heron" in shop and market`},
		{item.Offers[0], `offer in "shop" of goods for 6.00`},
		{endings.Pattern(), "1.00 to 40.00, with a rest of 0.00 when divided by 1.00"},
	} {
		if got := fmt.Sprint(c.value); got != c.want {
			t.Errorf("%T: %s\nwant %s", c.value, got, c.want)
		}
	}
}

// Nothing that is printed holds the address of something, or hundreds of words.
func TestPrintedShort(t *testing.T) {
	item := twoChannels(t, "heron")
	d := decideAlone(t, []rule.Item{item}, keepsFive())
	why, _ := d.Lower(0, d.Prices[0])
	shelf := rule.CompileChannel(item.Offers[0].Sale.Terms, item.Grid)
	for _, v := range []any{item, item.Offers[0], shelf, d, why, d.Allowed[0], keepsFive(), rule.CheckedItems{Items: []rule.Item{item}}, rule.Custom{Name: "mine"}} {
		if text := fmt.Sprintf("%v", v); strings.Contains(text, "0x") || len(text) > 200 || len(text) < 3 {
			t.Errorf("%T prints as %s", v, text)
		}
	}
}
