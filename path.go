package quoin

import (
	"strconv"
	"strings"
)

// Path is where something stands in a document: channels[0].fees[1].rate. It
// is a value, put together without building text; String writes it.
type Path struct {
	list string
	i    int32 // counted from 1, 0 where there is none; so are j and k
	sub  string
	name string
	j    int32
	in   string // objects in what these stand for, with points between
	leaf string
	k    int32
}

// InList returns the path of entry i of a list of the document.
func InList(list string, i int) Path { return Path{list: list, i: int32(i) + 1} }

// InField returns the path of a field of the document itself.
func InField(name string) Path { return Path{leaf: name} }

// Sub returns the path of entry i of a list in what p stands for.
func (p Path) Sub(list string, i int) Path {
	p.sub, p.name, p.j, p.in, p.leaf, p.k = list, "", int32(i)+1, "", "", 0
	return p
}

// Inside returns the path of an object in what p stands for; its fields are
// reached by Field, and objects in it by Inside again.
func (p Path) Inside(object string) Path {
	if p.in != "" {
		object = p.in + "." + object
	}
	p.in, p.leaf, p.k = object, "", 0
	return p
}

// Named returns the path of entry i of a list that stands under a name of its
// own, such as a packing list.
func (p Path) Named(field, name string, i int) Path {
	p = p.Sub(field, i)
	p.name = name
	return p
}

// Field returns the path of a field of what p stands for, in place of a field
// that p named before.
func (p Path) Field(name string) Path {
	p.leaf, p.k = name, 0
	return p
}

// FieldAt returns the path of entry i of a field that is a list.
func (p Path) FieldAt(name string, i int) Path {
	p.leaf, p.k = name, int32(i)+1
	return p
}

// Equal reports whether p and q are the same place: whether they are written alike.
func (p Path) Equal(q Path) bool { return p == q || p.String() == q.String() }

// IsZero reports whether p stands for nothing in particular.
func (p Path) IsZero() bool { return p == Path{} }

// Within reports whether p stands for what q does, or for something in it.
func (p Path) Within(q Path) bool {
	s, prefix := p.String(), q.String()
	rest, ok := strings.CutPrefix(s, prefix)
	return ok && (rest == "" || prefix == "" || rest[0] == '.' || rest[0] == '[')
}

// String writes the path as channels[0].fees[1].rate. A name that is not a
// plain word is quoted in brackets.
func (p Path) String() string {
	var b strings.Builder
	step := func(name string, n int32) {
		switch {
		case name == "":
			return
		case !plainWord(name):
			b.WriteString("[" + strconv.Quote(name) + "]")
		case b.Len() > 0:
			b.WriteString("." + name)
		default:
			b.WriteString(name)
		}
		if n > 0 {
			b.WriteString("[" + strconv.Itoa(int(n-1)) + "]")
		}
	}
	step(p.list, p.i)
	if p.name == "" {
		step(p.sub, p.j)
	} else {
		step(p.sub, 0)
		step(p.name, p.j)
	}
	for object := range strings.SplitSeq(p.in, ".") {
		step(object, 0)
	}
	step(p.leaf, p.k)
	return b.String()
}

// Locate returns err as found in what p stands for: the path of a Problem goes
// on from p. Any other error, and nil, stays as it is.
func (p Path) Locate(err error) error {
	problem, ok := err.(Problem)
	if !ok || p.IsZero() {
		return err
	}
	if problem.Path != "" && problem.Path[0] != '[' {
		problem.Path = "." + problem.Path
	}
	problem.Path = p.String() + problem.Path
	return problem
}

// MarshalText returns String.
func (p Path) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

func plainWord(s string) bool {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '_' && r != '-' {
			return false
		}
	}
	return s != ""
}
