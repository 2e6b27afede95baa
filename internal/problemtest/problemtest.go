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

// Only is the one problem that an error is; the zero Problem where it is none, or several.
func Only(err error) quoin.Problem {
	ps, _ := err.(quoin.Problems)
	if len(ps) != 1 {
		return quoin.Problem{}
	}
	return ps[0]
}
