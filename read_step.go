package quoin

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"example.com/quoin/internal/prose"
)

// UnmarshalJSON reads what MarshalJSON writes. Fields that it does not know are passed
// over. The error is a Problem.
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

// UnmarshalJSON reads what MarshalJSON writes. Fields that it does not know are passed
// over. The error is a Problem.
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
