package rule_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/rule"
)

// Endings that come round together after more prices than can be told apart are refused, whether they
// must hold or are preferred, and in a conflict too.
func TestEndingsThatAreTooFineTogether(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("999999999999.00"))
	if err != nil {
		t.Fatal(err)
	}
	// 200 of 1,009, of 1,013 and of 1,019 cents: together 8,000,000 prices.
	var rules []rule.Rule
	for _, every := range []int64{1_009, 1_013, 1_019} {
		k := rule.Ending{Every: quoin.AmountOf(every, 2)}
		for n := range int64(200) {
			k.EndsIn = append(k.EndsIn, quoin.AmountOf(n, 2))
		}
		rules = append(rules, rule.Rule{ID: fmt.Sprint("every ", every), Kind: k})
	}
	for _, prefer := range []bool{false, true} {
		if prefer {
			rules[1].Strength, rules[2].Strength = rule.Prefer, rule.Prefer
		}
		d, err := rule.Decide([]rule.Item{rule.NewItem("print", g)}, rules, rule.Least)
		if got := problemtest.Listed(err); got != "too_many_runs rules" {
			t.Errorf("preferred %t: %q, %v", prefer, got, d.Prices)
		}
	}
}
