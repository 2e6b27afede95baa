package pricelist

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"sort"
)

// reading reads what a caller's reader has, until the context ends: then it does not touch
// the reader any more.
type reading struct {
	ctx   context.Context
	from  io.Reader
	end   error // of the reader, io.EOF too
	empty int   // how many times in a row nothing was read
}

// readError is an error of the caller's reader, to be told from one of what is read.
type readError struct{ error }

func (e readError) Unwrap() error { return e.error }

// cutShort is an error of the reader, and the line that it came in.
func cutShort(err error, line int) error {
	if of, ok := err.(readError); ok {
		err = of.error
	}
	return fmt.Errorf("line %d: %w", line, err)
}

// mostEmpty is how many times in a row a reader may read nothing, and have no error.
const mostEmpty = 100

func (r *reading) Read(p []byte) (int, error) {
	if r.end != nil {
		return 0, r.end
	}
	if err := r.ctx.Err(); err != nil {
		return 0, err // nobody looks at it
	}
	n, err := r.from.Read(p)
	if n < 0 || n > len(p) {
		n, err = 0, errors.New("the reader says that it read more than there was room for, or less than nothing")
	}
	if r.empty++; n > 0 {
		r.empty = 0
	}
	if err == nil && r.empty == mostEmpty {
		err = io.ErrNoProgress
	}
	if r.end = err; err != nil && err != io.EOF {
		r.end = readError{err}
	}
	return n, r.end
}

// positions are the lines of what is written to it.
type positions struct {
	head   *bytes.Buffer // keeps all of it; nil where that is not wanted
	bytes  int64
	line   int     // the number of the line that begins at begun, from 0
	begun  int64   // where it begins
	breaks []int64 // where later lines begin
}

func (p *positions) Write(text []byte) (int, error) {
	if p.head != nil {
		p.head.Write(text)
	}
	for i, c := range text {
		if c == '\n' {
			p.breaks = append(p.breaks, p.bytes+int64(i)+1)
		}
	}
	p.bytes += int64(len(text))
	return len(text), nil
}

// of returns the line and the column of a byte, both from 1. It stands behind the one that
// was asked for before.
func (p *positions) of(offset int64) (line, column int) {
	passed := sort.Search(len(p.breaks), func(i int) bool { return p.breaks[i] > offset })
	if passed > 0 {
		p.line, p.begun = p.line+passed, p.breaks[passed-1]
		p.breaks = p.breaks[:copy(p.breaks, p.breaks[passed:])]
	}
	return p.line + 1, int(offset-p.begun) + 1
}

// last returns the number of the last line, from 1.
func (p *positions) last() int { return p.line + len(p.breaks) + 1 }
