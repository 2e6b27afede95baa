package form

import (
	"encoding"
	"encoding/json"
	"math/bits"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Field is what the tags of a struct field say: its name in the document,
// whether it must be given, what may be given in its place, the range of its
// values, their dimension, and how many there may be.
type Field struct {
	Name    string
	Index   int
	Need    bool
	Was     string   // what it was called before
	Instead []string // fields one of which may stand in its place
	Dim     string
	Most    int
	Some    bool // a list that is given has an entry at least
	// Dear is set on a range, the field after the value that it belongs to: the
	// end of it, low or high, at which goods cost more.
	Dear string
	// Ranged and Rated say that a range, or a rate, may stand in it at any depth.
	Ranged, Rated bool
	// Go is the field as it is declared in the type Owner.
	Go    reflect.StructField
	Owner reflect.Type

	span   span
	in     *Struct // what it is, or is a list of, where that is an object
	leaf   bool    // what it is, or is a list of, is one value
	word   bool    // and a text that its type reads
	omit   omit    // when it is not written
	head   string  // what stands before it where it is written: ,"name":
	within []int   // where it stands, of a field of an embedded struct
	shape  *shape  // how it stands in JSON
	rivals fields  // itself and those in its place
}

// value is the field in a struct.
func (f *Field) value(v reflect.Value) reflect.Value {
	if f.within != nil {
		return v.FieldByIndex(f.within)
	}
	return v.Field(f.Index)
}

// Struct is what the tags of a struct say.
type Struct struct {
	Fields []Field
	// Kind is the index of the field that says more, by its type, about the object, and
	// KindName what that is called in the document; −1 and empty for most.
	Kind     int
	KindName string

	need   fields // those that must be given, and have none in their place
	rivals []int  // those that have others in their place
}

// fields is some of the fields of a struct, by their places.
type fields [2]uint64

func (f *fields) add(i int)      { f[i/64] |= 1 << (i % 64) }
func (f *fields) has(i int) bool { return f[i/64]&(1<<(i%64)) != 0 }

// hold reports whether all of g are among them.
func (f *fields) hold(g fields) bool { return g[0]&^f[0] == 0 && g[1]&^f[1] == 0 }

// count is how many of g are among them.
func (f *fields) count(g fields) int {
	return bits.OnesCount64(f[0]&g[0]) + bits.OnesCount64(f[1]&g[1])
}

// complete reports whether fields that were given are all that must be, and none of them
// stands in the place of another that was given.
func (s *Struct) complete(given *fields) bool {
	if !given.hold(s.need) {
		return false
	}
	for _, i := range s.rivals {
		f := &s.Fields[i]
		if n := given.count(f.rivals); n > 1 || n == 0 && f.Need {
			return false
		}
	}
	return true
}

// find returns the place of the field with a name, which most often is the one at next or
// soon after it; −1 where there is none.
func (s *Struct) find(name []byte, next int) int {
	for i := next; i < len(s.Fields); i++ {
		if s.Fields[i].Name == string(name) {
			return i
		}
	}
	for i := range min(next, len(s.Fields)) {
		if s.Fields[i].Name == string(name) {
			return i
		}
	}
	return -1
}

// known is what the tags of structs say, by their types: they are read once.
var known sync.Map

// Of returns what the tags of a struct type say.
func Of(t reflect.Type) *Struct {
	if s, ok := known.Load(t); ok {
		return s.(*Struct)
	}
	c := newCompiler()
	s := c.object(t)
	c.keep()
	return s
}

// Names returns the names of fields.
func Names(fields []Field) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	return names
}

// compiler reads the tags of types, and keeps them when all are read.
type compiler struct {
	structs map[reflect.Type]*Struct
	shapes  map[reflect.Type]*shape
}

func newCompiler() *compiler {
	return &compiler{make(map[reflect.Type]*Struct), make(map[reflect.Type]*shape)}
}

func (c *compiler) keep() {
	for t, s := range c.structs {
		known.LoadOrStore(t, s)
	}
	for t, s := range c.shapes {
		shapes.LoadOrStore(t, s)
	}
}

// object is what a struct type, or the one that a list or a pointer is of, says; nil where
// that is none.
func (c *compiler) object(t reflect.Type) *Struct {
	t = element(t)
	if s, ok := known.Load(t); ok {
		return s.(*Struct)
	}
	if s := c.structs[t]; s != nil || t.Kind() != reflect.Struct {
		return s
	}
	s := &Struct{Kind: -1}
	c.structs[t] = s // before what it holds, should that be itself
	c.add(s, t, nil)
	s.index()
	return s
}

// add adds the fields of a type, which is the struct's own or embedded in it.
func (c *compiler) add(s *Struct, t reflect.Type, within []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		if name := f.Tag.Get("kind"); name != "" {
			s.Kind, s.KindName = i, name
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous && name == "" && f.Type.Kind() == reflect.Struct {
			c.add(s, f.Type, append(slices.Clone(within), i))
			continue
		}
		if name == "" || name == "-" || !f.IsExported() {
			continue
		}
		of := c.field(f, name)
		of.Go, of.Owner = f, t
		of.Index, of.omit, of.head = i, omitOf(f.Type, options), `,"`+name+`":`
		if within != nil {
			of.within = append(slices.Clone(within), i)
		}
		s.Fields = append(s.Fields, of)
	}
}

func (c *compiler) field(f reflect.StructField, name string) Field {
	most, _ := strconv.Atoi(f.Tag.Get("most"))
	of := Field{
		Name: name, Was: f.Tag.Get("was"), Need: f.Tag.Get("need") != "", Instead: strings.Fields(f.Tag.Get("or")), span: parseSpan(f.Tag.Get("range")),
		Dim: f.Tag.Get("dim"), Most: most, Some: f.Tag.Get("least") != "", Dear: f.Tag.Get("dear"), leaf: IsLeaf(element(f.Type)), word: isWord(element(f.Type)),
	}
	of.in, of.shape = c.object(f.Type), c.shape(f.Type)
	of.Ranged = of.Dear != "" || of.in.holds(func(f Field) bool { return f.Ranged })
	of.Rated = isRate(reflect.New(f.Type).Interface()) || of.in.holds(func(f Field) bool { return f.Rated })
	return of
}

// holds reports whether some field, at any depth, is as asked; of an object that has a kind
// it says so whatever that is.
func (s *Struct) holds(asked func(Field) bool) bool {
	return s != nil && (s.Kind >= 0 || slices.ContainsFunc(s.Fields, asked))
}

// index notes which fields must be given, and which stand in the place of others.
func (s *Struct) index() {
	for i := range s.Fields {
		f := &s.Fields[i]
		if len(f.Instead) == 0 {
			if f.Need {
				s.need.add(i)
			}
			continue
		}
		s.rivals = append(s.rivals, i)
		f.rivals = fields{}
		f.rivals.add(i)
		for _, name := range f.Instead {
			if j := s.find([]byte(name), 0); j >= 0 {
				f.rivals.add(j)
			}
		}
	}
}

// element is what a type is of, where it is a list, an object of lists or a pointer.
func element(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	return t
}

// IsLeaf reports whether values of a type are one text, number or truth in JSON.
func IsLeaf(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.String, reflect.Int, reflect.Int64, reflect.Bool:
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
