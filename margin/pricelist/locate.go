package pricelist

import (
	"encoding/json"
	"strings"

	"example.com/quoin"
)

// locate fills in the line and column of problems, where their path, or the
// nearest part of it, stands in the text. It reads the text once more.
func locate(data []byte, problems quoin.Problems) { locateIn(data, nil, 1, 1, problems) }

// locateIn is locate for a text that is what stands at a path, from a line and a column on;
// it passes over problems that stand elsewhere.
func locateIn(data []byte, root *path, line, column int, problems quoin.Problems) {
	if len(problems) == 0 {
		return
	}
	wanted := make(map[string]int64)
	more := 0
	for _, p := range problems {
		if p.Code == quoin.BadJSON {
			more = 1 // the end of what can be read is looked for too
		}
		for at := p.Path; at != ""; at = parent(at) {
			wanted[at] = -1
		}
	}
	l := &locator{json: newTokens(data), data: data, wanted: wanted, left: len(wanted) + more}
	l.value(root)
	lines := lineStarts(data)
	for i, p := range problems {
		if !within(p.Path, root.String()) {
			continue
		}
		at := p.Path
		for at != "" && wanted[at] < 0 {
			at = parent(at)
		}
		offset := int64(0)
		switch {
		case at != "":
			offset = wanted[at]
		case p.Code == quoin.BadJSON:
			offset = min(l.json.InputOffset(), int64(len(data)))
		}
		l, c := position(lines, offset)
		if l == 1 {
			c += column - 1
		}
		problems[i].Line, problems[i].Column = l+line-1, c
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

type locator struct {
	json   *tokens
	data   []byte
	wanted map[string]int64
	left   int // of them to be found
}

// value passes over one value, noting where it begins, and looks into it only
// where something wanted may stand; so it never goes deeper than paths do. It
// returns false where there is nothing left to look for, or to look in.
func (l *locator) value(at *path) bool {
	if l.left == 0 {
		return false
	}
	start := l.start()
	t, err := l.json.Token()
	if err != nil {
		return false
	}
	if at != nil && !l.note(at.String(), start) {
		return skip(l.json, t) == nil
	}
	switch t {
	case json.Delim('{'):
		for l.json.More() {
			name, err := l.json.Token()
			if err != nil || !l.value(at.Field(name.(string))) {
				return false
			}
		}
	case json.Delim('['):
		for i := 0; l.json.More(); i++ {
			if !l.value(at.At(i)) {
				return false
			}
		}
	default:
		return true
	}
	_, err = l.json.Token()
	return err == nil
}

// note reports whether the path, or something below it, is wanted.
func (l *locator) note(at string, offset int64) bool {
	known, ok := l.wanted[at]
	if ok && known < 0 {
		l.wanted[at] = offset
		l.left--
	}
	return ok
}

// start returns the offset of the next value.
func (l *locator) start() int64 {
	i := l.json.InputOffset()
	for i < int64(len(l.data)) && strings.IndexByte(" \t\r\n:,", l.data[i]) >= 0 {
		i++
	}
	return i
}

func lineStarts(data []byte) []int64 {
	starts := []int64{0}
	for i, c := range data {
		if c == '\n' {
			starts = append(starts, int64(i)+1)
		}
	}
	return starts
}

// position turns an offset into line and column, both from 1.
func position(starts []int64, offset int64) (line, column int) {
	low, high := 0, len(starts)
	for low+1 < high {
		if middle := (low + high) / 2; starts[middle] <= offset {
			low = middle
		} else {
			high = middle
		}
	}
	return low + 1, int(offset-starts[low]) + 1
}

// within reports whether a path stands for what prefix does, or for something in it.
func within(at, prefix string) bool {
	rest, ok := strings.CutPrefix(at, prefix)
	return ok && (rest == "" || prefix == "" || rest[0] == '.' || rest[0] == '[')
}
