package form

import (
	"errors"
	"fmt"
	"io"

	"example.com/quoin"
	"github.com/go-json-experiment/json/jsontext"
)

// Stream reads JSON of any length value by value. Its errors are those of the reader that
// it reads from, or say that the text is no JSON, which Fault makes a problem.
type Stream struct{ json *jsontext.Decoder }

// NewStream returns a stream of what a reader has.
func NewStream(r io.Reader) *Stream { return &Stream{jsontext.NewDecoder(r, options...)} }

// Open reads the beginning of an object, or of a list.
func (s *Stream) Open(object bool) error {
	want := jsontext.Kind('[')
	if object {
		want = '{'
	}
	t, err := s.json.ReadToken()
	if err == nil && t.Kind() != want {
		err = fmt.Errorf("%s is wanted", map[bool]string{true: "an object", false: "a list"}[object])
	}
	return err
}

// More reports whether the object or the list that was opened goes on; also where reading
// it errs.
func (s *Stream) More() bool {
	k := s.json.PeekKind()
	return k != '}' && k != ']'
}

// Close reads the end of what was opened.
func (s *Stream) Close() error {
	_, err := s.json.ReadToken()
	return err
}

// Name reads the name of a field.
func (s *Stream) Name() (string, error) {
	t, err := next(s.json)
	return string(t.text), err
}

// Value reads a value, as it is written. The text is the stream's until it is read further.
func (s *Stream) Value() ([]byte, error) { return s.json.ReadValue() }

// End errs where something follows.
func (s *Stream) End() error {
	if _, err := s.json.ReadToken(); err != io.EOF {
		if err == nil || errors.As(err, new(*jsontext.SyntacticError)) {
			err = errMore
		}
		return err
	}
	return nil
}

// Offset is how many bytes were read of the text so far.
func (s *Stream) Offset() int64 { return s.json.InputOffset() }

// Fault is an error of the text as a problem, and how many bytes stand before it.
func (s *Stream) Fault(err error) (quoin.Problem, int64) {
	at := s.Offset()
	if e, ok := errors.AsType[*jsontext.SyntacticError](err); ok {
		at = e.ByteOffset
	}
	p := syntaxProblem(err, int(at))
	p.Severity = quoin.Fault
	return p, at
}

// TextOf returns the text in a field of an object; empty where there is none.
func TextOf(object []byte, field string) string {
	t, _, _ := member(tokens(object), field)
	if t.kind != '"' {
		return ""
	}
	return string(t.text)
}
