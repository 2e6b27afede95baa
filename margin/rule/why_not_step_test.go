package rule_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// A step of one ratio alone leaves holes that no ending has: of a large size that costs twice the
// small one the even prices next to an odd one are allowed, and the odd ones after them are not.
func TestWhyNotBetweenPricesOfOneRatio(t *testing.T) {
	twice := rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("2")), AtMost: quoin.Some(quoin.MustFactor("2"))}
	threes := rule.Ending{Every: quoin.AmountOf(3, 0), EndsIn: []quoin.Amount{quoin.AmountOf(0, 0)}}
	for _, c := range []struct {
		what         string
		rules        []rule.Rule
		lower, price string
		higher       string
	}{
		{"every other price", []rule.Rule{about("twice", twice, "small", "large")}, "39.00", "41.00", "43.00"},
		// 42 and 48 are twice 21 and 24; 39 and 51 are odd.
		{"every other one of threes", []rule.Rule{about("threes", threes), about("twice", twice, "small", "large")}, "39.00", "45.00", "51.00"},
		// All of 3 to 99 have the same price beside them.
		{"none of threes", []rule.Rule{about("threes", threes), about("as much", atMostTimes("1"), "small", "large"), about("no less", atLeastTimes("1"), "small", "large")}, "", "45.00", ""},
	} {
		d, err := rule.Decide(sizes(t, "small", "large"), c.rules, rule.Least)
		if err != nil {
			t.Fatal(err)
		}
		lower, below := d.Lower(1, quoin.MustAmount(c.price))
		higher, above := d.Higher(1, quoin.MustAmount(c.price))
		if below != (c.lower != "") || above != (c.higher != "") || below && lower.Price.String() != c.lower || above && higher.Price.String() != c.higher {
			t.Errorf("%s: %s, %t and %s, %t, want %q and %q", c.what, lower.Price, below, higher.Price, above, c.lower, c.higher)
		}
		if below && (len(lower.By) != 1 || lower.By[0].Rule != "twice" || lower.By[0].Bound != rule.OneOf) {
			t.Errorf("%s: %+v", c.what, lower.By)
		}
	}
}
