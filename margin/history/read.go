package history

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"iter"

	"example.com/quoin"
)

// Read goes through lines of JSON, one record a line, and passes each record on
// as it is read; blank lines are passed over. Where a line is no record, its
// error is quoin.Problems, all that is wrong with that line, and reading goes
// on; so it does after a line of more than 1 MiB. Past 1000 problems one says
// that there are more, and reading ends; so it does at an error of the reader,
// which is passed on, wrapped with its line. Of the line that it cut short nothing is said.
//
// It keeps one line at a time. Whether records go together is for New.
func Read(r io.Reader) iter.Seq2[Record, error] {
	return func(yield func(Record, error) bool) {
		if r == nil {
			yield(Record{}, quoin.Problems{{Code: quoin.MissingField, Severity: quoin.Fault, Found: "no reader", Wanted: "what to read from"}})
			return
		}
		in := lines{from: bufio.NewReaderSize(r, 1<<16)}
		room := mostProblems
		for {
			err := in.next()
			if err == io.EOF {
				return
			}
			if err != nil {
				yield(Record{}, fmt.Errorf("line %d: %w", in.line, err))
				return
			}
			if in.blank() {
				continue
			}
			record, problems := in.record(room + 1)
			room -= len(problems)
			if room < 0 {
				problems = append(problems[:len(problems)-1], moreProblems(quoin.Fault))
			}
			if !yield(record, problems.Err()) || room < 0 {
				return
			}
		}
	}
}

// ReadAll reads all records of lines of JSON. The error is quoin.Problems,
// everything that is wrong with all of the lines, or that of the reader; then
// there are no records. More than 100,000 records are refused.
func ReadAll(r io.Reader) ([]Record, error) {
	var all []Record
	var problems quoin.Problems
	for record, err := range Read(r) {
		found, faulty := err.(quoin.Problems) // of the line, and not of the reader
		switch {
		case err == nil && len(all) == mostRecords:
			problems = append(problems, tooMany(record.Line))
			return nil, problems
		case err == nil:
			all = append(all, record)
		case faulty:
			problems = append(problems, found...)
		case len(problems) > 0:
			return nil, errors.Join(problems, err)
		default:
			return nil, err
		}
	}
	if len(problems) > 0 {
		return nil, problems
	}
	return all, nil
}

func tooMany(line int) quoin.Problem {
	return quoin.Problem{
		Code: quoin.TooMany, Severity: quoin.Fault, Line: line, Column: 1, Path: quoin.InList("lines", line-1).String(),
		Found: fmt.Sprintf("more than %d records", mostRecords), Wanted: fmt.Sprintf("at most %d", mostRecords), Remedy: "keep older ones, or other products, apart",
	}
}

// lines hands out lines of bounded length.
type lines struct {
	from *bufio.Reader
	text []byte // the line, without its end; not all of it where it is long
	long bool
	line int
	end  error // of the reader, after this line
}

// next moves on to the next line; io.EOF where there is none.
func (l *lines) next() error {
	if l.end != nil {
		return l.end
	}
	l.line++
	l.text, l.long = l.text[:0], false
	some := false
	for {
		part, err := l.from.ReadSlice('\n')
		some = some || len(part) > 0
		if l.long = l.long || len(l.text)+len(part) > longestLine+1; !l.long {
			l.text = append(l.text, part...)
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		l.end = err
		break
	}
	l.text = bytes.TrimSuffix(l.text, []byte{'\n'})
	l.long = l.long || len(l.text) > longestLine
	if l.end != nil && (l.end != io.EOF || !some) {
		return l.end
	}
	return nil
}

// record reads the line that next moved on to.
func (l *lines) record(room int) (Record, quoin.Problems) {
	if !l.long {
		return readLine(l.text, l.line, room)
	}
	return Record{}, quoin.Problems{{
		Code: quoin.TooLong, Severity: quoin.Fault, Line: l.line, Column: 1, Path: quoin.InList("lines", l.line-1).String(),
		Found: fmt.Sprintf("a line of more than %d bytes", longestLine), Wanted: "one record on a line",
	}}
}

func (l *lines) blank() bool { return !l.long && len(bytes.Trim(l.text, " \t\r")) == 0 }
