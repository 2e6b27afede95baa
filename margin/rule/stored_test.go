package rule_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// What rules and sales say is read back by itself, with the digits of quotients and of long products.
func TestPartsAreReadBack(t *testing.T) {
	third := quoin.MustAmount("10.00").Over(quoin.FactorOf(3))
	long := quoin.MustAmount("0.12345678").Part(quoin.MustRate("0.1234567890123456"))
	refusal := rule.Refusal{
		Rule: "keep", Kind: "net_margin", Product: "a", Price: third, Channel: "own", Order: 2, Bound: rule.AtLeast,
		Asked: quoin.MustRate("7.4%").Figure(), Got: third.Share(quoin.MustAmount("9.00")).Figure(), Neighbour: "b", NeighbourPrice: quoin.Some(long),
	}
	nested := refusal
	nested.Because = []rule.Refusal{refusal, {Asked: quoin.MustFactor("3.5").Figure(), Got: quoin.MustQuantity("1 g").Figure()}}
	readBack(t, margin.Statement{Revenue: third, Goods: long, OwnTime: third.Neg(), Net: quoin.MustAmount("-0.004")})
	readBack(t, rule.WhyNot{Price: third, By: []rule.Refusal{refusal, nested}, More: true})
	readBack(t, rule.Gap{Product: "a", Floor: third, FloorBy: []string{"keep"}, Ceiling: long, CeilingBy: []string{"most"}})
	readBack(t, rule.DeadZone{After: long, Contribution: third, First: third, Last: long, Again: quoin.Some(third)})
	readBack(t, rule.DeadZone{})
	readBack(t, rule.Pattern{Between: [][2]quoin.Amount{{long, third}}, Every: third, EndsIn: []quoin.Amount{{}, long}})
}

func readBack[T any](t *testing.T, v T) {
	t.Helper()
	text, err := json.Marshal(v)
	var back T
	if err != nil || json.Unmarshal(text, &back) != nil {
		t.Fatalf("%T: %v, %v", v, err, json.Unmarshal(text, &back))
	}
	if diff := cmp.Diff(v, back); diff != "" {
		t.Errorf("%s:\n%s", text, diff)
	}
	if again, err := json.Marshal(back); err != nil || string(again) != string(text) {
		t.Errorf("%s is written again as %s, %v", text, again, err)
	}
}
