package quoin

import (
	"strconv"
	"strings"
)

// Formula writes what the operands of the step come to as a formula that spreadsheets work out,
// without its equals sign: B2*(1-B3)/B4. Cell gives the cell that an operand stands in, or
// whatever else is to stand for it. Operands that the document does not give and that change
// nothing are left out, and not asked for. The formula is of the figure before it is rounded;
// see RoundingFormula. Spreadsheets count in binary fractions, with about 15 digits.
func (s Step) Formula(cell func(Operand) string) string {
	op, of := s.Op, make([]string, 0, len(s.Operands))
	for i, o := range s.Operands {
		if !o.Default || !o.Neutral(s.Op) {
			of = append(of, o.Form.formula(cell(o)))
		} else if op == OpQuotient && i == len(s.Operands)-1 {
			op = OpProduct // of what is above the line
		}
	}
	switch last := len(of) - 1; {
	case last < 0 && len(s.Operands) > 0 && op != OpSum:
		return "1"
	case last < 0:
		return "0"
	case op == OpProduct:
		return strings.Join(of, "*")
	case op == OpQuotient && last == 0:
		return "1/" + of[0]
	case op == OpQuotient:
		return strings.Join(of[:last], "*") + "/" + of[last]
	case op == OpWeighted:
		pairs := of[:0]
		for i := 0; i < last; i += 2 {
			pairs = append(pairs, of[i]+"*"+of[i+1])
		}
		return strings.Join(pairs, "+")
	case op == OpGreatest:
		return "MAX(" + strings.Join(of, ",") + ")"
	case op == OpLeast:
		return "MIN(" + strings.Join(of, ",") + ")"
	case op == OpBelow && last == 2:
		return "IF(ROUND(" + of[1] + "-" + of[2] + ",9)<0," + of[0] + ",0)"
	}
	return strings.Join(of, "+")
}

func (f Form) formula(x string) string {
	switch f {
	case Minus:
		return "(-" + x + ")"
	case OnePlus:
		return "(1+" + x + ")"
	case OneMinus:
		return "(1-" + x + ")"
	}
	return x
}

// RoundingFormula writes the rounding of the step as a formula over the cell that has the figure
// before it is rounded; the cell itself where the step is not rounded. What is half a cent may be
// a hair more or less in a spreadsheet, so a billionth is added or taken off where it matters.
func (s Step) RoundingFormula(cell string) string {
	if s.Places < 0 {
		return cell
	}
	form := "ROUND(ROUND(x,9),places)"
	switch s.Rounding {
	case Up:
		form = "SIGN(x)*ROUNDUP(MAX(0,ABS(x)-1E-9),places)"
	case Down:
		form = "SIGN(x)*ROUNDDOWN(ABS(x)+1E-9,places)"
	case HalfDown:
		form = "SIGN(x)*ROUND(MAX(0,ABS(x)-1E-9),places)"
	case HalfEven:
		form = "SIGN(x)*ROUND(ABS(x)+IF(MOD(INT(ABS(x)*10^places+1E-7),2)=0,-1E-9,1E-9),places)"
	}
	return strings.NewReplacer("(x", "("+cell, "places", strconv.Itoa(s.Places)).Replace(form)
}
