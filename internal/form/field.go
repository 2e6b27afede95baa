package form

import (
	"encoding"
	"encoding/json"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/quoin"
)

// Field is what the tags of a struct field say: its name in the document,
// whether it must be given, what may be given in its place, the range of its
// values, their dimension, and how many there may be.
type Field struct {
	Name    string
	Index   int
	Need    bool
	Instead []string // fields one of which may stand in its place
	Dim     string
	Most    int
	// Dear is set on a range, the field after the value that it belongs to: the
	// end of it, low or high, at which goods cost more.
	Dear string
	// Ranged and Rated say that a range, or a rate, may stand in it at any depth.
	Ranged, Rated bool

	span span
	in   *Struct // what it is, or is a list of, where that is an object
	leaf bool    // what it is, or is a list of, is one value
	word bool    // and a text that its type reads
}

// Struct is what the tags of a struct say.
type Struct struct {
	Fields []Field
	// Kind is the index of the field that says more, by its type, about the object, and
	// KindName what that is called in the document; −1 and empty for most.
	Kind     int
	KindName string
}

// known is what the tags of structs say, by their types: they are read once.
var known sync.Map

// Of returns what the tags of a struct type say.
func Of(t reflect.Type) *Struct {
	if s, ok := known.Load(t); ok {
		return s.(*Struct)
	}
	table := make(map[reflect.Type]*Struct)
	add(table, t)
	for of, s := range table {
		known.LoadOrStore(of, s)
	}
	return table[t]
}

// Fields returns the fields that the tags of a struct type speak of.
func Fields(t reflect.Type) []Field { return Of(t).Fields }

// Names returns the names of fields.
func Names(fields []Field) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	return names
}

// add adds a struct, or those that a list, an object or a pointer is of, and all that
// they hold.
func add(table map[reflect.Type]*Struct, of reflect.Type) {
	of = element(of)
	if table[of] != nil || of.Kind() != reflect.Struct {
		return
	}
	s := structOf(of)
	table[of] = s // before what it holds, should that be itself
	for i, f := range s.Fields {
		in := of.Field(f.Index).Type
		add(table, in)
		s.Fields[i].in = table[element(in)]
		s.Fields[i].Ranged = f.Dear != "" || holds(table, in, func(f Field) bool { return f.Ranged })
		s.Fields[i].Rated = isRate(in) || holds(table, in, func(f Field) bool { return f.Rated })
	}
}

// holds reports whether some field of a type, at any depth, is as asked; of an object that
// has a kind it says so whatever that is.
func holds(table map[reflect.Type]*Struct, of reflect.Type, asked func(Field) bool) bool {
	s := table[element(of)]
	return s != nil && (s.Kind >= 0 || slices.ContainsFunc(s.Fields, asked))
}

// element is what a type is of, where it is a list, an object of lists or a pointer.
func element(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	return t
}

func isRate(t reflect.Type) bool {
	return t == reflect.TypeFor[quoin.Rate]() || t == reflect.TypeFor[quoin.Optional[quoin.Rate]]()
}

func structOf(t reflect.Type) *Struct {
	out := &Struct{Kind: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		if name := f.Tag.Get("kind"); name != "" {
			out.Kind, out.KindName = i, name
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		most, _ := strconv.Atoi(f.Tag.Get("most"))
		out.Fields = append(out.Fields, Field{
			Name: name, Index: i, Need: f.Tag.Get("need") != "", Instead: strings.Fields(f.Tag.Get("or")), span: parseSpan(f.Tag.Get("range")),
			Dim: f.Tag.Get("dim"), Most: most, Dear: f.Tag.Get("dear"), leaf: IsLeaf(element(f.Type)), word: isWord(element(f.Type)),
		})
	}
	return out
}

// IsLeaf reports whether values of a type are one text, number or truth in JSON.
func IsLeaf(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.String, reflect.Int64, reflect.Bool:
		return true
	case reflect.Slice, reflect.Map:
		return false
	case reflect.Struct:
		if hasKind(t) {
			return false // though it reads itself
		}
	}
	to := reflect.PointerTo(t)
	return to.Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) || to.Implements(reflect.TypeFor[json.Unmarshaler]())
}

// hasKind reports whether the type of a field says more about an object.
func hasKind(t reflect.Type) bool {
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("kind") != "" {
			return true
		}
	}
	return false
}

// isWord reports whether a type is a text that it reads itself.
func isWord(t reflect.Type) bool {
	return t.Kind() == reflect.String && reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]())
}
