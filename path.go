package quoin

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"example.com/quoin/internal/prose"
)

// Path is a place in a document: channels[0].fees[1].rate. It is a value, composed without
// building text; String writes it.
type Path struct {
	list string
	i    int32 // counted from 1, 0 where there is none; so are j and k
	sub  string
	name string
	j    int32
	in   string // objects and lists in what these stand for; see entry
	leaf string
	k    int32
}

// InList returns the path of entry i of a list of the document.
func InList(list string, i int) Path { return Path{list: list, i: int32(i) + 1} }

// InField returns the path of a field of the document itself.
func InField(name string) Path { return Path{leaf: name} }

// Sub returns the path of entry i of a list in the object at p. It replaces a field that p
// named before. It works at any depth, such as channels[0].orders[1].codes[2]. If i is below 0
// there is no entry, and list is the name of an object.
func (p Path) Sub(list string, i int) Path {
	if p.sub != "" || p.in != "" {
		return p.Inside(entry(list, i))
	}
	p.sub, p.j, p.leaf, p.k = list, int32(i)+1, "", 0
	return p
}

// Inside returns the path of an object in the object at p. Field reaches its fields, Inside
// objects in it, and Sub its lists.
func (p Path) Inside(object string) Path {
	if p.in != "" {
		object = p.in + nextIn + object
	}
	p.in, p.leaf, p.k = object, "", 0
	return p
}

// Named returns the path of entry i of a list that has a name of its own, such as a packing
// list.
func (p Path) Named(field, name string, i int) Path {
	if p.sub != "" || p.in != "" {
		return p.Inside(field).Inside(entry(name, i))
	}
	p = p.Sub(field, i)
	p.name = name
	return p
}

// What stands between objects in what a path stands for, and before the number of an
// entry. No name has them: texts hold no control characters.
const (
	nextIn  = "\x01"
	entryIn = "\x00"
)

// entry names entry i of a list among objects, with its number counted from 1.
func entry(list string, i int) string {
	if i < 0 {
		return list
	}
	return list + entryIn + strconv.Itoa(i+1)
}

// Field returns the path of a field of the object at p. It replaces a field that p named
// before.
func (p Path) Field(name string) Path {
	p.leaf, p.k = name, 0
	return p
}

// FieldAt returns the path of entry i of a field that is a list.
func (p Path) FieldAt(name string, i int) Path {
	p.leaf, p.k = name, int32(i)+1
	return p
}

// Equal reports whether p and q are the same place: whether they are written the same way.
func (p Path) Equal(q Path) bool { return p == q || p.String() == q.String() }

// IsZero reports whether p is no place.
func (p Path) IsZero() bool { return p == Path{} }

// Within reports whether p is q, or a place inside q.
func (p Path) Within(q Path) bool {
	s, prefix := p.String(), q.String()
	rest, ok := strings.CutPrefix(s, prefix)
	return ok && (rest == "" || prefix == "" || rest[0] == '.' || rest[0] == '[')
}

// String writes the path as channels[0].fees[1].rate. A name that is not a
// plain word is quoted in brackets.
func (p Path) String() string {
	var room [64]byte
	return string(p.append(room[:0]))
}

func (p *Path) append(b []byte) []byte {
	from := len(b)
	b = appendPlace(b, from, p.list, p.i)
	if p.name == "" {
		b = appendPlace(b, from, p.sub, p.j)
	} else {
		b = appendPlace(b, from, p.sub, 0)
		b = appendPlace(b, from, p.name, p.j)
	}
	for rest := p.in; rest != ""; {
		var object string
		object, rest, _ = strings.Cut(rest, nextIn)
		name, count, _ := strings.Cut(object, entryIn)
		n, _ := strconv.Atoi(count) // 0 of an object
		b = appendPlace(b, from, name, int32(n))
	}
	return appendPlace(b, from, p.leaf, p.k)
}

// appendPlace writes one name of a path that begins at from, with the number of an
// entry, counted from 1.
func appendPlace(b []byte, from int, name string, n int32) []byte {
	switch {
	case name == "":
		return b
	case !plainWord(name):
		b = append(strconv.AppendQuote(append(b, '['), name), ']')
	case len(b) > from:
		b = append(append(b, '.'), name...)
	default:
		b = append(b, name...)
	}
	if n > 0 {
		b = append(strconv.AppendInt(append(b, '['), int64(n-1), 10), ']')
	}
	return b
}

// Locate returns err as found at p: the path of a Problem, and of each of Problems, is put
// behind p. If err wraps one, so does the result, with the same words. Any other error, and
// nil, is returned unchanged.
func (p Path) Locate(err error) error {
	if p.IsZero() {
		return err
	}
	switch e := err.(type) {
	case Problem:
		return p.locate(e)
	case Problems:
		return p.locateAll(e)
	}
	if all := (Problems{}); errors.As(err, &all) {
		return located{err, all, p.locateAll(all)}
	}
	if one := (Problem{}); errors.As(err, &one) {
		return located{err, one, p.locate(one)}
	}
	return err
}

func (p Path) locate(problem Problem) Problem {
	if problem.Path != "" && problem.Path[0] != '[' {
		problem.Path = "." + problem.Path
	}
	problem.Path = p.String() + problem.Path
	return problem
}

func (p Path) locateAll(problems Problems) Problems {
	out := make(Problems, len(problems))
	for i, problem := range problems {
		out[i] = p.locate(problem)
	}
	return out
}

// located is an error that wraps one whose place is now known.
type located struct {
	err      error
	was, now error
}

// Error is what the error says, with the place.
func (l located) Error() string {
	return strings.Replace(l.err.Error(), l.was.Error(), l.now.Error(), 1)
}

// Unwrap returns the error with its place, and the one it was found in.
func (l located) Unwrap() []error { return []error{l.now, l.err} }

// AppendText writes String behind b.
func (p Path) AppendText(b []byte) ([]byte, error) { return p.append(b), nil }

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

// UnmarshalText reads what String writes. The error is a Problem.
func (p *Path) UnmarshalText(text []byte) error {
	read, ok := readPath(string(text))
	if !ok {
		return Problem{Code: BadPath, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: "a path such as channels[0].fees[1].rate"}
	}
	*p = read
	return nil
}

// readPath finds the path that is written so: a field at its end is one, all else is of
// objects and lists inside of each other, which are written as any path is.
func readPath(s string) (p Path, ok bool) {
	for rest := s; rest != ""; {
		var name string
		var n int32
		if name, rest, ok = nameOf(rest, len(rest) == len(s)); !ok {
			return Path{}, false
		}
		if n, rest, ok = indexOf(rest); !ok {
			return Path{}, false
		}
		if rest == "" && n == 0 {
			p = p.Field(name)
		} else {
			p = p.Inside(entry(name, int(n)-1))
		}
	}
	return p, p.String() == s
}

// nameOf takes a name off the front: a plain word, with a point before it unless it is
// the first, or a quoted one in brackets.
func nameOf(s string, first bool) (name, rest string, ok bool) {
	if quoted, found := strings.CutPrefix(s, "["); found {
		text, err := strconv.QuotedPrefix(quoted)
		if err != nil {
			return "", s, false
		}
		name, err = strconv.Unquote(text)
		rest, ok = strings.CutPrefix(quoted[len(text):], "]")
		return name, rest, ok && err == nil
	}
	if !first {
		if s, ok = strings.CutPrefix(s, "."); !ok {
			return "", s, false
		}
	}
	n := strings.IndexAny(s, ".[")
	if n < 0 {
		n = len(s)
	}
	return s[:n], s[n:], plainWord(s[:n])
}

// indexOf takes an index off the front, if there is one.
func indexOf(s string) (n int32, rest string, ok bool) {
	if len(s) < 2 || s[0] != '[' || s[1] < '0' || s[1] > '9' {
		return 0, s, true
	}
	digits, rest, ok := strings.Cut(s[1:], "]")
	i, err := strconv.ParseInt(digits, 10, 32)
	if !ok || err != nil || i == math.MaxInt32 {
		return 0, s, false
	}
	return int32(i) + 1, rest, true
}
