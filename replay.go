package quoin

import (
	"fmt"
	"math/big"
	"slices"
)

// Replay computes every step again from its operands. It errs if a value does not follow to the
// digit, or if an operand is not the value of the earlier step that it names.
//
// Steps that were stored and read can be replayed like new ones. Stored quotients have only 12
// places. So Replay uses the value that it computed itself for a step, and compares it with
// what is written: to the digit, or to 12 places for a quotient that does not end.
func Replay(steps []Step) error {
	r := replay{steps: steps, values: make([]Figure, len(steps))}
	for i := range steps {
		if err := r.step(i); err != nil {
			return fmt.Errorf("step %d, %s of %s: %w", i+1, steps[i].Code, steps[i].At, err)
		}
	}
	return nil
}

type replay struct {
	steps  []Step
	values []Figure // of the steps so far, as they come out here
}

func (r replay) step(i int) error {
	s := r.steps[i]
	operands, err := r.operands(i)
	if err != nil {
		return err
	}
	if err := s.Op.check(operands); err != nil {
		return err
	}
	written := s.Before
	if s.Before = compute(s.Op, operands); !s.Before.writtenAs(written) {
		return fmt.Errorf("its operands come to %s, not %s", s.Before, written)
	}
	if r.values[i] = s.rounded(); !r.values[i].writtenAs(s.Value) {
		return fmt.Errorf("%s rounds to %s, not %s", s.Before, r.values[i], s.Value)
	}
	return nil
}

// operands are those of a step, with values as they come out here.
func (r replay) operands(i int) ([]Operand, error) {
	out := slices.Clone(r.steps[i].Operands)
	for k, o := range out {
		switch {
		case !slices.Contains(forms(), o.Form):
			return nil, fmt.Errorf("%s %s is used as %q, which is no form", o.Name, o.Value, o.Form)
		case o.Step == 0:
			continue
		case o.Step < 0 || o.Step > i || !o.Value.same(r.steps[o.Step-1].Value):
			return nil, fmt.Errorf("%s %s is not the value of step %d", o.Name, o.Value, o.Step)
		}
		out[k].Value = r.values[o.Step-1]
	}
	return out, nil
}

func ops() []Op { return []Op{OpSum, OpProduct, OpQuotient, OpWeighted, OpGreatest, OpLeast, OpBelow} }

func forms() []Form { return []Form{Plain, Minus, OnePlus, OneMinus} }

// longestSum bounds the digits of what is multiplied; numbers of a document have some
// hundred.
const longestSum = 10_000

// check says what keeps an operation from being done.
func (op Op) check(operands []Operand) error {
	if !slices.Contains(ops(), op) {
		return fmt.Errorf("%q is no operation", op)
	}
	if n := len(operands); op == OpBelow && n != 3 || op == OpWeighted && n%2 != 0 || op == OpQuotient && n == 1 {
		return fmt.Errorf("%d operands are not those of %s", n, op)
	}
	digits, most := 0, 0
	for _, o := range operands {
		digits += o.Value.d.Span()
		most = max(most, o.Value.d.Span())
	}
	if most > longestSum || digits > longestSum && (op == OpProduct || op == OpQuotient) {
		return fmt.Errorf("its operands have more than %d digits", longestSum)
	}
	return nil
}

// same reports whether two figures have the very same digits.
func (f Figure) same(g Figure) bool {
	return f.kind == g.kind && f.unit == g.unit && f.d.Exact() == g.d.Exact() && f.d.Rat().Cmp(g.d.Rat()) == 0
}

// writtenAs reports whether a figure that was computed is one that was kept or, where a
// quotient was cut, one that was read from how it is written: to 12 places. The zeros
// behind a rate are not written, so the last of 34 digits can come out another one, and
// what was exact then can now be cut.
func (f Figure) writtenAs(kept Figure) bool {
	if f.d.Exact() || !kept.d.Exact() {
		return f.same(kept)
	}
	off := f.d.Rat()
	most := new(big.Rat).Mul(new(big.Rat).Abs(off), big.NewRat(1, 1_000_000_000_000_000)) // and again:
	most.Mul(most, big.NewRat(1, 1_000_000_000_000_000))
	if kept.d.Places() <= 12 {
		most.Add(most, big.NewRat(1, 2_000_000_000_000))
	}
	off.Sub(off, kept.d.Rat())
	return f.kind == kept.kind && f.unit == kept.unit && off.Abs(off).Cmp(most) <= 0
}
