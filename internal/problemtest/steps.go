package problemtest

import (
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/steptest"
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
		b.WriteString(steptest.Sum(s, " ", Operand))
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
	return written(err, func(args []quoin.Arg) string {
		var b strings.Builder
		for _, a := range args {
			b.WriteString(" " + a.Name + "=" + a.Value)
		}
		return b.String()
	})
}
