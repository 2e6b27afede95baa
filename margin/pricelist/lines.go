package pricelist

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"iter"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Lines decides lots that stand in lines of JSON, one in each, and yields an answer
// for each as Decide does. Empty lines are passed over. Lots are decoded where they
// are decided. A line may have up to 16 MiB; a longer one is a lot at fault. Paths of
// problems are under lots, and their lines are those of the reader.
//
// An error of the reader is yielded with the line in which it came, wrapped, behind the
// answers to all lines before, and ends the stream, with or without GoOn. Nothing is said
// of the line that it cut short.
func (b Batch) Lines(ctx context.Context, s *Shop, r io.Reader) iter.Seq2[Answer, error] {
	fault := s.unopened()
	if r == nil {
		fault = noReader()
	}
	return b.run(ctx, fault, func(ctx context.Context, yield func(job) bool) {
		lines := form.NewLines(&reading{ctx: ctx, from: r}, longestLine)
		for i := 0; ; {
			err := lines.Next()
			switch {
			case err == io.EOF:
				return
			case err != nil:
				yield(failing(cutShort(err, lines.Line)))
				return
			case lines.Blank():
				continue
			case lines.Long:
				if !yield(failing(inLot(longLine(lines.Line), i, ""))) {
					return
				}
			case !yield(s.line(bytes.Clone(lines.Text), i, lines.Line, b.Detail)):
				return
			}
			i++
		}
	})
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

// line is the job of lot i, which stands in a line.
func (s *Shop) line(text []byte, i, line int, detail Detail) job {
	return func() (Answer, error) {
		a, key, err := s.read(text, detail)
		return a, inLot(lower(err, line-1), i, key)
	}
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
