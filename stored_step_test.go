package quoin_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// A figure keeps its kind: money, a share, a measured number and a plain one are never taken for each other.
func TestFiguresAreReadBack(t *testing.T) {
	third := quoin.FactorOf(1).Over(quoin.FactorOf(3))
	for _, c := range []struct {
		f    quoin.Figure
		text string
	}{
		{quoin.MustAmount("17.50").Figure(), "17.50"},
		{quoin.MustAmount("-3").Figure(), "-3"},
		{quoin.Amount{}.Figure(), "0"},
		{quoin.MustRate("7.4%").Figure(), "7.4%"},
		{quoin.MustRate("1").Figure(), "100%"},
		{quoin.Rate{}.Figure(), "0%"},
		{quoin.MustFactor("3.5").Figure(), "3.5x"},
		{quoin.Figure{}, "0x"},
		{quoin.MustQuantity("0.5 sheet").Figure(), "0.5 sheet"},
		{quoin.MustQuantity("3 x").Figure(), "3 x"},
		{quoin.Quantity{}.Figure(), "0x"}, // without a unit it is a plain number
		{quoin.MustAmount("1.00").Over(quoin.FactorOf(3)).Figure(), "0.333333333333"},
		{third.Rate().Figure(), "33.333333333333%"},
		{third.Figure(), "0.333333333333x"},
		{quoin.Unit("g").Times(third).Figure(), "0.333333333333 g"},
		{quoin.MustAmount("0.12345678").Part(quoin.MustRate("0.1234567890123456")).Times(quoin.MustFactor("0.0000000000000001")).Figure(), "0.0000000000000000015241577640603568023168"},
	} {
		text, err := json.Marshal(c.f)
		var back quoin.Figure
		if err != nil || string(text) != `"`+c.text+`"` || json.Unmarshal(text, &back) != nil {
			t.Errorf("%s is written as %s, %v, wanted %s", c.f, text, err, c.text)
		}
		if !back.Equal(c.f) || back.Kind() != c.f.Kind() || back.String() != c.f.String() || back.Long() != c.f.Long() || back.Round(2) != c.f.Round(2) {
			t.Errorf("%s is read back as %s", c.text, back)
		}
	}
}

func TestNoFigures(t *testing.T) {
	for _, s := range []string{
		"", "x", "%", "≈", "17,50", "1e3", "+1", "NaN", "Infinity", "1.x", "1 %", "7.4%%", "1  g", "1 2up", "1 g ", " 1", "≈≈1",
		"≈1" + strings.Repeat("0", 45), strings.Repeat("1", 4097), "€1", "x1", "-", "--1",
	} {
		f := quoin.MustAmount("4.00").Figure()
		err := f.UnmarshalText([]byte(s))
		var p quoin.Problem
		if !errors.As(err, &p) || p.Wanted == "" || f.String() != "4.00" {
			t.Errorf("%.40q is read as %s, %v", s, f, err)
		}
	}
}

// drawnTrail makes steps of all operations, of figures of all kinds: some exact, some
// quotients that had to be cut, also as what nothing before explains.
func drawnTrail(t *rapid.T) []quoin.Step {
	trail := quoin.NewTrail(8).On(rapid.SampledFrom([]string{"paper", "", `"rag" \ 300`}).Draw(t, "subject"))
	given := func() quoin.Operand {
		n := quoin.AmountOf(rapid.Int64Range(-500_000, 500_000).Draw(t, "n"), rapid.IntRange(0, 8).Draw(t, "places"))
		if rapid.IntRange(0, 3).Draw(t, "cut") == 0 {
			n = n.Over(quoin.FactorOf(rapid.Int64Range(1, 99).Draw(t, "by")))
		}
		f := n.Ratio(quoin.AmountOf(1, 0))
		figure := []quoin.Figure{n.Figure(), f.Figure(), f.Rate().Figure(), quoin.Unit("sheet").Times(f).Figure()}[rapid.IntRange(0, 3).Draw(t, "kind")]
		return quoin.GivenOr("given", drawnPath(t), figure, rapid.Bool().Draw(t, "is given"))
	}
	known := []quoin.Operand{given()}
	operand := func() quoin.Operand {
		o := given()
		if rapid.Bool().Draw(t, "from before") {
			o = rapid.SampledFrom(known).Draw(t, "step")
		}
		return []quoin.Operand{o, o.Minus(), o.OnePlus(), o.OneMinus()}[rapid.IntRange(0, 3).Draw(t, "form")]
	}
	for range rapid.IntRange(1, 8).Draw(t, "steps") {
		code := quoin.StepCode(rapid.SampledFrom([]string{"unit_cost", "fee", "net"}).Draw(t, "code"))
		a, b, c := operand(), operand(), operand()
		at := drawnPath(t)
		var o quoin.Operand
		switch rapid.IntRange(0, 6).Draw(t, "op") {
		case 0:
			o = trail.Sum(code, at, a, b, c)
		case 1:
			o = trail.Product(code, at, a, b, c)
		case 2:
			o = trail.Quotient(code, at, a, b)
		case 3:
			o = trail.Weighted(code, at, a, b, c, given())
		case 4:
			o = trail.Greatest(code, at, a, b, c)
		case 5:
			o = trail.Least(code, at, a, b)
		case 6:
			o = trail.Below(code, at, a, b, c)
		}
		if rapid.Bool().Draw(t, "rounded") {
			o = trail.Rounded(rapid.IntRange(0, 4).Draw(t, "to"), quoin.Rounding(rapid.IntRange(0, 3).Draw(t, "how")), o)
		}
		known = append(known, o)
	}
	return trail.Steps()
}

// stored is steps that were written and read.
func storedSteps(t *rapid.T, steps []quoin.Step) (back []quoin.Step, text []byte) {
	text, err := json.Marshal(steps)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return back, text
}

// Steps that were stored are the steps that were made, are written the same again, and
// replay.
func TestStoredStepsReplay(t *testing.T) {
	cut, unexplained, rounded := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		steps := drawnTrail(t)
		if err := quoin.Replay(steps); err != nil {
			t.Fatal(err)
		}
		back, text := storedSteps(t, steps)
		if _, again := storedSteps(t, back); string(again) != string(text) {
			t.Fatalf("%s\nis written again as\n%s", text, again)
		}
		if err := quoin.Replay(back); err != nil {
			t.Fatalf("%v in %s", err, text)
		}
		for i, s := range steps {
			got := back[i]
			if got.Code != s.Code || got.Subject != s.Subject || !got.At.Equal(s.At) || got.Op != s.Op || got.Places != s.Places ||
				got.Rounding != s.Rounding || !got.Before.Equal(s.Before) || !got.Value.Equal(s.Value) || len(got.Operands) != len(s.Operands) ||
				!got.RoundingDifference().Equal(s.RoundingDifference()) {
				t.Fatalf("step %d: %+v is read as %+v", i+1, s, got)
			}
			for k, o := range s.Operands {
				p := got.Operands[k]
				if p.Name != o.Name || !p.Path.Equal(o.Path) || !p.Value.Equal(o.Value) || p.Form != o.Form || p.Step != o.Step || p.Default != o.Default {
					t.Fatalf("step %d: operand %+v is read as %+v", i+1, o, p)
				}
				if o.Step == 0 && o.Value.Rat().Cmp(p.Value.Rat()) != 0 {
					t.Fatalf("step %d: %s, which no step explains, is read as %s", i+1, o.Value.Rat(), p.Value.Rat())
				}
			}
			if s.Places >= 0 {
				rounded++
			}
		}
		cut += strings.Count(string(text), "3333") + strings.Count(string(text), "6667")
		unexplained += strings.Count(string(text), "≈")
	})
	if cut == 0 || unexplained == 0 || rounded == 0 {
		t.Errorf("%d cut, %d of them explained by nothing, %d rounded", cut, unexplained, rounded)
	}
}

// A digit that was changed anywhere in what is computed is noticed. Not noticed, since every sum still holds: a digit of a
// number that does not matter to its sum, as one that is not the greatest, or is multiplied with nothing; the number of
// another step of the same value; a way of rounding that comes to the same.
func TestChangedStepsDoNotReplay(t *testing.T) {
	noticed, passed := make(map[string]int), make(map[string]int)
	rapid.Check(t, func(t *rapid.T) {
		made := drawnTrail(t)
		steps, _ := storedSteps(t, made)
		i := rapid.IntRange(0, len(steps)-1).Draw(t, "which")
		s := &steps[i]
		k := rapid.IntRange(0, len(s.Operands)-1).Draw(t, "operand")
		o := &s.Operands[k]
		what := rapid.SampledFrom([]string{"value", "before", "operand", "kind", "step", "op", "form", "places"}).Draw(t, "what")
		must := true // be noticed
		switch what {
		case "value":
			s.Value = tampered(t, s.Value)
		case "before":
			s.Before = tampered(t, s.Before)
		case "kind":
			text, _ := s.Value.MarshalText()
			if other, ok := strings.CutSuffix(string(text), "x"); ok {
				text = []byte(other)
			} else {
				text = append(text, 'x')
			}
			if err := s.Value.UnmarshalText(text); err != nil {
				t.Fatal(err)
			}
		case "operand":
			o.Value = tampered(t, o.Value)
			must = o.Step > 0 || matters(s.Op)
		case "step":
			before := o.Step
			o.Step = rapid.IntRange(0, len(steps)+1).Filter(func(n int) bool { return n != before }).Draw(t, "to")
			must = o.Step > i || o.Step > 0 && !steps[o.Step-1].Value.Equal(o.Value)
		case "op":
			was := made[i]
			s.Op = rapid.SampledFrom([]quoin.Op{"sum", "product", "quotient", "weighted", "greatest", "least", "below", "mean", ""}).Draw(t, "to")
			must = s.Op == "mean" || s.Op == "" || s.Op == quoin.OpBelow && len(s.Operands) != 3 || !compute(t, s.Op, was.Operands).Equal(was.Before)
		case "form":
			was := slices.Clone(made[i].Operands)
			o.Form = rapid.SampledFrom([]quoin.Form{"", "minus", "one_plus", "one_minus", "half"}).Draw(t, "to")
			was[k].Form = o.Form
			must = o.Form == "half" || !compute(t, s.Op, was).Equal(made[i].Before)
		case "places":
			before := s.Value
			s.Places = rapid.IntRange(0, 4).Draw(t, "to")
			must = false // where it comes to the same number
			rounded, ok := s.Before.Amount()
			if ok && !rounded.Round(s.Places, s.Rounding).Figure().Equal(before) {
				must = true
			}
		}
		err := quoin.Replay(steps)
		if must && err == nil {
			t.Fatalf("another %s in step %d passes: %+v", what, i+1, *s)
		}
		if err != nil {
			noticed[what]++
		} else {
			passed[what]++
		}
	})
	if len(noticed) != 8 {
		t.Errorf("noticed %v, passed %v", noticed, passed)
	}
}

// compute is what operands come to, by a trail.
func compute(t *rapid.T, op quoin.Op, operands []quoin.Operand) quoin.Figure {
	trail := quoin.NewTrail(1)
	switch op {
	case quoin.OpSum:
		return trail.Sum("", quoin.Path{}, operands...).Value
	case quoin.OpProduct:
		return trail.Product("", quoin.Path{}, operands...).Value
	case quoin.OpQuotient:
		return trail.Quotient("", quoin.Path{}, operands...).Value
	case quoin.OpWeighted:
		return trail.Weighted("", quoin.Path{}, operands...).Value
	case quoin.OpGreatest:
		return trail.Greatest("", quoin.Path{}, operands...).Value
	case quoin.OpLeast:
		return trail.Least("", quoin.Path{}, operands...).Value
	case quoin.OpBelow:
		if len(operands) == 3 {
			return trail.Below("", quoin.Path{}, operands[0], operands[1], operands[2]).Value
		}
	}
	return quoin.Figure{}
}

// matters reports whether an operation uses the digits of all its operands.
func matters(op quoin.Op) bool { return op == quoin.OpSum }

// tampered is a figure with one digit of its text changed.
func tampered(t *rapid.T, f quoin.Figure) quoin.Figure {
	text, err := f.MarshalText()
	if err != nil {
		t.Fatal(err)
	}
	var at []int
	for i, b := range text {
		if b >= '0' && b <= '9' {
			at = append(at, i)
		}
	}
	i := rapid.SampledFrom(at).Draw(t, "digit")
	text[i] = '0' + (text[i]-'0'+byte(rapid.IntRange(1, 9).Draw(t, "by")))%10
	var out quoin.Figure
	if err := out.UnmarshalText(text); err != nil {
		t.Fatal(err)
	}
	return out
}
