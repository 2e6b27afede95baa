package quoin

// Step is one line of an explanation: what a figure is, what it was made of
// and how, the value before rounding, the rounding, and the value. Steps stand
// in a list in which each rests only on the document and on steps before it.
type Step struct {
	// Code names what the figure is: "unit_price", "fee". Codes are stable.
	Code StepCode `json:"code"`
	// Subject is the name of what the figure is about: of a supply, a stage, a
	// fee. At is where that stands: channels[0].fees[1].
	Subject  string    `json:"subject,omitempty"`
	At       Path      `json:"at,omitzero"`
	Op       Op        `json:"op"`
	Operands []Operand `json:"operands"`
	// Before, Places and Rounding are not in the JSON of a step that rounds nothing;
	// read back, Before is then Value.
	Before Figure `json:"before,omitzero"`
	// Places and Rounding say how Before became Value; Places is −1 where
	// nothing was rounded.
	Places   int      `json:"places,omitempty"`
	Rounding Rounding `json:"rounding,omitempty"`
	Value    Figure   `json:"value"`
}

// StepCode names what the figure of a step is. The packages that make steps
// list theirs.
type StepCode string

// Op is how a step makes its figure of its operands. There are no others.
type Op string

const (
	OpSum      Op = "sum"      // all added up
	OpProduct  Op = "product"  // all multiplied, in order
	OpQuotient Op = "quotient" // all but the last multiplied, divided by the last
	OpWeighted Op = "weighted" // first × second + third × fourth + …
	OpGreatest Op = "greatest" // the greatest of all
	OpLeast    Op = "least"    // the least of all
	OpBelow    Op = "below"    // the first where the second is below the third, else 0
)

// Operand is one of the numbers a step is made of.
type Operand struct {
	// Name says what the number is there for: "rate", "freight".
	Name string `json:"name"`
	// Path is where the document gives it; none for the value of a step.
	Path  Path   `json:"path,omitzero"`
	Value Figure `json:"value"`
	// Form is what is done to it first.
	Form Form `json:"form,omitempty"`
	// Step is the number of the step that it is the value of, counted from 1;
	// 0 where the document gives it.
	Step int `json:"step,omitzero"`
	// Default says that the document does not give it, and this is what then
	// holds.
	Default bool `json:"default,omitzero"`
}

// Form is what is done to an operand before it is used.
type Form string

const (
	Plain    Form = ""          // as it is
	Minus    Form = "minus"     // −x
	OnePlus  Form = "one_plus"  // 1 + x
	OneMinus Form = "one_minus" // 1 − x
)

// Given returns a number that the document gives at a path.
func Given(name string, at Path, f Figure) Operand { return Operand{Name: name, Path: at, Value: f} }

// GivenOr returns a number that the document gives at a path, marked as the
// default where given is false.
func GivenOr(name string, at Path, f Figure, given bool) Operand {
	return Operand{Name: name, Path: at, Value: f, Default: !given}
}

// Called returns a number that no document gives, a constant or a count, as an
// operand.
func (f Factor) Called(name string) Operand { return Given(name, Path{}, f.Figure()) }

// Minus returns the operand subtracted.
func (o Operand) Minus() Operand { return o.as(Minus) }

// OnePlus returns 1 + the operand.
func (o Operand) OnePlus() Operand { return o.as(OnePlus) }

// OneMinus returns 1 − the operand.
func (o Operand) OneMinus() Operand { return o.as(OneMinus) }

// Called returns the operand under another name.
func (o Operand) Called(name string) Operand {
	o.Name = name
	return o
}

func (o Operand) as(f Form) Operand {
	o.Form = f
	return o
}

// Neutral reports whether the operand leaves what it is multiplied with, or
// added to, as it is.
func (o Operand) Neutral(op Op) bool {
	if op == OpSum {
		return o.Value.d.Sign() == 0
	}
	return (op == OpProduct || op == OpQuotient) && o.number().Cmp(one) == 0
}

func (s Step) rounded() Figure {
	f := s.Before
	if s.Places >= 0 {
		f.d = f.d.Round(s.Places, s.Rounding.mode())
	}
	return f
}

// RoundingDifference returns value − before: the line that makes parts and
// total add up. It is 0 where nothing was rounded.
func (s Step) RoundingDifference() Figure {
	return Figure{d: s.Value.d.Sub(s.Before.d), kind: s.Value.kind}
}
