package rule_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/rule"
)

// A rule of one's own, with a hole: no price from 13.00 to 13.99.
func ExampleCustom() {
	first, last := quoin.MustAmount("13.00"), quoin.MustAmount("13.99")
	unlucky := rule.Custom{
		Name: "not 13",
		Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
			return rule.All(it.Grid).Without(rule.Between(it.Grid, first, last))
		},
		Judge: func(_ rule.Item, _ []rule.Offer, p quoin.Amount) []rule.Verdict {
			return []rule.Verdict{{OK: p.Cmp(first) < 0 || p.Cmp(last) > 0, Got: p.Figure(), Reason: "13 brings bad luck"}}
		},
	}
	rules := []rule.Rule{
		{ID: "no bad luck", Kind: unlucky},
		{ID: "from 13.50", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("13.50"))}},
	}
	item := rule.NewItem("bittern-a5", exampleGrid())
	fmt.Println(rules[0].Agrees(item)) // a test of the rule itself

	d, err := rule.Decide([]rule.Item{item}, rules, rule.Least)
	fmt.Println(d.Allowed[0], d.Prices[0], err)
	why, _ := d.Lower(0, d.Prices[0])
	fmt.Println(why.Price, why.By[0].Rule, why.By[0].Reason)

	_, err = json.Marshal(rules[0])
	fmt.Println(err != nil) // it has no place in a document
	// Output:
	// <nil>
	// {14.00 to 40.00} 14.00 <nil>
	// 13.99 no bad luck 13 brings bad luck
	// true
}

// keepsHalf is the contribution rule of half of 24.00, made by hand: a price keeps what a
// statement says.
func keepsHalf(least quoin.Amount) rule.Custom {
	return rule.Custom{
		Name: "keeps half",
		Allowed: func(it rule.Item, offers []rule.Offer) (rule.Set, error) {
			var prices []quoin.Amount
			for p := range rule.All(it.Grid).Prices() {
				holds := true
				for _, o := range offers {
					holds = holds && o.Sale.At(p).Contribution.Cmp(least) >= 0
				}
				if holds {
					prices = append(prices, p)
				}
			}
			return rule.Only(it.Grid, prices...), nil
		},
		Judge: func(_ rule.Item, offers []rule.Offer, p quoin.Amount) []rule.Verdict {
			var out []rule.Verdict
			for _, o := range offers {
				got := o.Sale.At(p).Contribution
				out = append(out, rule.Verdict{OK: got.Cmp(least) >= 0, Channel: o.Channel, Bound: rule.AtLeast, Asked: least.Figure(), Got: got.Figure()})
			}
			return out
		},
	}
}

// An own rule that says what a rule of this package says decides as it does: prices,
// floors of channels, what refuses the neighbours, and deeper discounts.
func TestOwnRuleStandsBesideTheOthers(t *testing.T) {
	five := keepsFive()
	mine := rule.Rule{ID: five.ID, Kind: keepsHalf(amount("5.00"))}
	items := []rule.Item{twoChannels(t, "small")}
	if err := mine.Agrees(items[0]); err != nil {
		t.Fatal(err)
	}
	ours, theirs := decideAlone(t, items, five), decideAlone(t, items, mine)
	if !ours.Allowed[0].Equal(theirs.Allowed[0]) || floors(ours, 0) != floors(theirs, 0) {
		t.Errorf("%v and %s, want %v and %s", theirs.Allowed[0], floors(theirs, 0), ours.Allowed[0], floors(ours, 0))
	}
	a, _ := ours.Lower(0, ours.Prices[0])
	b, _ := theirs.Lower(0, theirs.Prices[0])
	b.By[0].Kind = a.By[0].Kind
	if fmt.Sprint(a) != fmt.Sprint(b) {
		t.Errorf("%v, want %v", b, a)
	}
	// 14.37 in the shop keeps 14.37 − 1.44 − 6.50 = 6.43, and with goods for 2.00 more 4.43.
	dearer := items[0].Offers[0].Sale.WithCheaperGoods(amount("-2.00"))
	for name, d := range map[string]rule.Decision{"ours": ours, "theirs": theirs} {
		if broken, asked := d.Bears(0, "shop", dearer, amount("14.37"), nil); len(broken) != 1 || !asked {
			t.Errorf("%s: %q, asked %t", name, broken, asked)
		}
	}
}

// Whatever the rules of this package, they agree with themselves; an own rule whose
// judgement is off by a cent does not, and is told where.
func TestRulesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawnPlainly(t)
		for _, r := range d.rules {
			for _, it := range d.items {
				if err := r.Agrees(it); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
	off := keepsHalf(amount("5.00"))
	off.Judge = keepsHalf(amount("5.01")).Judge
	err := rule.Rule{ID: "off", Kind: off}.Agrees(twoChannels(t, "small"))
	ps, ok := err.(quoin.Problems)
	if !ok || ps[0].Code != rule.JudgedApart || !strings.Contains(ps[0].Found, "14.37") {
		t.Errorf("%v", err)
	}
}

// A rule that contradicts itself is still told of, and one that fails says of what.
func TestOwnRulesThatFail(t *testing.T) {
	ten := amount("10.00")
	agreeable := rule.Custom{Name: "agreeable", Judge: judgesNothing, Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
		return rule.Between(it.Grid, ten, ten), nil
	}}
	d := decideAlone(t, []rule.Item{twoChannels(t, "small")}, rule.Rule{ID: "ten", Kind: agreeable})
	why, ok := d.Lower(0, ten)
	if !ok || len(why.By) != 1 || why.By[0].Rule != "ten" || why.By[0].Bound != rule.OneOf {
		t.Errorf("%+v", why)
	}
	failing, elsewhere := agreeable, agreeable
	failing.Allowed = func(rule.Item, []rule.Offer) (rule.Set, error) { return rule.Set{}, errors.New("no list") }
	elsewhere.Allowed = func(rule.Item, []rule.Offer) (rule.Set, error) { return rule.All(sizes(t, "x")[0].Grid), nil }
	for _, c := range []struct {
		kind rule.Custom
		want string
	}{{failing, "bad_custom_rule rules[1]"}, {elsewhere, "other_grid rules[1]"}} {
		_, err := rule.Decide([]rule.Item{twoChannels(t, "small")}, []rule.Rule{keepsFive(), {ID: "mine", Kind: c.kind}}, "")
		if got := problemtest.Listed(err); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
