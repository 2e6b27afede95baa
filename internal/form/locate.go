package form

import (
	"errors"
	"sort"
	"strconv"
	"strings"

	"example.com/quoin"
	"github.com/go-json-experiment/json/jsontext"
)

// Locate fills in the line and column of problems, where their path, or the nearest part of
// it, stands in the text. It reads the text once more.
func Locate(text []byte, problems quoin.Problems) { LocateIn(text, nil, 1, 1, problems) }

// LocateIn is Locate for a text that is what stands at a path, from a line and a column on;
// it passes over problems that stand elsewhere.
func LocateIn(text []byte, root *Path, line, column int, problems quoin.Problems) {
	if len(problems) == 0 {
		return
	}
	text = unmarked(text)
	l := &locator{json: tokens(text), text: text, root: root.String(), spots: map[string]*spot{"": {offset: -1, again: -1}}}
	top := l.spot(l.root)
	for _, p := range problems {
		if p.Code == quoin.BadJSON || p.Code == quoin.DuplicateField {
			l.left = 1 // all of the text is looked at
		}
		l.spot(p.Path)
	}
	l.left += len(l.spots)
	l.broken = l.value(top)
	lines := lineStarts(text)
	for i, p := range problems {
		if !within(p.Path, l.root) {
			continue
		}
		at, c := lines.of(l.offset(p))
		if at == 1 {
			c += column - 1
		}
		problems[i].Line, problems[i].Column = at+line-1, c
	}
}

// parent cuts the last step off a path.
func parent(at string) string {
	cut := strings.LastIndexByte(at, '.')
	switch {
	case strings.HasSuffix(at, `"]`), strings.HasSuffix(at, "…]"): // a name, in which anything may stand
		cut = strings.LastIndex(at, `["`)
	case strings.HasSuffix(at, "]"):
		cut = strings.LastIndexByte(at, '[')
	}
	return at[:max(0, cut)]
}

// spot is something that a path leads to, and where it begins, and last begins where it stands
// there again; −1 as long as that is not known.
type spot struct {
	offset  int64
	again   int64
	fields  map[string]*spot // by what the path says
	entries map[int]*spot
}

type locator struct {
	json   *jsontext.Decoder
	text   []byte
	root   string
	spots  map[string]*spot // by paths
	left   int              // of them to be found
	broken error
}

// spot is what a path leads to, put into what it stands in.
func (l *locator) spot(path string) *spot {
	if s := l.spots[path]; s != nil {
		return s
	}
	s := &spot{offset: -1, again: -1}
	l.spots[path] = s
	up := parent(path)
	in, step := l.spot(up), strings.TrimPrefix(path[len(up):], ".")
	if i, err := strconv.Atoi(strings.Trim(step, "[]")); err == nil && step[0] == '[' {
		if in.entries == nil {
			in.entries = make(map[int]*spot)
		}
		in.entries[i] = s
		return s
	}
	if in.fields == nil {
		in.fields = make(map[string]*spot)
	}
	in.fields[step] = s
	return s
}

// field is what a name leads to; nil where nobody looks for it.
func (s *spot) field(name []byte) *spot {
	if to := s.fields[string(name)]; to != nil || s.fields == nil {
		return to
	}
	if len(name) <= longestName && plainWord(string(name)) {
		return nil
	}
	return s.fields[(&Path{name: string(name)}).String()]
}

var errFound = errors.New("nothing left to look for")

// offset is where a problem stands.
func (l *locator) offset(p quoin.Problem) int64 {
	if p.Code == quoin.BadJSON && p.Path == l.root {
		if e, ok := errors.AsType[*jsontext.SyntacticError](l.broken); ok {
			return min(e.ByteOffset, int64(len(l.text)))
		}
		return l.start()
	}
	for at := p.Path; at != ""; at = parent(at) {
		switch s := l.spots[at]; {
		case s == nil:
		case p.Code == quoin.DuplicateField && s.again >= 0:
			return s.again
		case s.offset >= 0:
			return s.offset
		}
	}
	return 0
}

// value passes over one value, noting where it begins, and looks into it only where
// something wanted may stand; so it never goes deeper than paths do. It errs where there is
// nothing left to look for, or to look in.
func (l *locator) value(at *spot) error {
	if l.left == 0 {
		return errFound
	}
	kind := l.json.PeekKind()
	if at == nil {
		return l.json.SkipValue()
	}
	if at.offset >= 0 {
		at.again = l.start()
	} else {
		at.offset = l.start()
		l.left--
	}
	if kind != '{' && kind != '[' || at.fields == nil && at.entries == nil {
		return l.json.SkipValue()
	}
	if _, err := l.json.ReadToken(); err != nil {
		return err
	}
	for i := 0; l.json.PeekKind() != kind+2; i++ { // '}' and ']'
		to := at.entries[i]
		if kind == '{' {
			name, err := next(l.json)
			if err != nil {
				return err
			}
			to = at.field(name.text)
		}
		if err := l.value(to); err != nil {
			return err
		}
	}
	_, err := l.json.ReadToken()
	return err
}

// start returns the offset of the next value.
func (l *locator) start() int64 {
	i := l.json.InputOffset()
	for i < int64(len(l.text)) && strings.IndexByte(" \t\r\n:,", l.text[i]) >= 0 {
		i++
	}
	return i
}

// starts is where the lines of a text begin.
type starts []int64

func lineStarts(text []byte) starts {
	out := starts{0}
	for i, c := range text {
		if c == '\n' {
			out = append(out, int64(i)+1)
		}
	}
	return out
}

// of turns an offset into line and column, both from 1.
func (s starts) of(offset int64) (line, column int) {
	line = sort.Search(len(s), func(i int) bool { return s[i] > offset })
	return line, int(offset-s[line-1]) + 1
}

// within reports whether a path stands for what prefix does, or for something in it.
func within(at, prefix string) bool {
	rest, ok := strings.CutPrefix(at, prefix)
	return ok && (rest == "" || prefix == "" || rest[0] == '.' || rest[0] == '[')
}
