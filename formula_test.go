package quoin_test

import (
	"testing"

	"example.com/quoin"
)

func TestStepFormula(t *testing.T) {
	named := func(name string) quoin.Operand { return quoin.MustFactor("3").Named(name) }
	absent := func(value string) quoin.Operand {
		return quoin.GivenOr("none", quoin.InField("x"), quoin.MustFactor(value).Figure(), false)
	}
	a, b, c, d := named("A1"), named("B1"), named("C1"), named("D1")
	for _, x := range []struct {
		op   quoin.Op
		of   []quoin.Operand
		want string
	}{
		{quoin.OpSum, []quoin.Operand{a, b.Minus(), c}, "A1+(-B1)+C1"},
		{quoin.OpSum, []quoin.Operand{a, absent("0")}, "A1"},
		{quoin.OpSum, []quoin.Operand{a, absent("2")}, "A1+none"},
		{quoin.OpSum, []quoin.Operand{absent("0")}, "0"},
		{quoin.OpSum, nil, "0"},
		{quoin.OpProduct, []quoin.Operand{a, b.OneMinus(), c.OnePlus()}, "A1*(1-B1)*(1+C1)"},
		{quoin.OpProduct, []quoin.Operand{a, absent("1")}, "A1"},
		{quoin.OpProduct, []quoin.Operand{absent("1")}, "1"},
		{quoin.OpProduct, nil, "0"},
		{quoin.OpQuotient, []quoin.Operand{a, b, c}, "A1*B1/C1"},
		{quoin.OpQuotient, []quoin.Operand{a, b, absent("1")}, "A1*B1"},
		{quoin.OpQuotient, []quoin.Operand{absent("1"), b.OneMinus()}, "1/(1-B1)"},
		{quoin.OpQuotient, []quoin.Operand{absent("1"), absent("1")}, "1"},
		{quoin.OpWeighted, []quoin.Operand{a, b, c, d}, "A1*B1+C1*D1"},
		{quoin.OpWeighted, []quoin.Operand{a, absent("1")}, "A1*none"},
		{quoin.OpGreatest, []quoin.Operand{a, b}, "MAX(A1,B1)"},
		{quoin.OpLeast, []quoin.Operand{a, b.Minus()}, "MIN(A1,(-B1))"},
		{quoin.OpBelow, []quoin.Operand{a, b, c}, "IF(ROUND(B1-C1,9)<0,A1,0)"},
	} {
		s := quoin.Step{Op: x.op, Operands: x.of}
		if got := s.Formula(func(o quoin.Operand) string { return o.Name }); got != x.want {
			t.Errorf("%s of %v is %s, wanted %s", x.op, x.of, got, x.want)
		}
	}
}

// That spreadsheets work these out as the engine rounds is tested in examples/spreadsheet.
func TestStepRoundingFormula(t *testing.T) {
	for _, x := range []struct {
		places int
		how    quoin.Rounding
		want   string
	}{
		{-1, quoin.Up, "D2"},
		{2, quoin.HalfUp, "ROUND(ROUND(D2,9),2)"},
		{0, quoin.Up, "SIGN(D2)*ROUNDUP(MAX(0,ABS(D2)-1E-9),0)"},
		{2, quoin.Down, "SIGN(D2)*ROUNDDOWN(ABS(D2)+1E-9,2)"},
		{3, quoin.HalfDown, "SIGN(D2)*ROUND(MAX(0,ABS(D2)-1E-9),3)"},
		{2, quoin.HalfEven, "SIGN(D2)*ROUND(ABS(D2)+IF(MOD(INT(ABS(D2)*10^2+1E-7),2)=0,-1E-9,1E-9),2)"},
	} {
		s := quoin.Step{Places: x.places, Rounding: x.how}
		if got := s.RoundingFormula("D2"); got != x.want {
			t.Errorf("%s to %d places is %s, wanted %s", x.how, x.places, got, x.want)
		}
	}
}
