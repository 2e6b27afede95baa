package pricelist

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// answerReader reads JSON into the types that stand in an answer. What it builds is no more
// than some dozen times as long as its text.
type answerReader struct {
	json  *json.Decoder
	known map[reflect.Type]answerFields
	deep  int
	steps int64 // where the list of steps begins in which something is wrong
}

// mostDeep bounds how far values are in one another: a refusal has refusals in it, 32 times.
const mostDeep = 100

// answerFields are where the fields of a struct are, by their names, and which are always
// written.
type answerFields struct {
	at   map[string][]int
	need []string
}

// readAnswer reads the whole of a text into what to points to. The error is a Problem with
// a path, a line and a column.
func readAnswer(data []byte, to any) error {
	r := &answerReader{json: json.NewDecoder(bytes.NewReader(data)), known: make(map[reflect.Type]answerFields)}
	r.json.UseNumber()
	err := r.value(reflect.ValueOf(to).Elem(), nil)
	if _, end := r.json.Token(); err == nil && end != io.EOF {
		err = r.fault(nil, quoin.BadJSON, "something behind the answer", "nothing")
	}
	if p, ok := err.(quoin.Problem); ok {
		before := data[:min(cmp.Or(r.steps, r.json.InputOffset()), int64(len(data)))]
		p.Line, p.Column = 1+bytes.Count(before, []byte{'\n'}), len(before)-bytes.LastIndexByte(before, '\n')
		return p
	}
	return err
}

func (r *answerReader) fault(at *path, code quoin.Code, found, wanted string) error {
	return quoin.Problem{Code: code, Severity: quoin.Fault, Path: at.String(), Found: found, Wanted: wanted}
}

// value reads the next value into v.
func (r *answerReader) value(v reflect.Value, at *path) error {
	if j, ok := v.Addr().Interface().(**quoin.Journal); ok {
		*j = new(quoin.Journal)
		return r.journal(*j, at)
	}
	t, err := r.token(at)
	if err != nil {
		return err
	}
	return r.read(t, v, at)
}

func (r *answerReader) token(at *path) (json.Token, error) {
	t, err := r.json.Token()
	if err != nil {
		return nil, r.fault(at, quoin.BadJSON, err.Error(), "an answer as it was written")
	}
	return t, nil
}

// read reads the value that begins with a token.
func (r *answerReader) read(t json.Token, v reflect.Value, at *path) error {
	if r.deep++; r.deep > mostDeep {
		return r.fault(at, quoin.BadJSON, "a value inside of too many others", "at most "+strconv.Itoa(mostDeep))
	}
	defer func() { r.deep-- }()
	if known, err := r.named(t, v, at); known {
		return err
	}
	switch kind := v.Kind(); {
	case t == nil && (kind == reflect.Slice || kind == reflect.Pointer):
		return nil
	case kind == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return r.read(t, v.Elem(), at)
	case kind == reflect.Struct && t == json.Delim('{'):
		return r.object(v, at)
	case kind == reflect.Slice && t == json.Delim('['):
		return r.list(v, at)
	case kind == reflect.Array && t == json.Delim('['):
		return r.array(v, at)
	}
	return r.plain(t, v, at)
}

// named reads types that are more than their fields say; false for all others.
func (r *answerReader) named(t json.Token, v reflect.Value, at *path) (bool, error) {
	inside := func(told any) (bool, error) { return true, r.read(t, reflect.ValueOf(told).Elem(), at) }
	switch to := v.Addr().Interface().(type) {
	case *Beside:
		return inside(&to.told)
	case *Public:
		return inside(&to.told)
	case *Reasons:
		return inside(&to.told)
	case *Allowed:
		return inside(&to.listed)
	case *quoin.Optional[quoin.Amount]:
		return true, optional(r, t, to, at)
	case *quoin.Optional[quoin.Rate]:
		return true, optional(r, t, to, at)
	case *quoin.Optional[quoin.Factor]:
		return true, optional(r, t, to, at)
	case *quoin.Optional[int64]:
		return true, optional(r, t, to, at)
	case *quoin.Optional[fair.Volume]:
		return true, optional(r, t, to, at)
	}
	return r.word(t, v.Addr().Interface(), at)
}

func optional[T any](r *answerReader, t json.Token, to *quoin.Optional[T], at *path) error {
	var v T
	err := r.read(t, reflect.ValueOf(&v).Elem(), at)
	*to = quoin.Some(v)
	return err
}

// plain reads text, whole numbers, true and false.
func (r *answerReader) plain(t json.Token, v reflect.Value, at *path) error {
	switch t := t.(type) {
	case string:
		if v.Kind() == reflect.String {
			v.SetString(t)
			return nil
		}
	case bool:
		if v.Kind() == reflect.Bool {
			v.SetBool(t)
			return nil
		}
	case json.Number:
		if v.CanInt() {
			n, err := strconv.ParseInt(string(t), 10, v.Type().Bits())
			if err == nil {
				v.SetInt(n)
				return nil
			}
		}
	}
	return r.fault(at, quoin.WrongType, described(t), "a "+wantedKind(v))
}

func wantedKind(v reflect.Value) string {
	switch v.Kind() {
	case reflect.Struct:
		return "JSON object"
	case reflect.Slice, reflect.Array:
		return "list"
	case reflect.String:
		return "text"
	case reflect.Bool:
		return "true or a false"
	}
	return "whole number"
}

// list reads entries up to the end of a list.
func (r *answerReader) list(v reflect.Value, at *path) error {
	v.Set(reflect.MakeSlice(v.Type(), 0, 0))
	for i := 0; r.json.More(); i++ {
		entry := reflect.New(v.Type().Elem()).Elem()
		if err := r.value(entry, at.At(i)); err != nil {
			return err
		}
		v.Set(reflect.Append(v, entry))
	}
	_, err := r.token(at)
	return err
}

// array reads a list of just so many entries.
func (r *answerReader) array(v reflect.Value, at *path) error {
	for i := range v.Len() {
		if !r.json.More() {
			return r.fault(at, quoin.WrongType, "a list of "+strconv.Itoa(i), "a list of "+strconv.Itoa(v.Len()))
		}
		if err := r.value(v.Index(i), at.At(i)); err != nil {
			return err
		}
	}
	if r.json.More() {
		return r.fault(at, quoin.WrongType, "a longer list", "a list of "+strconv.Itoa(v.Len()))
	}
	_, err := r.token(at)
	return err
}

// object reads fields up to the end of an object. Those that it does not know it passes
// over: a later version may have written them.
func (r *answerReader) object(v reflect.Value, at *path) error {
	fields := r.fields(v.Type())
	seen := make([]string, 0, len(fields.at))
	for r.json.More() {
		t, err := r.token(at)
		if err != nil {
			return err
		}
		name, _ := t.(string)
		index, known := fields.at[name]
		here := at.Field(name)
		switch {
		case !known:
			err = r.pass(at)
		case slices.Contains(seen, name):
			err = r.fault(here, quoin.DuplicateField, prose.Quoted(name)+" again", "each field once")
		default:
			err = r.value(v.FieldByIndex(index), here)
		}
		if err != nil {
			return err
		}
		if known {
			seen = append(seen, name)
		}
	}
	for _, name := range fields.need {
		if !slices.Contains(seen, name) {
			return r.fault(at.Field(name), quoin.MissingField, "nothing", "the field "+name)
		}
	}
	_, err := r.token(at)
	return err
}

// pass passes over a value.
func (r *answerReader) pass(at *path) error {
	var nobody json.RawMessage
	if err := r.json.Decode(&nobody); err != nil {
		return r.fault(at, quoin.BadJSON, err.Error(), "an answer as it was written")
	}
	return nil
}

func (r *answerReader) journal(j *quoin.Journal, at *path) error {
	var text json.RawMessage
	if err := r.json.Decode(&text); err != nil {
		return r.fault(at, quoin.BadJSON, err.Error(), "an answer as it was written")
	}
	err := j.UnmarshalJSON(text)
	if err != nil {
		r.steps = r.json.InputOffset() - int64(len(text))
	}
	return locatedAt(at, err)
}

// fields are those of a struct, those of structs embedded in it among them.
func (r *answerReader) fields(t reflect.Type) answerFields {
	if known, ok := r.known[t]; ok {
		return known
	}
	out := answerFields{at: make(map[string][]int)}
	for _, f := range reflect.VisibleFields(t) {
		name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || !f.IsExported() {
			continue
		}
		out.at[name] = f.Index
		if rest == "" {
			out.need = append(out.need, name)
		}
	}
	r.known[t] = out
	return out
}

// locatedAt returns a problem as found at a path.
func locatedAt(at *path, err error) error {
	p, ok := err.(quoin.Problem)
	if !ok {
		return err
	}
	p.Path = form.Beneath(at.String(), p.Path)
	return p
}
