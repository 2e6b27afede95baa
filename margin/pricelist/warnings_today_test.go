package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// todayBreaks is what is said of today's prices of the sound shop under more rules: of each product
// in words, and its arguments.
func todayBreaks(t *testing.T, rules string) (words, args []string) {
	t.Helper()
	for _, w := range decidedShop(t, soundShop(t, theRules, theRules+rules+", ")).Warnings {
		if w.Code != pricelist.TodayBreaksRule {
			continue
		}
		var of []string
		for _, a := range w.Args {
			of = append(of, a.Name+" "+a.Value)
		}
		words, args = append(words, w.Path+" "+w.Found+"; "+w.Remedy), append(args, strings.Join(of, ", "))
	}
	return words, args
}

// A4 at 24.00 contributes 14.78 and A3 at 36.00, 1.5 times as much, is not in .50 either: what breaks
// today is said once for each product.
func TestTodaysPriceBreaksSeveralRules(t *testing.T) {
	const (
		half   = `{"id": "half", "rule": "ending", "ends_in": ["0.50"], "every": "1.00"}`
		keeps  = `{"id": "keeps", "rule": "contribution", "at_least": "16.00"}`
		ladder = `{"id": "sizes", "rule": "size_ratio", "at_most": "1.4", "products": ["heron-a4", "heron-a3"]}`
		wish   = `{"id": "wish", "rule": "price", "at_least": "60.00", "strength": "prefer"}`
	)
	for _, c := range []struct {
		what, rules string
		words, args []string
	}{
		{
			"one", keeps + "," + wish,
			[]string{`products[0].price today's 24.00 breaks "keeps" in web: 14.78, at least 16.00 asked; take the decided price, or change the rule`},
			[]string{"product heron-a4, price 24.00, rule keeps, channel web, got 14.78, bound at_least, asked 16.00"},
		},
		{"two of one product, one beside the smaller", keeps + "," + half + "," + ladder, []string{
			`products[0].price today's 24.00 breaks 2 rules: "keeps" in web: 14.78, at least 16.00 asked; "half": 0.00, one of 0.50 asked; take the decided price, or change the rules`,
			`products[1].price today's 36.00 breaks 2 rules: "half": 0.00, one of 0.50 asked; "sizes" beside heron-a4 at 24.00; take the decided price, or change the rules`,
		}, []string{
			"product heron-a4, price 24.00, rule keeps, channel web, got 14.78, bound at_least, asked 16.00, rule_2 half, got_2 0.00, bound_2 one_of, asked_2 0.50, broken 2",
			"product heron-a3, price 36.00, rule half, got 0.00, bound one_of, asked 0.50, rule_2 sizes, neighbour_2 heron-a4, neighbour_price_2 24.00, broken 2",
		}},
	} {
		words, args := todayBreaks(t, c.rules)
		if got, want := strings.Join(words, "\n"), strings.Join(c.words, "\n"); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, want)
		}
		if got, want := strings.Join(args, "\n"), strings.Join(c.args, "\n"); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, want)
		}
	}
}

// Of fourteen rules twelve are named, and a program that asks gets them all.
func TestTodaysPriceBreaksManyRules(t *testing.T) {
	a := decidedShop(t, soundShop(t, theRules, theRules+list(14, func(i int) string {
		return fmt.Sprintf(`{"id": "r%d", "rule": "contribution", "at_least": "16.00", "products": ["heron-a4"]}`, i+1)
	})+", "))
	rules := func(all bool) (last string, broken string) {
		ps := a.Warnings
		if all {
			ps = a.BreaksToday()
		}
		for _, arg := range ps[0].Args {
			if strings.HasPrefix(arg.Name, "rule") {
				last = arg.Name + " " + arg.Value
			}
			if arg.Name == "broken" {
				broken = arg.Value
			}
		}
		return last, broken
	}
	if last, broken := rules(false); last != "rule_12 r12" || broken != "14" || !strings.Contains(a.Warnings[0].Found, "; 2 more") {
		t.Errorf("listed up to %s of %s: %s", last, broken, a.Warnings[0].Found)
	}
	if last, broken := rules(true); last != "rule_14 r14" || broken != "14" {
		t.Errorf("asked for, up to %s of %s", last, broken)
	}
}
