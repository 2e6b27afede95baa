package history

import (
	"errors"
	"fmt"
	"io"
	"iter"

	"example.com/quoin"
	"example.com/quoin/internal/form"
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
		in := form.NewLines(r, longestLine)
		room := mostProblems
		for {
			err := in.Next()
			if err == io.EOF {
				return
			}
			if err != nil {
				yield(Record{}, fmt.Errorf("line %d: %w", in.Line, err))
				return
			}
			if in.Blank() {
				continue
			}
			record, problems := read(in, room+1)
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

// read reads the record in a line. There is none where problems were found, of which it
// lists so many.
func read(in *form.Lines, room int) (Record, quoin.Problems) {
	at := (*form.Path)(nil).Field("lines").At(in.Line - 1)
	c := form.Collector{Records: true}
	r := Record{Line: in.Line}
	if in.Long {
		return Record{}, quoin.Problems{{
			Code: quoin.TooLong, Severity: quoin.Fault, Line: in.Line, Column: 1, Path: at.String(),
			Found: fmt.Sprintf("a line of more than %d bytes", longestLine), Wanted: "one record on a line",
		}}
	}
	if c.ReadAt(at, in.Text, &r) && r.Entry != nil {
		r.Entry.period(&c, at)
	}
	if len(c.Problems) == 0 {
		return r, nil
	}
	c.Problems = c.Problems[:min(len(c.Problems), room)]
	form.LocateIn(in.Text, at, in.Line, 1, c.Problems)
	return Record{}, c.Problems
}
