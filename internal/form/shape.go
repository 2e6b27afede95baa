package form

import (
	"reflect"
	"slices"
	"sync"

	"example.com/quoin"
)

// shape is how the values of a type stand in JSON.
type shape struct {
	as     as
	of     *shape  // of a list, an object of lists, a pointer
	in     *Struct // of an object
	scalar scalar
	union  *union
	write  write     // where the type has JSON of its own
	spare  sync.Pool // of lists to read into
}

type as uint8

const (
	asScalar  as = iota // one text, number or truth
	asObject            // an object with the fields of a struct
	asUnion             // an object, one field of which says what others it has
	asList              // a list
	asArray             // a list of just so many
	asLists             // an object of lists by name
	asPointer           // what it points to
	asItself            // whatever the type reads
)

// shapes are those of types, which are worked out once.
var shapes sync.Map

func shapeOf(t reflect.Type) *shape {
	if s, ok := shapes.Load(t); ok {
		return s.(*shape)
	}
	c := newCompiler()
	s := c.shape(t)
	c.keep()
	return s
}

func (c *compiler) shape(t reflect.Type) *shape {
	if s, ok := shapes.Load(t); ok {
		return s.(*shape)
	}
	if s := c.shapes[t]; s != nil {
		return s
	}
	s := new(shape)
	c.shapes[t] = s // before what it holds, should that be itself
	s.write = writeOf(t)
	switch k := t.Kind(); {
	case k == reflect.Pointer:
		s.as, s.of = asPointer, c.shape(t.Elem())
	case k == reflect.Struct && hasKind(t):
		s.as, s.in = asUnion, c.object(t)
		s.union = c.union(t, s.in)
	case IsLeaf(t):
		s.as, s.scalar = asScalar, scalarOf(t)
		if s.scalar.read == nil {
			s.as = asItself
		}
	case k == reflect.Struct:
		s.as, s.in = asObject, c.object(t)
	case k == reflect.Slice:
		s.as, s.of = asList, c.shape(t.Elem())
	case k == reflect.Array:
		s.as, s.of = asArray, c.shape(t.Elem())
	case k == reflect.Map:
		s.as, s.of = asLists, c.shape(t.Elem())
	}
	return s
}

// union is what an object may be whose kind is said by a word.
type union struct {
	kindsOf
	word  string    // the name of the field that says it
	kinds []variant // by name
	none  variant   // where no kind is known: what all have
}

// variant is an object of one kind: the fields that all have, and behind them its own.
type variant struct {
	of     reflect.Type
	object reflect.Type // whose fields all of a union have
	in     *Struct
	common int      // how many fields all have
	aside  []string // fields that say nothing more
}

// kinds are the types that the field of a struct, by its own type, may be of.
var kinds sync.Map

type kindsOf struct {
	code  quoin.Code        // of a word that is none of them
	other quoin.Code        // of what is no word
	was   map[string]string // what words were before, and are now
	names []string
	types []reflect.Type
}

// Kinds says what values a field may hold that has the tag kind and is of an interface
// type, each by the word that name gives it; any other word, and what is no word, is a
// problem of a code. Of words that were others before, was says what they are now. Packages say
// so when they are initialized.
func Kinds[K any](code, other quoin.Code, was map[string]string, name func(K) string, all ...K) bool {
	of := kindsOf{code: code, other: other, was: was}
	for _, k := range all {
		of.names, of.types = append(of.names, name(k)), append(of.types, reflect.TypeOf(k))
	}
	kinds.Store(reflect.TypeFor[K](), of)
	return true
}

// KindsOf returns what a field of an interface type may hold, by Kinds: the words and their
// types, in one order.
func KindsOf(t reflect.Type) (words []string, types []reflect.Type) {
	list, _ := kinds.Load(t)
	known, _ := list.(kindsOf)
	return slices.Clone(known.names), slices.Clone(known.types)
}

func (c *compiler) union(t reflect.Type, in *Struct) *union {
	list, _ := kinds.Load(t.Field(in.Kind).Type)
	known, _ := list.(kindsOf)
	u := &union{kindsOf: known, word: in.KindName, none: variant{object: t, in: in, common: len(in.Fields), aside: []string{in.KindName}}}
	for _, k := range known.types {
		own := c.object(k)
		both := &Struct{Fields: slices.Concat(in.Fields, own.Fields), Kind: -1}
		both.index()
		u.kinds = append(u.kinds, variant{of: k, object: t, in: both, common: len(in.Fields), aside: []string{in.KindName}})
		u.none.aside = append(u.none.aside, Names(own.Fields)...)
	}
	return u
}

// called is the kind with a name; false where there is none.
func (u *union) called(name string) (*variant, bool) {
	i := slices.Index(u.names, name)
	if i < 0 {
		return &u.none, false
	}
	return &u.kinds[i], true
}
