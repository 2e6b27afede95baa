// Package page lays out what people read: plain text in lines that fit, Markdown, and reports
// that are written as either. What stands in a name does nothing to a terminal or a browser.
package page

import (
	"strings"
	"unicode/utf8"
)

// Width is the number of characters in s.
func Width(s string) int { return utf8.RuneCountInString(s) }

// Short cuts a text to n characters, 4 at least, in its middle: names often differ at their end.
func Short(s string, n int) string {
	r := []rune(s)
	if n = max(n, 4); len(r) <= n {
		return s
	}
	tail := (n - 1) / 2
	return string(r[:n-1-tail]) + "…" + string(r[len(r)-tail:])
}

// Visible replaces control characters and marks of direction in s by question marks.
func Visible(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return '?'
		}
		return r
	}, s)
}

// Text is plain text in lines of at most Width characters, where its words allow.
type Text struct {
	Width int
	lines strings.Builder
}

// String returns the text.
func (t *Text) String() string { return t.lines.String() }

// Line writes one line, without blanks at its end.
func (t *Text) Line(s string) { t.lines.WriteString(strings.TrimRight(Visible(s), " ") + "\n") }

// Wrap writes words behind a lead, and further lines under a hanging indent of so many blanks.
func (t *Text) Wrap(lead string, hanging int, text string) {
	line, first := lead, true
	for word := range strings.FieldsSeq(Visible(text)) {
		switch {
		case first:
			first = false
		case Width(line)+1+Width(word) > t.Width:
			t.Line(line)
			line = strings.Repeat(" ", hanging)
		default:
			line += " "
		}
		line += word
	}
	t.Line(line)
}
