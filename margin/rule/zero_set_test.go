package rule_test

import (
	"testing"

	"example.com/quoin/margin/rule"
)

// The zero Set is on every grid, and with another set it is on that one's: all that is not in it is all
// of that grid.
func TestZeroSetTakesTheGridOfTheOther(t *testing.T) {
	g := sizes(t, "a4")[0].Grid
	for what, none := range map[string]rule.Set{
		"and": must(rule.Set{}.And(rule.All(g)))(t), "and, the other way": must(rule.All(g).And(rule.Set{}))(t),
		"without": must(rule.Set{}.Without(rule.All(g)))(t), "or": must(rule.Set{}.Or(must(rule.All(g).Complement())(t)))(t),
	} {
		if rest, err := none.Complement(); err != nil || !none.IsEmpty() || !rest.Equal(rule.All(g)) {
			t.Errorf("%s: all but %v is %v, %v", what, none, rest, err)
		}
	}
}
