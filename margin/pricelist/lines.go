package pricelist

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"iter"

	"example.com/quoin"
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
		lines := lineReader{from: bufio.NewReader(&reading{ctx: ctx, from: r})}
		for i := 0; ; {
			text, err := lines.next()
			switch {
			case err == io.EOF:
				return
			case err != nil:
				yield(failing(cutShort(err, lines.line)))
				return
			case lines.long:
				if !yield(failing(inLot(longLine(lines.line), i, ""))) {
					return
				}
			case len(bytes.TrimSpace(text)) == 0:
				continue
			case !yield(s.line(text, i, lines.line, b.Detail)):
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
	d := s.desk()
	c := d.collector()
	var lot Lot
	if !c.Read(text, &lot) {
		return Answer{}, lot.Key, located(text, c.All())
	}
	a, err := d.decide(lot, c, detail)
	s.desks.Put(d)
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

// lineReader reads lines of bounded length.
type lineReader struct {
	from *bufio.Reader
	line int  // the number of the last one
	long bool // it was too long to be kept
	end  error
}

// next returns the next line. A last one without an end is a line as well, unless the
// reader failed in it.
func (l *lineReader) next() ([]byte, error) {
	if l.end != nil {
		return nil, l.end
	}
	var text []byte
	l.line++
	l.long = false
	for {
		part, err := l.from.ReadSlice('\n')
		if l.long = l.long || len(text)+len(part) > longestLine+1; l.long {
			text = nil
		} else {
			text = append(text, part...)
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		l.end = err
		break
	}
	if l.end != nil && (l.end != io.EOF || len(text) == 0 && !l.long) {
		return nil, l.end
	}
	text = bytes.TrimSuffix(text, []byte{'\n'})
	l.long = l.long || len(text) > longestLine
	return text, nil
}
