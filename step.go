package quoin

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin/internal/prose"
)

// Step is one line of an explanation: what a figure is, what it was computed from and how, its
// value before rounding, the rounding, and its value. In a list of steps, each uses only the
// document and earlier steps.
type Step struct {
	// What the figure is: unit_price, fee. Codes are stable.
	Code StepCode `json:"code"`
	// Name of the supply, stage, fee or other thing that the figure is about.
	Subject string `json:"subject,omitempty"`
	// Where that stands: channels[0].fees[1].
	At Path `json:"at,omitzero"`
	// How the operands make the figure: all added up; all multiplied; all but the last
	// multiplied, divided by the last; first × second + third × fourth and so on; the greatest;
	// the least; or the first where the second is below the third, else 0.
	Op Op `json:"op"`
	// What the figure is made of, in order.
	Operands []Operand `json:"operands"`
	// The figure before rounding; not given where it is not rounded, and value is what the
	// operands come to.
	Before Figure `json:"before,omitzero"`
	// Digits after the point that it is rounded to; not given where it is not rounded.
	Places int `json:"places,omitempty"`
	// How it is rounded; not given where it is not.
	Rounding Rounding `json:"rounding,omitempty"`
	// The figure.
	Value Figure `json:"value"`
}

// StepCode names what the figure of a step is. Packages that make steps list their codes.
type StepCode string

// Op is how a step computes its figure from its operands. There are no other operations.
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

// Operand is one of the numbers that a step is computed from.
type Operand struct {
	// What the number is there for: rate, freight.
	Name string `json:"name"`
	// Where the document gives it, or could; not given for the value of a step.
	Path Path `json:"path,omitzero"`
	// The number.
	Value Figure `json:"value"`
	// What is done to it first: −x, 1 + x, or 1 − x; nothing where it is not given.
	Form Form `json:"form,omitempty"`
	// Number of the step that it is the value of, counted from 1; not given where the document
	// gives it.
	Step int `json:"step,omitzero"`
	// Given, and true, where the document does not give the number, and this is what then holds.
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

// Named returns the factor as an operand under a name. It is for numbers that no document
// gives: a constant or a count.
func (f Factor) Named(name string) Operand { return Given(name, Path{}, f.Figure()) }

// Minus returns the operand subtracted.
func (o Operand) Minus() Operand { return o.as(Minus) }

// OnePlus returns 1 + the operand.
func (o Operand) OnePlus() Operand { return o.as(OnePlus) }

// OneMinus returns 1 − the operand.
func (o Operand) OneMinus() Operand { return o.as(OneMinus) }

// Named returns the operand under another name.
func (o Operand) Named(name string) Operand {
	o.Name = name
	return o
}

func (o Operand) as(f Form) Operand {
	o.Form = f
	return o
}

// Neutral reports whether the operand changes nothing in a product, or in a sum.
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

// RoundingDifference returns value − before: the difference between parts and total. It is 0 if
// nothing was rounded.
func (s Step) RoundingDifference() Figure {
	return Figure{d: s.Value.d.Sub(s.Before.d), kind: s.Value.kind}
}

// String writes the step in a line: "unit_cost of supplies[0] (Cotton rag paper): quotient
// of price 77.40 and prints 27 is 2.8667", with the value before it was rounded.
func (s Step) String() string {
	var b strings.Builder
	b.WriteString(string(s.Code))
	if !s.At.IsZero() {
		b.WriteString(" of " + s.At.String())
	}
	if s.Subject != "" {
		b.WriteString(" (" + s.Subject + ")")
	}
	b.WriteString(": " + string(s.Op) + " of ")
	for i, o := range s.Operands {
		switch {
		case i == 0:
		case i == len(s.Operands)-1:
			b.WriteString(" and ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(o.String())
	}
	if len(s.Operands) == 0 {
		b.WriteString("nothing")
	}
	if s.Places >= 0 && !s.Before.Equal(s.Value) {
		b.WriteString(" is " + s.Before.String() + ", rounded " + s.Rounding.String() + " to " + s.Value.String())
	} else {
		b.WriteString(" is " + s.Value.String())
	}
	return b.String()
}

// String writes the operand by its name, its form and its value: "rate 7.4%", "loss
// one_minus 8%".
func (o Operand) String() string {
	parts := []string{o.Name, string(o.Form), o.Value.String()}
	return strings.Join(strings.Fields(strings.Join(parts, " ")), " ")
}

// String writes the name and the value.
func (a Arg) String() string { return a.Name + " " + a.Value }

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// UnmarshalJSON reads what MarshalJSON writes. Unknown fields are skipped. The error is a
// Problem.
func (s *Step) UnmarshalJSON(data []byte) error {
	var w struct {
		Code, Subject, At, Op string
		Operands              []json.RawMessage
		Before, Rounding      *string
		Places                *int
		Value                 string
	}
	if err := json.Unmarshal(data, &w); err != nil {
		return badStep(err)
	}
	out := Step{Code: StepCode(w.Code), Subject: w.Subject, Op: Op(w.Op), Places: -1, Operands: make([]Operand, 0, min(len(w.Operands), 64))}
	if !slices.Contains(ops(), out.Op) {
		return InField("op").Locate(unknownWord(w.Op, ops()))
	}
	if err := out.At.UnmarshalText([]byte(w.At)); err != nil {
		return InField("at").Locate(err)
	}
	for i, text := range w.Operands {
		var o Operand
		if err := o.UnmarshalJSON(text); err != nil {
			return InList("operands", i).Locate(err)
		}
		out.Operands = append(out.Operands, o)
	}
	if err := out.Value.UnmarshalText([]byte(w.Value)); err != nil {
		return InField("value").Locate(err)
	}
	out.Before = out.Value
	if err := out.readRounding(w.Before, w.Places, w.Rounding); err != nil {
		return err
	}
	*s = out
	return nil
}

// readRounding reads what stands in a step that rounds: all three or none.
func (s *Step) readRounding(before *string, places *int, how *string) error {
	if before == nil && places == nil && how == nil {
		return nil
	}
	if before == nil || places == nil || how == nil || *places < 0 {
		return Problem{Code: BadStep, Severity: Fault, Found: "a step that rounds", Wanted: "before, rounding, and places from 0 on"}
	}
	if err := s.Before.UnmarshalText([]byte(*before)); err != nil {
		return InField("before").Locate(err)
	}
	s.Places = *places
	return InField("rounding").Locate(s.Rounding.UnmarshalText([]byte(*how)))
}

// UnmarshalJSON reads what MarshalJSON writes. Unknown fields are skipped. The error is a
// Problem.
func (o *Operand) UnmarshalJSON(data []byte) error {
	var w struct {
		Name, Path, Value, Form string
		Step                    int
		Default                 bool
	}
	if err := json.Unmarshal(data, &w); err != nil {
		return badStep(err)
	}
	out := Operand{Name: w.Name, Form: Form(w.Form), Step: w.Step, Default: w.Default}
	if err := out.Path.UnmarshalText([]byte(w.Path)); err != nil {
		return InField("path").Locate(err)
	}
	if err := out.Value.UnmarshalText([]byte(w.Value)); err != nil {
		return InField("value").Locate(err)
	}
	if !slices.Contains(forms(), out.Form) {
		return InField("form").Locate(unknownWord(w.Form, forms()))
	}
	if out.Step < 0 {
		return InField("step").Locate(noStep())
	}
	*o = out
	return nil
}

func noStep() Problem {
	return Problem{Code: BadStep, Severity: Fault, Found: "an operand that is the value of no step before", Wanted: "the number of a step before it, counted from 1"}
}

func unknownWord[T ~string](found string, of []T) Problem {
	words := make([]string, len(of))
	for i, w := range of {
		words[i] = string(w)
	}
	words = slices.DeleteFunc(words, func(w string) bool { return w == "" })
	return Problem{Code: UnknownWord, Severity: Fault, Found: prose.Quoted(found), Wanted: "one of " + strings.Join(words, ", "), Near: prose.Near(found, words)}
}

// badStep is an error of encoding/json as a problem.
func badStep(err error) Problem {
	p := Problem{Code: BadStep, Severity: Fault, Found: prose.Clean(err.Error()), Wanted: "a step as it is written"}
	if typed, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		p.Path, p.Found = strings.ToLower(typed.Field), "JSON of another kind, "+typed.Value
	}
	return p
}
