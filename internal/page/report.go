package page

import (
	"fmt"
	"slices"
	"strings"
)

// Report is written by TextReport or MarkdownReport: sections of lines, and of tables whose
// rows are indented as lines are. Levels count from 0; a format is one of package fmt.
type Report interface {
	// Title says what the report is.
	Title(format string, args ...any)
	// Section begins a section with its name, which plain text has in capitals, and the rest
	// of its heading.
	Section(name, rest string)
	// Topic is what the lines of level 1 after it are about.
	Topic(format string, args ...any)
	// Line adds a line, which wraps.
	Line(level int, format string, args ...any)
	// Table begins a table with the heads of its columns; the first holds names.
	Table(level int, name string, heads ...string)
	// Row adds a row to the table. Fewer columns stand at the right.
	Row(level int, name string, columns ...string)
	// Gap sets what follows apart.
	Gap()
	// Cautions stand under the whole.
	Cautions([]string)
	String() string
}

// TextReport writes plain text in lines of at most so many characters, where words allow.
func TextReport(width int) Report { return &textReport{Text: Text{Width: width}} }

type textReport struct {
	Text
	heads []string
}

func indent(level int) int { return 2 + 2*level }

func (t *textReport) at(blanks int, text string) {
	t.Wrap(strings.Repeat(" ", blanks), blanks+2, text)
}

func (t *textReport) Title(format string, args ...any) { t.at(0, fmt.Sprintf(format, args...)) }

func (t *textReport) Section(name, rest string) {
	t.Gap()
	t.at(0, strings.ToUpper(name)+rest)
	t.Gap()
}

func (t *textReport) Topic(format string, args ...any) { t.Line(0, format, args...) }

func (t *textReport) Line(level int, format string, args ...any) {
	t.at(indent(level), fmt.Sprintf(format, args...))
}

func (t *textReport) Table(level int, name string, heads ...string) {
	t.heads = heads
	t.Row(level, name, heads...)
}

// Row writes columns that end where those of every other row do. A name that is too long gets
// a line of its own, and columns that are too wide are written as words.
func (t *textReport) Row(level int, name string, columns ...string) {
	right := ""
	for _, c := range columns {
		right += fmt.Sprintf(" %9s", c)
	}
	blanks := indent(level)
	room := t.Width - blanks - Width(right)
	switch {
	case len(columns) == 0:
		t.Line(level, "%s", name)
		return
	case room < 0 && name != "":
		t.Line(level, "%s: %s", name, t.said(columns))
		return
	case name != "" && Width(name) > room:
		t.Line(level, "%s", name)
		name = ""
	}
	t.Text.Line(fmt.Sprintf("%s%-*s%s", strings.Repeat(" ", blanks), max(room, 0), Visible(name), right))
}

// said names each column by its head.
func (t *textReport) said(columns []string) string {
	parts := slices.Clone(columns)
	heads := t.heads[max(0, len(t.heads)-len(columns)):]
	for i := range min(len(parts), len(heads)) {
		parts[i] = heads[i] + " " + parts[i]
	}
	return strings.Join(parts, ", ")
}

func (t *textReport) Gap() { t.Text.Line("") }

func (t *textReport) Cautions(all []string) {
	t.Gap()
	for _, c := range all {
		t.at(0, c)
	}
}

// MarkdownReport writes Markdown.
func MarkdownReport() Report { return new(markdownReport) }

type markdownReport struct {
	Markdown
	first int // the level of entries of lists that stand under none
	heads int
	rows  []row
}

type row struct {
	level int
	cells []string
}

func (m *markdownReport) Title(format string, args ...any) {
	m.Markdown.Title(1, fmt.Sprintf(format, args...))
}

func (m *markdownReport) Section(name, rest string) {
	m.flush()
	m.first = 0
	m.Markdown.Title(2, name+rest)
}

func (m *markdownReport) Topic(format string, args ...any) {
	m.flush()
	m.first = 1
	m.Markdown.Title(3, fmt.Sprintf(format, args...))
}

func (m *markdownReport) Line(level int, format string, args ...any) {
	m.flush()
	m.Point(max(0, level-m.first), fmt.Sprintf(format, args...))
}

func (m *markdownReport) Table(level int, name string, heads ...string) {
	m.flush()
	m.heads = len(heads)
	m.Markdown.Table("l"+strings.Repeat("r", m.heads), append([]string{name}, heads...)...)
}

func (m *markdownReport) Row(level int, name string, columns ...string) {
	cells := append([]string{name}, make([]string, max(0, m.heads-len(columns)))...)
	m.rows = append(m.rows, row{level, append(cells, columns...)})
}

// flush writes the rows of a table; where some stand under others, those are in bold type.
func (m *markdownReport) flush() {
	top, nested := 0, false
	for i, r := range m.rows {
		if i == 0 || r.level < top {
			top = r.level
		}
		nested = nested || r.level != m.rows[0].level
	}
	for _, r := range m.rows {
		if nested && r.level == top {
			m.BoldRow(r.cells...)
		} else {
			m.Markdown.Row(r.cells...)
		}
	}
	m.rows = nil
}

func (m *markdownReport) Gap() {}

func (m *markdownReport) Cautions(all []string) {
	m.Section("Cautions", "")
	for _, c := range all {
		m.Line(0, "%s", c)
	}
}

func (m *markdownReport) String() string {
	m.flush()
	return m.Markdown.String()
}
