package form

import (
	"bufio"
	"bytes"
	"io"
)

// Lines hands out the lines of a text, each up to a bound of bytes.
type Lines struct {
	Line int    // the number of the line that Next moved on to, from 1
	Text []byte // of that line, without its end, until the next one
	Long bool   // it is longer than the bound; Text is not all of it

	from *bufio.Reader
	most int
	end  error // of the reader, behind this line
}

// NewLines returns the lines that a reader has, of at most so many bytes each, without a byte
// order mark before them.
func NewLines(r io.Reader, most int) *Lines {
	return &Lines{from: bufio.NewReaderSize(Unmarked(r), 1<<16), most: most}
}

// Next moves on to the next line; io.EOF where there is none. A last one without an end is
// a line as well, unless the reader failed in it.
func (l *Lines) Next() error {
	if l.end != nil {
		return l.end
	}
	l.Line++
	l.Text, l.Long = l.Text[:0], false
	some := false
	for {
		part, err := l.from.ReadSlice('\n')
		some = some || len(part) > 0
		if l.Long = l.Long || len(l.Text)+len(part) > l.most+1; !l.Long {
			l.Text = append(l.Text, part...)
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		l.end = err
		break
	}
	l.Text = bytes.TrimSuffix(l.Text, []byte{'\n'})
	l.Long = l.Long || len(l.Text) > l.most
	if l.end != nil && (l.end != io.EOF || !some) {
		return l.end
	}
	return nil
}

// Blank reports whether nothing stands in the line.
func (l *Lines) Blank() bool { return !l.Long && len(bytes.TrimSpace(l.Text)) == 0 }
