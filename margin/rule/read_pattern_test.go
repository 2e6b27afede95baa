package rule_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// A set is the set of its pattern, whatever endings and bounds thin it out.
func TestPatternsAreReadBack(t *testing.T) {
	thinned, apart := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		step := quoin.AmountOf(rapid.SampledFrom([]int64{1, 5, 50}).Draw(t, "step"), 2)
		g, err := quoin.NewGrid(step, step.Times(quoin.FactorOf(rapid.Int64Range(1, 5000).Draw(t, "limit"))))
		if err != nil {
			t.Fatal(err)
		}
		s := rule.All(g)
		for range rapid.IntRange(0, 2).Draw(t, "endings") {
			mod := rapid.Int64Range(2, 40).Draw(t, "modulus")
			ends := rapid.SliceOfNDistinct(rapid.Int64Range(0, mod-1), 1, int(mod), rapid.ID[int64]).Draw(t, "ends")
			k := rule.Ending{Every: step.Times(quoin.FactorOf(mod))}
			for _, e := range ends {
				k.EndsIn = append(k.EndsIn, step.Times(quoin.FactorOf(e)))
			}
			allowed, err := rule.Rule{Kind: k}.Allowed(rule.Item{Grid: g})
			if err != nil {
				t.Fatal(err)
			}
			if s, err = s.And(allowed); err != nil {
				t.Fatal(err)
			}
		}
		p := s.Pattern()
		back, err := p.Set(g)
		if err != nil {
			t.Fatalf("%v of %+v", err, p)
		}
		if !back.Equal(s) {
			t.Fatalf("%v is read as %v, from %+v", s, back, p)
		}
		if len(p.EndsIn) > 1 || !p.Every.Equal(step) {
			thinned++
		}
		if s.IsEmpty() {
			apart++
		}
	})
	if thinned == 0 {
		t.Errorf("%d thinned, %d empty", thinned, apart)
	}
}

func TestNoPatterns(t *testing.T) {
	a := quoin.MustAmount
	g, err := quoin.NewGrid(a("0.05"), a("9.00"))
	if err != nil {
		t.Fatal(err)
	}
	between := func(ends ...string) (out [][2]quoin.Amount) {
		for i := 0; i < len(ends); i += 2 {
			out = append(out, [2]quoin.Amount{a(ends[i]), a(ends[i+1])})
		}
		return out
	}
	sound := rule.Pattern{Between: between("1.90", "3.90", "5.90", "5.90"), Every: a("1.00"), EndsIn: []quoin.Amount{a("0.90")}}
	if s, err := sound.Set(g); err != nil || s.String() != "{1.90 to 1.90, 2.90 to 2.90, 3.90 to 3.90, 5.90 to 5.90}" {
		t.Errorf("%v, %v", s, err)
	}
	for what, p := range map[string]rule.Pattern{
		"a bound off the endings":  {Between: between("1.85", "3.90"), Every: a("1.00"), EndsIn: sound.EndsIn},
		"a bound off the grid":     {Between: between("1.91", "3.90"), Every: a("0.05"), EndsIn: []quoin.Amount{{}}},
		"a bound above the limit":  {Between: between("1.90", "9.90"), Every: a("1.00"), EndsIn: sound.EndsIn},
		"a bound of nothing":       {Between: between("0.00", "3.90"), Every: a("0.05"), EndsIn: []quoin.Amount{{}}},
		"bounds the wrong way":     {Between: between("3.90", "1.90"), Every: a("1.00"), EndsIn: sound.EndsIn},
		"bounds out of order":      {Between: between("5.90", "5.90", "1.90", "3.90"), Every: a("1.00"), EndsIn: sound.EndsIn},
		"bounds that touch":        {Between: between("1.00", "2.00", "2.05", "3.00"), Every: a("0.05"), EndsIn: []quoin.Amount{{}}},
		"no endings":               {Between: sound.Between, Every: a("1.00")},
		"an ending off the grid":   {Between: sound.Between, Every: a("1.00"), EndsIn: []quoin.Amount{a("0.91")}},
		"an ending as the modulus": {Between: sound.Between, Every: a("1.00"), EndsIn: []quoin.Amount{a("0.90"), a("1.00")}},
		"an ending below nothing":  {Between: sound.Between, Every: a("1.00"), EndsIn: []quoin.Amount{a("-0.10"), a("0.90")}},
		"endings out of order":     {Between: sound.Between, Every: a("1.00"), EndsIn: []quoin.Amount{a("0.90"), a("0.50")}},
		"a modulus of nothing":     {Between: sound.Between, EndsIn: sound.EndsIn},
		"a modulus off the grid":   {Between: sound.Between, Every: a("1.01"), EndsIn: sound.EndsIn},
		"a modulus without bound":  {Between: sound.Between, Every: a("999999999999").Times(quoin.MustFactor("999999999999")), EndsIn: sound.EndsIn},
	} {
		var problem quoin.Problem
		if s, err := p.Set(g); !errors.As(err, &problem) || problem.Code != quoin.BadGrid {
			t.Errorf("%s: %v, %v", what, s, err)
		}
	}
	if s, err := sound.Set(quoin.Grid{}); err == nil {
		t.Errorf("of no grid %v", s)
	}
}
