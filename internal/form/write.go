package form

import (
	"bytes"
	"encoding"
	"encoding/json"
	"reflect"
	"strconv"

	"example.com/quoin/internal/prose"
)

// Append writes what v points to as JSON behind b: the bytes that encoding/json writes where
// it leaves <, > and & to whoever writes HTML. It goes by the tags of structs, of which fields
// without a name are not written, and has types with an AppendJSON or an AppendText write
// themselves. Inside, if any, returns a pointer to what stands in JSON for a value that its type
// would write itself, as of ReadStored.
func Append(b []byte, v any, inside func(any) any) ([]byte, error) {
	w := writer{inside}
	at := reflect.ValueOf(v).Elem()
	return w.value(b, shapeOf(at.Type()), at)
}

// appender writes its own JSON behind b.
type appender interface {
	AppendJSON(b []byte) ([]byte, error)
}

// write writes a value that at points to, of a type that has JSON of its own, behind b.
type write func(b []byte, at any) ([]byte, error)

// writeOf is how values of a type are written that are neither plain ones of Go nor made of
// others; nil of all that are.
func writeOf(t reflect.Type) write {
	to := reflect.PointerTo(t)
	switch {
	case t.Kind() == reflect.Pointer:
		return nil
	case to.Implements(reflect.TypeFor[appender]()):
		return func(b []byte, at any) ([]byte, error) { return at.(appender).AppendJSON(b) }
	case to.Implements(reflect.TypeFor[json.Marshaler]()):
		return marshal
	case to.Implements(reflect.TypeFor[encoding.TextAppender]()):
		return func(b []byte, at any) ([]byte, error) {
			from := len(b) + 1
			b, err := at.(encoding.TextAppender).AppendText(append(b, '"'))
			return prose.CloseJSON(b, from), err
		}
	case to.Implements(reflect.TypeFor[encoding.TextMarshaler]()):
		return marshal
	}
	switch t.Kind() {
	case reflect.Struct, reflect.Slice, reflect.Array, reflect.String, reflect.Bool, reflect.Int, reflect.Int64:
		return nil
	case reflect.Map:
		if t.Key() == reflect.TypeFor[string]() {
			return nil
		}
	}
	return marshal
}

// marshal leaves to encoding/json what documents and answers hardly have.
func marshal(b []byte, at any) ([]byte, error) {
	out := bytes.NewBuffer(b)
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	err := e.Encode(at)
	return bytes.TrimSuffix(out.Bytes(), []byte{'\n'}), err
}

// omit says when a field is not written.
type omit uint8

const (
	never        omit = iota
	empty             // omitempty: without entries, false, 0, or nil
	zero              // omitzero: the zero value
	zeroByItself      // omitzero, of a type with a method IsZero
	zeroAt            // omitzero, of a pointer to such a type
)

func omitOf(t reflect.Type, options string) omit {
	switch {
	case options == "omitempty":
		return empty
	case options != "omitzero":
		return never
	case t.Kind() == reflect.Pointer && t.Implements(reflect.TypeFor[zeroer]()):
		return zeroAt
	case reflect.PointerTo(t).Implements(reflect.TypeFor[zeroer]()):
		return zeroByItself
	}
	return zero
}

// zeroer says itself whether it is its zero value.
type zeroer interface{ IsZero() bool }

// of reports whether a value is one that is not written.
func (o omit) of(v reflect.Value) bool {
	switch o {
	case empty:
		switch v.Kind() {
		case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
			return v.Len() == 0
		case reflect.Struct:
			return false
		}
		return v.IsZero()
	case zeroByItself:
		return v.Addr().Interface().(zeroer).IsZero()
	case zeroAt:
		return v.IsNil() || v.Interface().(zeroer).IsZero()
	case zero:
		return v.IsZero()
	}
	return false
}

// writer writes values by the tags of their types.
type writer struct{ inside func(any) any }

func (w *writer) value(b []byte, s *shape, v reflect.Value) ([]byte, error) {
	if s.write != nil {
		return w.itself(b, s, v)
	}
	switch v.Kind() {
	case reflect.String:
		return prose.AppendJSON(b, v.String()), nil
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool()), nil
	case reflect.Int, reflect.Int64:
		return strconv.AppendInt(b, v.Int(), 10), nil
	case reflect.Struct:
		return w.object(b, s.in, v)
	case reflect.Array:
		return w.list(b, s.of, v)
	}
	if v.IsNil() {
		return append(b, "null"...), nil
	}
	switch v.Kind() {
	case reflect.Pointer:
		return w.value(b, s.of, v.Elem())
	case reflect.Map:
		return w.lists(b, s.of, v)
	}
	return w.list(b, s.of, v)
}

// itself has a type write its own JSON, unless something else stands there for it.
func (w *writer) itself(b []byte, s *shape, v reflect.Value) ([]byte, error) {
	at := v.Addr().Interface()
	if w.inside != nil {
		if in := w.inside(at); in != nil {
			told := reflect.ValueOf(in).Elem()
			return w.value(b, shapeOf(told.Type()), told)
		}
	}
	return s.write(b, at)
}

func (w *writer) object(b []byte, s *Struct, v reflect.Value) (_ []byte, err error) {
	open := len(b)
	for i := range s.Fields {
		f := &s.Fields[i]
		in := f.value(v)
		if f.omit.of(in) {
			continue
		}
		if b, err = w.value(append(b, f.head...), f.shape, in); err != nil {
			return b, err
		}
	}
	if len(b) == open {
		return append(b, "{}"...), nil
	}
	b[open] = '{' // for the comma before the first
	return append(b, '}'), nil
}

func (w *writer) list(b []byte, of *shape, v reflect.Value) (_ []byte, err error) {
	b = append(b, '[')
	for i := range v.Len() {
		if i > 0 {
			b = append(b, ',')
		}
		if b, err = w.value(b, of, v.Index(i)); err != nil {
			return b, err
		}
	}
	return append(b, ']'), nil
}

// lists writes an object of lists, by their names in order.
func (w *writer) lists(b []byte, of *shape, v reflect.Value) (_ []byte, err error) {
	b = append(b, '{')
	for i, name := range SortedNames(v) {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(prose.AppendJSON(b, name), ':')
		if b, err = w.value(b, of, addressable(v.MapIndex(reflect.ValueOf(name)))); err != nil {
			return b, err
		}
	}
	return append(b, '}'), nil
}
