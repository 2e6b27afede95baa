// Package problemtest writes problems, and steps, as tests compare them.
package problemtest

import (
	"errors"
	"strings"

	"example.com/quoin"
)

// Listed writes the problems of an error as "code path", in their order; empty where there
// are none. Any other error is written as it is.
func Listed(err error) string {
	var ps quoin.Problems
	if err != nil && !errors.As(err, &ps) {
		return err.Error()
	}
	out := make([]string, len(ps))
	for i, p := range ps {
		out[i] = string(p.Code) + " " + p.Path
	}
	return strings.Join(out, ", ")
}

// Told writes the problems of an error in full, one a line: severity, path, what was found, what is
// wanted and what to do, code and, in braces, arguments. It is empty where there are none.
func Told(err error) string {
	return written(err, func(args []quoin.Arg) string {
		out := make([]string, len(args))
		for i, a := range args {
			out[i] = a.String()
		}
		if len(out) == 0 {
			return ""
		}
		return " {" + strings.Join(out, ", ") + "}"
	})
}

// written writes each problem with its severity, its sentence and its arguments.
func written(err error, args func([]quoin.Arg) string) string {
	var one quoin.Problem
	var all quoin.Problems
	switch {
	case err == nil:
		return ""
	case errors.As(err, &all):
	case errors.As(err, &one):
		all = quoin.Problems{one}
	default:
		return err.Error()
	}
	out := make([]string, len(all))
	for i, p := range all {
		out[i] = string(p.Severity) + " " + p.Error() + args(p.Args)
	}
	return strings.Join(out, "\n")
}

// Only is the one problem that an error is; the zero Problem where it is none, or several.
func Only(err error) quoin.Problem {
	ps, _ := err.(quoin.Problems)
	if len(ps) != 1 {
		return quoin.Problem{}
	}
	return ps[0]
}
