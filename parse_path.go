package quoin

import (
	"math"
	"strconv"
	"strings"

	"example.com/quoin/internal/prose"
)

// UnmarshalText reads what String writes. The error is a Problem.
func (p *Path) UnmarshalText(text []byte) error {
	read, ok := readPath(string(text))
	if !ok {
		return Problem{
			Code: BadPath, Severity: Fault, Found: prose.Quoted(string(text)),
			Wanted: "a path such as channels[0].fees[1].rate",
		}
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
