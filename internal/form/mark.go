package form

import (
	"bytes"
	"io"
)

// mark is the byte order mark that some editors write before a text in UTF-8. It is no part of
// the text, and no column.
var mark = []byte("\ufeff")

// unmarked is a text without a mark before it.
func unmarked(text []byte) []byte { return bytes.TrimPrefix(text, mark) }

// Unmarked returns what a reader has, without a byte order mark before it.
func Unmarked(r io.Reader) io.Reader { return &unmarkedReader{from: r} }

type unmarkedReader struct {
	from io.Reader
	head []byte // was read, to be handed on
	err  error
	any  bool // something was read
}

func (u *unmarkedReader) Read(to []byte) (int, error) {
	if !u.any {
		u.any = true
		head, n := make([]byte, len(mark)), 0
		for n < len(head) && u.err == nil {
			var more int
			more, u.err = u.from.Read(head[n:])
			n += more
		}
		u.head = unmarked(head[:n])
	}
	if len(u.head) > 0 {
		n := copy(to, u.head)
		u.head = u.head[n:]
		return n, nil
	}
	if u.err != nil {
		return 0, u.err
	}
	return u.from.Read(to)
}
