package form

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// longestName is of a name that a path writes, in bytes.
const longestName = 64

// Path is where something stands in a document, from the inside out; nil is all of it.
type Path struct {
	up    *Path
	name  string
	index int // in a list, where name is empty
}

// Field returns the path of a field, or of a name, of what p stands for.
func (p *Path) Field(name string) *Path { return &Path{up: p, name: name} }

// At returns the path of entry i of the list that p stands for.
func (p *Path) At(i int) *Path { return &Path{up: p, index: i} }

// Range returns where the range of the value at p stands.
func (p *Path) Range() *Path { return &Path{up: p.up, name: p.name + "_range"} }

// Up returns the path of what p stands in.
func (p *Path) Up() *Path { return p.up }

// Index returns the place of p in the list that it stands in.
func (p *Path) Index() int { return p.index }

// Begins returns the first two steps of p: a field, and an entry of it; −1 where none follows.
func (p *Path) Begins() (field string, entry int) {
	entry = -1
	for ; p != nil; p = p.up {
		if p.up != nil && p.up.up == nil && p.name == "" {
			entry = p.index
		}
		field = p.name
	}
	return field, entry
}

// In returns what stands at p in a value, which has something there.
func (p *Path) In(v reflect.Value) reflect.Value {
	if p == nil {
		return v
	}
	in := p.up.In(v)
	for in.Kind() == reflect.Pointer {
		in = in.Elem()
	}
	switch in.Kind() {
	case reflect.Slice:
		return in.Index(p.index)
	case reflect.Map:
		return in.MapIndex(reflect.ValueOf(p.name))
	}
	fields := Of(in.Type()).Fields
	return fields[slices.IndexFunc(fields, func(f Field) bool { return f.Name == p.name })].value(in)
}

// String writes the path as products[2].bill[0].quantity. A name that is not
// a plain word is quoted in brackets.
func (p *Path) String() string {
	if p == nil {
		return ""
	}
	before := p.up.String()
	switch {
	case p.name == "":
		return before + "[" + strconv.Itoa(p.index) + "]"
	case len(p.name) > longestName:
		return before + "[" + strconv.Quote(strings.ToValidUTF8(p.name[:longestName], "")) + "…]"
	case !plainWord(p.name):
		return before + "[" + strconv.Quote(p.name) + "]"
	case before == "":
		return p.name
	}
	return before + "." + p.name
}

func plainWord(s string) bool {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '_' && r != '-' {
			return false
		}
	}
	return s != ""
}

// Along goes from a value along a path as it is written, as far as there is something, and visits
// what stands at each part of it.
func Along(v reflect.Value, path string, visit func(at string, v reflect.Value)) {
	for rest := path; rest != ""; {
		for v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		if rest[0] == '.' {
			rest = rest[1:]
		}
		n := strings.IndexAny(rest[1:], ".[") + 1
		if n == 0 {
			n = len(rest)
		}
		if v = part(v, rest[:n]); !v.IsValid() {
			return
		}
		rest = rest[n:]
		visit(path[:len(path)-len(rest)], v)
	}
}

// part is what stands in a value at a part of a path: a field, an entry or an index; no value
// where there is none.
func part(v reflect.Value, name string) reflect.Value {
	var none reflect.Value
	switch v.Kind() {
	case reflect.Slice:
		i, err := strconv.Atoi(strings.Trim(name, "[]"))
		if err != nil || i < 0 || i >= v.Len() {
			return none
		}
		return v.Index(i)
	case reflect.Map:
		return v.MapIndex(reflect.ValueOf(name))
	case reflect.Struct:
		fields := Of(v.Type()).Fields
		if i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == name }); i >= 0 {
			return fields[i].value(v)
		}
	}
	return none
}

// Beneath is a path, as text, under another.
func Beneath(at, rest string) string {
	if at == "" || rest == "" || rest[0] == '[' {
		return at + rest
	}
	return at + "." + rest
}

// route is where something stands under a root, step by step. Its path is made where it is asked
// for, which it mostly is not.
type route struct {
	root *Path
	at   []place
}

// place is a step of a path: a field, or an entry of a list where the name is empty.
type place struct {
	name  string
	index int
}

func (s *route) enter(name string, index int) { s.at = append(s.at, place{name, index}) }
func (s *route) leave()                       { s.at = s.at[:len(s.at)-1] }

func (s *route) path() *Path {
	at := s.root
	for _, p := range s.at {
		if p.name == "" {
			at = at.At(p.index)
		} else {
			at = at.Field(p.name)
		}
	}
	return at
}
