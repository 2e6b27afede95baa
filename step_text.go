package quoin

import (
	"fmt"
	"strings"
)

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
