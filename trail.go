package quoin

import (
	"fmt"
	"slices"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// Trail computes figures step by step and keeps the steps. Its methods return the figure as an
// operand for later steps.
type Trail struct {
	steps    []Step
	operands []Operand
	subject  string
	origins  map[Path]Origin
	known    map[Path]Operand // what origins have come to
	silent   bool             // it keeps nothing
	shared   *shared          // where it serves several explanations
}

// Origin explains a figure that the document does not give but that follows from what it gives.
// It computes the figure on the trail.
type Origin func(*Trail) Operand

// NewTrail returns a trail with room for so many steps, which is only a hint. The zero Trail is
// an empty trail too.
func NewTrail(steps int) *Trail {
	steps = min(max(steps, 0), mostRoom)
	return &Trail{steps: make([]Step, 0, steps), operands: make([]Operand, 0, 3*steps)}
}

const mostRoom = 10_000

// Silent returns a trail that computes the same figures and keeps no steps, for sums that
// nobody asks to explain. It allocates nothing, and goroutines can share it unless Rests was
// called on it.
func Silent() *Trail { return &Trail{silent: true} }

// On names the subject of the steps that follow.
func (t *Trail) On(subject string) *Trail {
	t.must()
	if !t.silent {
		t.subject = subject
	}
	return t
}

// Rests says which figures follow from others, by their places. The map is only read, so many
// trails can share it.
func (t *Trail) Rests(origins map[Path]Origin) {
	t.must()
	t.origins = origins
}

// must panics where there is no trail to write on.
func (t *Trail) must() {
	if t == nil {
		panic("quoin: a nil *Trail keeps no steps: NewTrail makes one that does")
	}
}

// Given returns the number at a path. If it has an origin, the origin computes it; otherwise it
// is what the document gives.
func (t *Trail) Given(name string, at Path, f Figure) Operand {
	if o, ok := t.Rested(name, at); ok {
		return o
	}
	return Given(name, at, f)
}

// Rested returns the figure at a path as its origin computes it, once. It returns false if it
// has no origin.
func (t *Trail) Rested(name string, at Path) (Operand, bool) {
	t.must()
	on, ok := t.origins[at]
	if !ok {
		return Operand{}, false
	}
	o, done := t.known[at]
	if !done {
		subject := t.subject
		o = on(t)
		t.subject = subject
		if t.known == nil {
			t.known = make(map[Path]Operand)
		}
		t.known[at] = o
	}
	return o.Named(name), true
}

// Steps returns the steps so far.
func (t *Trail) Steps() []Step {
	t.must()
	return t.steps
}

// String says how many steps there are.
func (t *Trail) String() string { return prose.Count(len(t.Steps()), "step") }

// Sum adds all operands.
func (t *Trail) Sum(code StepCode, at Path, operands ...Operand) Operand {
	return t.add(OpSum, code, at, operands)
}

// Product multiplies all operands, in order.
func (t *Trail) Product(code StepCode, at Path, operands ...Operand) Operand {
	return t.add(OpProduct, code, at, operands)
}

// Quotient multiplies all operands but the last and divides by the last, to 34 significant
// digits. The last must not be 0.
func (t *Trail) Quotient(code StepCode, at Path, operands ...Operand) Operand {
	return t.add(OpQuotient, code, at, operands)
}

// Weighted multiplies each two consecutive operands and adds the products.
func (t *Trail) Weighted(code StepCode, at Path, pairs ...Operand) Operand {
	return t.add(OpWeighted, code, at, pairs)
}

// Greatest takes the greatest operand.
func (t *Trail) Greatest(code StepCode, at Path, operands ...Operand) Operand {
	return t.add(OpGreatest, code, at, operands)
}

// Least takes the least operand.
func (t *Trail) Least(code StepCode, at Path, operands ...Operand) Operand {
	return t.add(OpLeast, code, at, operands)
}

// Below returns value if x is below y, and 0 otherwise.
func (t *Trail) Below(code StepCode, at Path, value, x, y Operand) Operand {
	return t.add(OpBelow, code, at, []Operand{value, x, y})
}

// Rounded rounds the step that o is the value of, to so many places; below 0 it does not round.
// It must be called before another step uses that one. It panics after that, and if o is not
// the value of a step.
func (t *Trail) Rounded(places int, how Rounding, o Operand) Operand {
	t.must()
	if t.silent {
		if places >= 0 {
			o.Value.d = o.Value.d.Round(places, how.mode())
		}
		return o
	}
	if o.Step < 1 || o.Step > len(t.steps) {
		panic(fmt.Sprintf("quoin: Trail.Rounded: %q is the value of no step of this trail: round what Sum, Product and the like return", o.Name))
	}
	for i := o.Step; i < len(t.steps); i++ {
		if slices.ContainsFunc(t.steps[i].Operands, func(x Operand) bool { return x.Step == o.Step }) {
			panic(fmt.Sprintf("quoin: Trail.Rounded: step %d rests on step %d already: round before that", i+1, o.Step))
		}
	}
	s := &t.steps[o.Step-1]
	s.Places, s.Rounding = places, how
	s.Value = s.rounded()
	o.Value = s.Value
	return o
}

func (t *Trail) add(op Op, code StepCode, at Path, operands []Operand) Operand {
	t.must()
	if t.silent {
		return Operand{Name: string(code), Value: compute(op, operands)}
	}
	kept := t.keep(operands)
	before := compute(op, kept)
	t.steps = append(t.steps, Step{Code: code, Subject: t.subject, At: at, Op: op, Operands: kept, Before: before, Places: -1, Value: before})
	if t.shared != nil {
		t.shared.told = append(t.shared.told, len(t.steps))
	}
	return Operand{Name: string(code), Value: before, Step: len(t.steps)}
}

// keep returns operands of the trail's own. Where they find no room, those before stay where
// they are.
func (t *Trail) keep(operands []Operand) []Operand {
	from := len(t.operands)
	if from+len(operands) > cap(t.operands) {
		from, t.operands = 0, make([]Operand, 0, max(2*cap(t.operands), len(operands), 16))
	}
	t.operands = append(t.operands, operands...)
	return t.operands[from:len(t.operands):len(t.operands)]
}

// compute is what an operation makes of its operands.
func compute(op Op, operands []Operand) Figure {
	if len(operands) == 0 {
		return Figure{}
	}
	if op == OpProduct {
		return product(operands)
	}
	out := Figure{d: operands[0].number(), kind: operands[0].kind()}
	switch op {
	case OpSum:
		for i := range operands[1:] {
			out.d = out.d.Add(operands[i+1].number())
		}
	case OpQuotient:
		last := &operands[len(operands)-1]
		out = product(operands[:len(operands)-1])
		if last.number().Sign() == 0 {
			return Figure{}
		}
		out.d = out.d.Quo(last.number())
		if last.kind() == IsAmount {
			out.kind = IsFactor
		}
	case OpWeighted:
		out = Figure{}
		for i := 0; i+1 < len(operands); i += 2 {
			p := product(operands[i : i+2])
			out.d, out.kind = out.d.Add(p.d), p.kind
		}
	case OpGreatest, OpLeast:
		for i := range operands[1:] {
			x := operands[i+1].number()
			if c := x.Cmp(out.d); c > 0 == (op == OpGreatest) && c != 0 {
				out.d = x
			}
		}
	case OpBelow:
		if len(operands) == 3 && operands[1].number().Cmp(operands[2].number()) >= 0 {
			out.d = out.d.Mul(decimal.New(0, 0))
		}
	}
	return out
}

func product(operands []Operand) Figure {
	if len(operands) == 0 {
		return Figure{d: one}
	}
	out := Figure{d: operands[0].number(), kind: operands[0].kind()}
	for i := range operands[1:] {
		o := &operands[i+1]
		if o.kind() == IsAmount {
			out.d, out.kind = o.number().Mul(out.d), IsAmount // money first, for its cents are written
			continue
		}
		out.d = out.d.Mul(o.number())
	}
	return out
}

// kind is the kind an operand lends to its result: money stays money, all else
// is a plain factor.
func (o *Operand) kind() FigureKind {
	if o.Value.kind == IsAmount {
		return IsAmount
	}
	return IsFactor
}

func (o *Operand) number() decimal.Decimal {
	switch o.Form {
	case Minus:
		return o.Value.d.Neg()
	case OnePlus:
		return one.Add(o.Value.d)
	case OneMinus:
		return one.Sub(o.Value.d)
	}
	return o.Value.d
}

// Find returns the numbers, counted from 1, of the steps that keep accepts, or of all if keep
// is nil. The list stays whole, so the numbers in operands stay right.
func Find(steps []Step, keep func(Step) bool) []int {
	var out []int
	for i, s := range steps {
		if keep == nil || keep(s) {
			out = append(out, i+1)
		}
	}
	return out
}

// Ancestors returns the numbers of the given steps and of all steps that they use, in order:
// the way to a figure.
func Ancestors(steps []Step, numbers ...int) []int {
	wanted := make([]bool, len(steps)+1)
	for _, n := range numbers {
		if n > 0 && n <= len(steps) {
			wanted[n] = true
		}
	}
	for n := len(steps); n > 0; n-- {
		if !wanted[n] {
			continue
		}
		for _, o := range steps[n-1].Operands {
			if o.Step > 0 && o.Step < n {
				wanted[o.Step] = true
			}
		}
	}
	return marked(wanted)
}

// OnDefault returns the numbers of the steps that use, directly or through others, something
// that the document does not give.
func OnDefault(steps []Step) []int {
	rests := make([]bool, len(steps)+1)
	for i, s := range steps {
		for _, o := range s.Operands {
			if o.Default || o.Step > 0 && o.Step <= i && rests[o.Step] {
				rests[i+1] = true
			}
		}
	}
	return marked(rests)
}

func marked(at []bool) []int {
	var out []int
	for n, yes := range at {
		if yes {
			out = append(out, n)
		}
	}
	return out
}
