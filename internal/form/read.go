package form

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"sync"
	"unicode/utf8"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"github.com/go-json-experiment/json/jsontext"
)

// Read reads a JSON text into what to points to, and collects what is wrong with it. It
// returns false where that cannot be checked any further: the text is no JSON, which is a
// problem, or there are too many.
func (c *Collector) Read(text []byte, to any) bool { return c.ReadAt(nil, text, to) }

// ReadAt is Read for a text that is what stands at a path.
func (c *Collector) ReadAt(at *Path, text []byte, to any) bool {
	r := newReader(c)
	r.root = at
	return r.whole(text, to) == nil
}

// ReadStored reads a JSON text that a program wrote. Fields that it does not know it passes
// over: a later version may have written them. Numbers have as many digits as they come to.
// Inside, if any, returns a pointer to what stands in JSON for a value that its type would
// read itself, of which it is given a pointer; nil where that is the type's own affair. The
// error is a Problem with path, line and column, the first that is found.
func ReadStored(text []byte, to any, inside func(any) any) error {
	c := new(Collector)
	r := newReader(c)
	r.stored, r.inside = true, inside
	if r.whole(text, to); len(c.Problems) == 0 {
		return nil
	}
	Locate(text, c.Problems[:1])
	return c.Problems[0]
}

const (
	// mostDeep bounds how far values are in one another.
	mostDeep = 100
	// longestKept is of texts of which one copy serves wherever they stand.
	longestKept = 32
)

var (
	errFull = errors.New("too many problems")
	errMore = errors.New("something after the end of the document")
)

// reader fills values from JSON by the tags of their types. Its methods err only on text
// that is no JSON and where there are too many problems; everything else is a problem, and
// reading goes on.
type reader struct {
	*Collector
	route
	json   jsontext.Decoder
	kept   [64]string       // short texts, one for each of their numbers
	scout  jsontext.Decoder // looks ahead
	stored bool
	inside func(any) any
}

// options are those of all readers: a name that stands twice, and text that is no UTF-8, are
// problems of their own.
var options = []jsontext.Options{jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true)}

// tokens returns what cuts a text into tokens, which it does where the text stands.
func tokens(text []byte) *jsontext.Decoder {
	return jsontext.NewDecoder(bytes.NewBuffer(text), options...)
}

// readers are those that have read, to be used again.
var readers = sync.Pool{New: func() any { return new(reader) }}

func newReader(c *Collector) *reader {
	r := readers.Get().(*reader)
	r.Collector = c
	return r
}

// whole reads all of a text into what to points to. What keeps it from being read is a
// problem, and returned.
func (r *reader) whole(text []byte, to any) error {
	text = unmarked(text)
	r.json.Reset(bytes.NewBuffer(text), options...)
	err := r.top(reflect.ValueOf(to).Elem())
	if err != nil && err != errFull && !(r.Records && len(r.Problems) > 0) {
		r.Add(r.root, syntaxProblem(err, len(text)))
	}
	r.json.Reset(new(bytes.Buffer))
	r.scout.Reset(new(bytes.Buffer))
	r.Collector, r.root, r.at, r.stored, r.inside = nil, nil, r.at[:0], false, nil
	readers.Put(r)
	return err
}

func (r *reader) top(v reflect.Value) error {
	if err := r.value(&Field{}, shapeOf(v.Type()), v); err != nil {
		return err
	}
	if _, err := r.json.ReadToken(); err != io.EOF {
		return errMore
	}
	return nil
}

func syntaxProblem(err error, size int) quoin.Problem {
	p := quoin.Problem{Code: quoin.BadJSON, Found: err.Error(), Wanted: "a JSON document (RFC 8259)"}
	if e, ok := errors.AsType[*jsontext.SyntacticError](err); ok && e.Err != nil {
		p.Found = prose.Clean(e.Err.Error())
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		p.Found = fmt.Sprintf("the end of the text, after %d bytes", size)
	}
	return p
}

// value reads the next value into v.
func (r *reader) value(f *Field, s *shape, v reflect.Value) error {
	if r.Full {
		return errFull
	}
	if len(r.at) > mostDeep {
		r.add(quoin.Problem{Code: quoin.BadJSON, Found: "a value inside of too many others", Wanted: fmt.Sprintf("at most %d", mostDeep)})
		return errFull
	}
	kind := r.json.PeekKind()
	if kind == 'n' && r.stored && (s.as == asList || s.as == asPointer) {
		return r.json.SkipValue()
	}
	switch s.as {
	case asPointer:
		v.Set(reflect.New(v.Type().Elem()))
		return r.value(f, s.of, v.Elem())
	case asScalar:
		return r.scalar(f, &s.scalar, v)
	case asItself:
		return r.itself(f, v)
	case asList, asArray:
		if kind != '[' {
			return r.wrong("a list")
		}
		return r.list(f, s, v)
	}
	switch {
	case kind != '{' && s.as == asLists:
		return r.wrong("an object of lists by name")
	case kind != '{':
		return r.wrong("an object")
	case s.as == asLists:
		return r.lists(f, s.of, v)
	case s.as == asUnion:
		return r.union(s, v)
	}
	return r.fill(&variant{object: v.Type(), in: s.in, common: len(s.in.Fields)}, v, reflect.Value{})
}

func (r *reader) add(p quoin.Problem) { r.Add(r.path(), p) }

// wrong passes over a value that is of another type than wanted, which is a problem.
func (r *reader) wrong(wanted string) error {
	t, err := valueOf(&r.json)
	if err != nil {
		return err
	}
	r.add(quoin.Problem{Code: quoin.WrongType, Found: t.String(), Wanted: wanted})
	if t.kind == '{' || t.kind == '[' {
		return r.json.SkipValue()
	}
	return nil
}

// token reads a text, a number, a truth or null.
func (r *reader) token() (token, error) { return next(&r.json) }

// next reads the next token from a decoder.
func next(d *jsontext.Decoder) (token, error) {
	text, err := d.ReadValue()
	if err != nil {
		return token{}, err
	}
	t := token{kind: byte(text.Kind()), text: text}
	if t.kind == '"' {
		t.text, t.mended = unquoted(text)
	}
	return t, nil
}

// unquoted is what a string says, most often where it stands, and whether it is no UTF-8 and
// was mended.
func unquoted(text []byte) (says []byte, mended bool) {
	inside := text[1 : len(text)-1]
	if plain(inside) {
		return inside, false
	}
	out, err := jsontext.AppendUnquote(nil, text)
	return out, err != nil
}

// plain reports whether a text stands in quotes as it is: it is of ASCII, or of UTF-8 without
// anything escaped.
func plain(text []byte) bool {
	for _, c := range text {
		if c == '\\' || c >= utf8.RuneSelf {
			return bytes.IndexByte(text, '\\') < 0 && utf8.Valid(text)
		}
	}
	return true
}

// keep returns a text of its own; of a short one most often that of before.
func (r *reader) keep(text []byte) string {
	if n := len(text); n > 0 && n <= longestKept {
		spot := &r.kept[(uint(text[0])*31+uint(text[n-1])*7+uint(text[n/2])+uint(n))%uint(len(r.kept))]
		if *spot != string(text) {
			*spot = string(text)
		}
		return *spot
	}
	return string(text)
}

func (r *reader) scalar(f *Field, s *scalar, v reflect.Value) error {
	if k := r.json.PeekKind(); k == '{' || k == '[' || k == 'n' && !r.stored {
		return r.wrong(s.wanted)
	}
	t, err := r.token()
	if err != nil {
		return err
	}
	to := v.Addr().Interface()
	switch day, date := to.(*quoin.Date); {
	case t.mended:
		r.badText(r.path(), string(t.text))
		return nil
	case date && r.Records && t.kind == '"':
		*day, err = quoin.ParseDate(string(t.text))
	case s.text && t.kind == '"':
		*to.(*string) = r.keep(t.text)
	case r.stored:
		err = s.stored(t, to)
	default:
		err = s.read(t, to)
	}
	if err == errType {
		err = quoin.Problem{Code: quoin.WrongType, Found: t.String(), Wanted: s.wanted}
	}
	if err != nil {
		r.AddAll(r.path(), err)
		return nil
	}
	if !r.stored {
		r.check(f, v, to)
	}
	return nil
}

// check looks at a scalar that was read.
func (r *reader) check(f *Field, v reflect.Value, to any) {
	switch {
	case v.Kind() != reflect.String:
		if !f.fits(to) {
			r.Value(r.path(), f, to)
		}
	case v.Len() == 0 && f.Need:
		r.add(quoin.Problem{Code: quoin.MissingField, Found: `""`, Wanted: "the field " + f.Name})
	case !r.readable(v.String()):
		r.Text(r.path(), v.String())
	}
}

// itself has a type read its own JSON.
func (r *reader) itself(f *Field, v reflect.Value) error {
	to := v.Addr().Interface()
	if r.inside != nil {
		if in := r.inside(to); in != nil {
			told := reflect.ValueOf(in).Elem()
			return r.value(f, shapeOf(told.Type()), told)
		}
	}
	text, err := r.json.ReadValue()
	if err != nil {
		return err
	}
	err = to.(json.Unmarshaler).UnmarshalJSON(text)
	switch err.(type) {
	case nil, quoin.Problem, quoin.Problems:
		r.AddAll(r.path(), err)
	default:
		r.add(quoin.Problem{Code: quoin.WrongType, Found: prose.Clean(err.Error()), Wanted: "a value as it was written"})
	}
	return nil
}
