// Package steptest writes steps as tests compare them: as a ledger that can be checked by hand.
package steptest

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
)

// Ledger compares steps with a ledger, a line for each step:
//
//	1 unit_cost @supplies[0] (paper): quotient landed_cost #1 68.90, quantity @supplies[0].quantity 50 sheet = 1.378
//
// An operand is its name, its place or the number of its step, and its value; "or" stands before
// what holds where the document gives nothing. A form stands before the value: "−", "1+" or "1−".
// What is rounded ends in "= 1.378 half_up 1.38". The steps also have to replay, so a figure that
// is wrong in the ledger and in the steps alike is wrong where it is given. Lines that begin with
// "//" are remarks: sums as they are done by hand.
func Ledger(t testing.TB, what string, steps []quoin.Step, want string) {
	t.Helper()
	if err := quoin.Replay(steps); err != nil {
		t.Errorf("%s: %v", what, err)
	}
	wanted := lines(want)
	for i := range max(len(steps), len(wanted)) {
		got, line := "", ""
		if i < len(steps) {
			got = fmt.Sprint(i+1, " ", Line(steps[i]))
		}
		if i < len(wanted) {
			line = wanted[i]
		}
		if got != line {
			t.Errorf("%s: step %d is\n\t%s\nwant\n\t%s", what, i+1, got, line)
		}
	}
}

// lines are the lines of a text without what they are indented by, remarks and empty lines.
func lines(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "//") {
			out = append(out, line)
		}
	}
	return out
}

// Line writes a step as it stands in a ledger, without its number.
func Line(s quoin.Step) string {
	sum := Sum(s, " @", Operand)
	if s.Places < 0 {
		return sum + " = " + s.Value.String()
	}
	return sum + " = " + s.Before.String() + " " + s.Rounding.String() + " " + s.Value.String()
}

// Sum writes what a step adds up, with what stands before its path, and each operand in words of
// its own.
func Sum(s quoin.Step, at string, operand func(quoin.Operand) string) string {
	var b strings.Builder
	b.WriteString(string(s.Code))
	if !s.At.IsZero() {
		b.WriteString(at + s.At.String())
	}
	if s.Subject != "" {
		b.WriteString(" (" + s.Subject + ")")
	}
	b.WriteString(": " + string(s.Op))
	for i, o := range s.Operands {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString(" " + operand(o))
	}
	return b.String()
}

// Operand writes an operand as it stands in a ledger.
func Operand(o quoin.Operand) string {
	var b strings.Builder
	b.WriteString(o.Name)
	if !o.Path.IsZero() {
		b.WriteString(" @" + o.Path.String())
	}
	if o.Step > 0 {
		fmt.Fprintf(&b, " #%d", o.Step)
	}
	if o.Default {
		b.WriteString(" or")
	}
	b.WriteString(" " + map[quoin.Form]string{quoin.Minus: "−", quoin.OnePlus: "1+", quoin.OneMinus: "1−"}[o.Form])
	return b.String() + o.Value.String()
}
