package quoin_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Places and weights at the edge of what Split takes.
func TestSplitAtTheEdges(t *testing.T) {
	two := quoin.FactorOf(2)
	parts, err := quoin.MustAmount("1200").Split(-2, two, two)
	if err != nil || !parts[0].Equal(quoin.MustAmount("600")) || !parts[1].Equal(quoin.MustAmount("600")) {
		t.Errorf("1200 in halves: %v, %v", parts, err)
	}
	third := quoin.FactorOf(1).Over(quoin.FactorOf(3))
	same := two.Over(quoin.FactorOf(3)).Times(quoin.MustFactor("0.5"))
	parts, err = quoin.MustAmount("0.01").Split(2, third, same)
	if err != nil || !parts[0].Equal(quoin.MustAmount("0.01")) {
		t.Errorf("a cent between equal thirds goes to the first: %v, %v", parts, err)
	}
}

// A count unit that is named like a dimension is still a count unit.
func TestCountUnitsMeetOnlyThemselves(t *testing.T) {
	for _, word := range []string{"length", "area", "volume", "mass", "time"} {
		for _, measured := range []quoin.Unit{"mm", "cm2", "ml", "g", "s"} {
			if got, err := quoin.MustQuantity("3 " + word).In(measured); err == nil {
				t.Errorf("3 %s is %v", word, got)
			}
		}
	}
}

// What went through a quotient is on 12 places before it is divided or stepped.
func TestQuotientsAtTheEdges(t *testing.T) {
	three := quoin.FactorOf(3)
	whole := quoin.MustAmount("10").Over(three).Times(three)
	if rest := whole.Mod(quoin.MustAmount("1")); !rest.IsZero() {
		t.Errorf("3 × (10 ÷ 3) leaves %v", rest)
	}
	g, err := quoin.NewGrid(quoin.MustAmount("1").Over(three), quoin.MustAmount("10"))
	if err != nil {
		t.Fatal(err)
	}
	if i := g.Ceil(g.Price(2)); i != 2 {
		t.Errorf("the second price has index %d", i)
	}
}

func TestZeroGridHasNoPrices(t *testing.T) {
	var g quoin.Grid
	if p := quoin.MustAmount("1"); g.Len() != 0 || g.Ceil(p) != 1 || g.Floor(p) != 0 {
		t.Errorf("%d prices, %d and %d", g.Len(), g.Ceil(p), g.Floor(p))
	}
}

// A rounding that is none is seen to be none, and rounds halves away from zero.
func TestUnknownRounding(t *testing.T) {
	r := quoin.Rounding(9)
	if got := quoin.MustAmount("-0.005").Round(2, r).String(); r.String() != "Rounding(9)" || got != "-0.01" {
		t.Errorf("%v gives %s", r, got)
	}
}

// Letters count, not bytes.
func TestNearCountsLetters(t *testing.T) {
	if got := prose.Near("думажка", []string{"бумага"}); got != "" {
		t.Errorf("three letters of six are near: %s", got)
	}
	if got := prose.Near("бумга", []string{"бумага"}); got != "бумага" {
		t.Errorf("one letter missed is not near: %q", got)
	}
}

// What cannot be read leaves an Optional as it was.
func TestOptionalKeepsItsValue(t *testing.T) {
	var none quoin.Optional[quoin.Amount]
	if err := json.Unmarshal([]byte(`"x"`), &none); err == nil || !none.IsZero() {
		t.Errorf("%v after %v", none, err)
	}
	some := quoin.Some(quoin.MustAmount("2.50"))
	if err := json.Unmarshal([]byte(`"x"`), &some); err == nil || some.String() != "2.50" {
		t.Errorf("%v after %v", some, err)
	}
}
