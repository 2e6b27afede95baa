package frame

import (
	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// Codes of the steps that explain what a frame takes.
const (
	StepMoulding quoin.StepCode = "moulding_length" // 2(W + H) + 8 × width − 8 × rabbet + allowance
	StepLeast    quoin.StepCode = "moulding_sold"   // at least the least that is sold
	StepUnited   quoin.StepCode = "united_inches"   // (W + H) in mm ÷ 25.4
	StepAround   quoin.StepCode = "width_and_height"
)

func times(n int64) quoin.Operand { return quoin.FactorOf(n).Named("times") }

func side(t *quoin.Trail, name string, at quoin.Path, q quoin.Quantity) quoin.Operand {
	return t.Given(name, at, inMM(mm(q)).Figure())
}

// orNone is a length that need not be given.
func orNone(t *quoin.Trail, name string, at quoin.Path, q quoin.Quantity) quoin.Operand {
	if q.IsZero() {
		return quoin.GivenOr(name, at, inMM(mm(q)).Figure(), false)
	}
	return side(t, name, at, q)
}

// Explain computes the length of moulding that a frame takes, in mm, step by step. The glass
// stands at a path of its own.
func (m Moulding) Explain(t *quoin.Trail, at, glassAt quoin.Path) quoin.Operand {
	length := t.Weighted(StepMoulding, at,
		side(t, "width", glassAt, m.Glass.Width()), times(2), side(t, "height", glassAt, m.Glass.Height()), times(2),
		side(t, "moulding width", at.Field("width"), m.Width), times(8), orNone(t, "rabbet", at.Field("rabbet"), m.Rabbet).Minus(), times(8),
		orNone(t, "allowance", at.Field("allowance"), m.Allowance), times(1))
	if m.Least.IsZero() {
		return length
	}
	return t.Greatest(StepLeast, at, length, side(t, "least", at.Field("least"), m.Least))
}

// ExplainSticks computes the share of a stick that a frame takes.
func (m Moulding) ExplainSticks(t *quoin.Trail, at quoin.Path, s cut.Sticks) quoin.Operand {
	return s.Explain(t, at, quoin.GivenOr("frames cut together", at.Field("together"), quoin.FactorOf(max(m.Together, 1)).Figure(), m.Together > 0))
}

// Explain computes the united inches of a size, step by step. The size stands at a path of its
// own.
func (u United) Explain(t *quoin.Trail, at, sizeAt quoin.Path) quoin.Operand {
	around := t.Sum(StepAround, at, side(t, "width", sizeAt, u.Size.Width()), side(t, "height", sizeAt, u.Size.Height()))
	inches := t.Quotient(StepUnited, at, around, quoin.MustFactor("25.4").Named("mm in 1 in"))
	if u.WholeUp {
		return t.Rounded(0, quoin.Up, inches)
	}
	return inches
}
