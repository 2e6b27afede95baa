package pricelist

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"sort"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Lines decides lots from lines of JSON, one lot a line, and yields an answer for each as
// Decide does. Empty lines are skipped. Lots are decoded where they are decided. A line may
// have up to 16 MiB; a longer one is a faulty lot. Paths of problems are under lots, and their
// lines are those of the reader.
//
// An error of the reader is yielded with its line, wrapped, after the answers to all lines
// before. It ends the stream, with or without GoOn. The line that it interrupts gets no answer.
func (b Batch) Lines(ctx context.Context, s *Shop, r io.Reader) iter.Seq2[Answer, error] {
	fault := s.unopened()
	if r == nil {
		fault = noReader()
	}
	return b.run(ctx, fault, func(ctx context.Context, yield func(work) bool) {
		from := &reading{ctx: ctx, from: r}
		out := newBlocks(from, yield, func(l *rawLot) (Answer, error) { return s.line(l, b.Detail) })
		if err := cutLines(form.NewLines(from, longestLine), out); out.flush() && err != nil {
			yield(failing(err))
		}
	})
}

// cutLines hands out the lots of lines. It returns what the reader fails with.
func cutLines(lines *form.Lines, out *blocks) error {
	for i := 0; ; {
		switch err := lines.Next(); {
		case err == io.EOF:
			return nil
		case err != nil:
			return cutShort(err, lines.Line)
		case lines.Blank():
			continue
		}
		l := rawLot{first: i, begins: placed{line: lines.Line}}
		if lines.Long {
			l.fault = inLot(longLine(lines.Line), i, "")
		} else {
			l.begins.text, l.size = out.keep(lines.Text), len(lines.Text)
		}
		if !out.add(l) {
			return nil
		}
		i++
	}
}

func noReader() error { return absent("no reader", "what to read from") }

// longestLine is in bytes.
const longestLine = 16 << 20

func longLine(line int) error {
	return quoin.Problems{{
		Code: quoin.TooLong, Severity: quoin.Fault, Line: line, Column: 1,
		Found: fmt.Sprintf("a line of more than %d bytes", longestLine), Wanted: "one lot on a line",
	}}
}

// line decides a lot that stands in a line.
func (s *Shop) line(l *rawLot, detail Detail) (Answer, error) {
	if l.fault != nil {
		return Answer{}, l.fault
	}
	a, key, err := s.read(l.begins.text, detail)
	return a, inLot(lower(err, l.begins.line-1), l.first, key)
}

// read decodes and decides a lot, and returns its key, as far as it has one.
func (s *Shop) read(text []byte, detail Detail) (Answer, string, error) {
	var c form.Collector
	var lot Lot
	if !c.Read(text, &lot) {
		return Answer{}, lot.Key, located(text, c.All())
	}
	a, err := s.decide(lot, &c, detail)
	return a, lot.Key, located(text, err)
}

// lower moves the lines of problems down.
func lower(err error, by int) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return err
	}
	for i := range ps {
		if ps[i].Line > 0 {
			ps[i].Line += by
		}
	}
	return ps
}

// reading reads what a caller's reader has, until the context ends: then it does not touch
// the reader any more.
type reading struct {
	ctx    context.Context
	from   io.Reader
	before func() bool // is called before anything is read, where there is one; false ends that
	end    error       // of the reader, io.EOF too
	empty  int         // how many times in a row nothing was read
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
	if r.before != nil && !r.before() || r.ctx.Err() != nil {
		return 0, context.Canceled // nobody looks at it
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
	for from := 0; ; {
		i := bytes.IndexByte(text[from:], '\n')
		if i < 0 {
			break
		}
		from += i + 1
		p.breaks = append(p.breaks, p.bytes+int64(from))
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
