package page_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/internal/page"
)

// hostile is text that means something to Markdown, to a browser or to a terminal.
func hostile() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		parts := rapid.SliceOfN(rapid.SampledFrom([]string{
			"|", `\`, "*", "_", "`", "~~", "[a](b)", "<b>", "&amp;", "#", "- ", "+ ", "1. ", "===", "> ", "\n", "\r", "\t", "\x1b[2J", "\u202e", "\u2028", "heron", " ", "é", "https://", "!",
		}), 0, 8).Draw(t, "parts")
		return strings.Join(parts, "")
	})
}

// Whatever stands in a cell, the row has as many, on one line; what is escaped can be read
// back, and is what is visible of it.
func TestCellsStayCells(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		cells := rapid.SliceOfN(hostile(), 1, 4).Draw(t, "cells")
		var m page.Markdown
		m.Row(cells...)
		line, rest, _ := strings.Cut(m.String(), "\n")
		if rest != "" {
			t.Fatalf("%q makes more than a line: %q", cells, m.String())
		}
		got := split(line)
		if len(got) != len(cells)+2 {
			t.Fatalf("%q makes %q", cells, line)
		}
		for i, c := range cells {
			if want := page.Visible(strings.TrimSpace(c)); got[i+1] != want {
				t.Fatalf("%q reads as %q, want %q", c, got[i+1], want)
			}
			if c != "" {
				drawn++
			}
		}
	})
	if drawn == 0 {
		t.Error("no cell held anything")
	}
}

// split reads a row back: cells between bars that no backslash stands before.
func split(line string) []string {
	cells, cell := []string(nil), ""
	for i := 0; i < len(line); i++ {
		switch {
		case line[i] == '\\':
			i++
			cell += line[i : i+1]
		case line[i] == '|':
			cells, cell = append(cells, strings.TrimSpace(cell)), ""
		default:
			cell += line[i : i+1]
		}
	}
	return append(cells, cell)
}

// What would begin a list, a heading, a rule or a quotation within a line does not.
func TestWhatBeginsALine(t *testing.T) {
	for text, want := range map[string]string{
		"- a": `- \- a`, "+ a": `- \+ a`, "* a": `- \* a`, "1. a": `- 1\. a`, "12.": `- 12\.`, "2) a": `- 2\) a`, "# a": `- \# a`, "=": `- \=`, "> a": `- \> a`, "---": `- \---`,
		"1.50 of 2": "- 1.50 of 2", "27.": `- 27\.`, "a - b": "- a - b", "": "- ", "heron": "- heron",
	} {
		var m page.Markdown
		m.Point(0, text)
		if got := strings.TrimSuffix(m.String(), "\n"); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Parts stand apart, and points of one list together.
func TestMarkdownParts(t *testing.T) {
	var m page.Markdown
	m.Title(1, "Prices")
	m.Paragraph("two")
	m.Table("lr", "print", "price")
	m.Row("A4", "17.50")
	m.BoldRow("A3", "")
	m.Point(0, "one")
	m.Point(1, "under it")
	m.Title(2, "End")
	if got, want := m.String(), `# Prices

two

| print | price |
|---|--:|
| A4 | 17.50 |
| **A3** |  |

- one
  - under it

## End
`; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Lines are as long as they may be and no longer, but for a word by itself; all words are
// there, in their order.
func TestWrap(t *testing.T) {
	full := 0
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zé]{1,12}`), 1, 20).Draw(t, "words")
		width, hanging := rapid.IntRange(0, 40).Draw(t, "width"), rapid.IntRange(0, 6).Draw(t, "hanging")
		p := page.Text{Width: width}
		p.Wrap("- ", hanging, strings.Join(words, " "))
		lines := strings.Split(strings.TrimSuffix(p.String(), "\n"), "\n")
		if got := strings.Fields(p.String())[1:]; strings.Join(got, " ") != strings.Join(words, " ") {
			t.Fatalf("%q becomes %q", words, got)
		}
		for i, line := range lines {
			if page.Width(line) > width && len(strings.Fields(strings.TrimPrefix(line, "- "))) > 1 {
				t.Fatalf("%q is longer than %d", line, width)
			}
			if i > 0 && page.Width(lines[i-1])+1+page.Width(strings.Fields(line)[0]) <= width {
				t.Fatalf("%q had room for the first word of %q", lines[i-1], line)
			}
			if i > 0 && page.Width(line) == width {
				full++
			}
		}
	})
	if full == 0 {
		t.Error("no line was full")
	}
}

func TestShort(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want string
	}{
		{"heron", 5, "heron"},
		{"herons", 5, "he…ns"},
		{"Bittern in the reeds, A4", 11, "Bitte…s, A4"},
		{"Bittern", 1, "Bi…n"}, // 4 at least
		{"Über die Öse", 6, "Übe…se"},
	} {
		if got := page.Short(c.text, c.n); got != c.want {
			t.Errorf("%q in %d: %q, want %q", c.text, c.n, got, c.want)
		}
	}
}
