package quoin

import (
	"math"
	"strconv"
	"strings"
)

// UnmarshalText reads what String writes. The error is a Problem.
func (p *Path) UnmarshalText(text []byte) error {
	read, ok := readPath(string(text))
	if !ok {
		return Problem{
			Code: BadPath, Severity: Fault, Found: Quoted(string(text)),
			Wanted: "a path such as channels[0].fees[1].rate",
		}
	}
	*p = read
	return nil
}

// part is a name on a path, and the index behind it, counted from 1; 0 where there is
// none.
type part struct {
	name string
	n    int32
}

// readPath finds the path that is written so.
func readPath(s string) (Path, bool) {
	parts, ok := partsOf(s)
	if !ok {
		return Path{}, false
	}
	for _, strict := range []bool{true, false} {
		for _, l := range layouts() {
			if p, ok := l.fill(parts, strict); ok && p.String() == s {
				return p, true
			}
		}
	}
	return Path{}, false
}

func partsOf(s string) (parts []part, ok bool) {
	for s != "" {
		var next part
		if next.name, s, ok = nameOf(s, len(parts) == 0); !ok {
			return nil, false
		}
		if next.n, s, ok = indexOf(s); !ok {
			return nil, false
		}
		parts = append(parts, next)
	}
	return parts, true
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

// layout is which of the places of a Path its parts stand in, in their order. Between
// name and leaf stand objects, any number of them.
type layout struct{ list, sub, name, leaf bool }

// layouts are all of them, beginning with those that paths mostly have.
func layouts() []layout {
	return []layout{
		{leaf: true}, {list: true}, {list: true, sub: true}, {list: true, leaf: true}, {list: true, sub: true, leaf: true},
		{list: true, sub: true, name: true}, {list: true, sub: true, name: true, leaf: true}, {},
	}
}

// fill puts parts into a path; false where, strictly, paths are not made so: lists have
// indexes, and objects hold a field.
func (l layout) fill(parts []part, strict bool) (p Path, ok bool) {
	var list, sub, name, leaf part
	if n := len(parts) - 1; l.leaf && n >= 0 {
		parts, leaf = parts[:n], parts[n]
	}
	for _, to := range []struct {
		used bool
		*part
	}{{l.list, &list}, {l.sub, &sub}, {l.name, &name}} {
		if to.used && len(parts) > 0 {
			*to.part, parts = parts[0], parts[1:]
		}
	}
	p = Path{list: list.name, i: list.n, sub: sub.name, name: name.name, j: sub.n, leaf: leaf.name, k: leaf.n}
	if l.name {
		p.j = name.n
	}
	objects := make([]string, len(parts))
	for i, object := range parts {
		objects[i] = object.name
	}
	p.in = strings.Join(objects, ".")
	usual := l.leaf || p.in == ""
	usual = usual && (!l.list || list.n > 0) && (!l.sub || l.name || sub.n > 0) && (l != layout{leaf: true} || leaf.n == 0)
	return p, usual || !strict
}
