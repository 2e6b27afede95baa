package page

import "strings"

// Markdown is text in Markdown, with tables as most renderers know them.
type Markdown struct {
	lines strings.Builder
	last  part
}

type part int

const (
	nothing part = iota
	block        // is followed by an empty line
	points
)

// String returns the text.
func (m *Markdown) String() string {
	return m.lines.String()
}

func (m *Markdown) line(s string) { m.lines.WriteString(s + "\n") }

// begin writes the empty line between two parts that are not points of the same list.
func (m *Markdown) begin(p part) {
	if m.last != nothing && (p != points || m.last != points) {
		m.line("")
	}
	m.last = p
}

// Title writes a heading, of level 1 at the top.
func (m *Markdown) Title(level int, text string) {
	m.begin(block)
	m.line(strings.Repeat("#", level) + " " + Escape(text))
}

// Paragraph writes a paragraph.
func (m *Markdown) Paragraph(text string) {
	m.begin(block)
	m.line(start(Escape(text)))
}

// Point writes an entry of a list; one of level 1 stands under the one of level 0 before.
func (m *Markdown) Point(level int, text string) {
	m.begin(points)
	m.line(strings.Repeat("  ", level) + "- " + start(Escape(text)))
}

// Table writes the head of a table. Columns are as many as sides has letters, aligned to the
// left where it says l, and else to the right.
func (m *Markdown) Table(sides string, head ...string) {
	m.begin(block)
	m.Row(head...)
	for _, side := range sides {
		if side == 'l' {
			m.lines.WriteString("|---")
		} else {
			m.lines.WriteString("|--:")
		}
	}
	m.line("|")
}

// Row writes a row of the table that was begun last.
func (m *Markdown) Row(cells ...string) { m.row("", cells) }

// BoldRow writes a row in bold type.
func (m *Markdown) BoldRow(cells ...string) { m.row("**", cells) }

func (m *Markdown) row(mark string, cells []string) {
	for _, c := range cells {
		if c = Escape(strings.TrimSpace(c)); c != "" {
			c = mark + c + mark
		}
		m.lines.WriteString("| " + c + " ")
	}
	m.line("|")
}

// Escape keeps text from being read as Markdown or HTML.
func Escape(s string) string {
	var b strings.Builder
	for _, r := range Visible(s) {
		if strings.ContainsRune("\\`*_{}[]<>()#!|&~", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// start keeps what begins a line from being read as a list or a rule: "- a", "1. a", "===".
func start(s string) string {
	if s != "" && strings.ContainsRune("-+=", rune(s[0])) {
		return "\\" + s
	}
	rest := strings.TrimLeft(s, "0123456789")
	if number := s[:len(s)-len(rest)]; number != "" && (rest == "." || strings.HasPrefix(rest, ". ")) {
		return number + "\\" + rest
	}
	return s
}
