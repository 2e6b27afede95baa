package problemtest

import (
	"strings"

	"example.com/quoin"
)

// Steps writes steps with all that stands in them, one to a line:
//
//	landed_cost supplies[0] (Cotton rag): sum price 62.00 @supplies[0].price, duty 0.00 @supplies[0].duty ? = 62.00
//
// Behind @ is the path of an operand, behind # the number of its step, and ? marks a default.
// Operands are written with their types, as they are stored: 3x is a factor.
func Steps(steps []quoin.Step) string {
	var b strings.Builder
	for _, s := range steps {
		b.WriteString(string(s.Code))
		if !s.At.IsZero() {
			b.WriteString(" " + s.At.String())
		}
		if s.Subject != "" {
			b.WriteString(" (" + s.Subject + ")")
		}
		b.WriteString(": " + string(s.Op))
		for i, o := range s.Operands {
			if i > 0 {
				b.WriteString(",")
			}
			b.WriteString(" " + Operand(o))
		}
		b.WriteString(" = ")
		if s.Places >= 0 {
			b.WriteString(text(s.Before) + ", " + s.Rounding.String() + " to " + quoin.FactorOf(int64(s.Places)).String() + ": ")
		}
		b.WriteString(text(s.Value) + "\n")
	}
	return b.String()
}

// Operand writes an operand as Steps does.
func Operand(o quoin.Operand) string {
	out := o.Name
	if o.Form != quoin.Plain {
		out += " " + string(o.Form)
	}
	out += " " + text(o.Value)
	if !o.Path.IsZero() {
		out += " @" + o.Path.String()
	}
	if o.Step != 0 {
		out += " #" + quoin.FactorOf(int64(o.Step)).String()
	}
	if o.Default {
		out += " ?"
	}
	return out
}

func text(f quoin.Figure) string {
	b, err := f.MarshalText()
	if err != nil {
		return err.Error()
	}
	return string(b)
}

// Full writes the problems of an error with all that stands in them, one to a line: severity,
// the sentence, and what it is about. Empty where there are none.
func Full(err error) string {
	var ps quoin.Problems
	switch e := err.(type) {
	case nil:
		return ""
	case quoin.Problem:
		ps = quoin.Problems{e}
	case quoin.Problems:
		ps = e
	default:
		return err.Error()
	}
	out := make([]string, len(ps))
	for i, p := range ps {
		out[i] = string(p.Severity) + " " + p.Error()
		for _, a := range p.Args {
			out[i] += " " + a.Name + "=" + a.Value
		}
	}
	return strings.Join(out, "\n")
}
