package page

import (
	"html"
	"strings"
)

// HTML is a page for a browser, with one style for reading and for printing.
type HTML struct {
	lines strings.Builder
	title string
	last  string // the element that is open: table, ul or none
	sides string
}

const htmlStyle = `body{font:16px/1.45 Georgia,serif;max-width:60em;margin:2em auto;padding:0 1em}
table{border-collapse:collapse;margin:1em 0}th,td{padding:.15em .7em;text-align:left;vertical-align:top}
.r{text-align:right;font-variant-numeric:tabular-nums}thead th{border-bottom:1px solid}.t td{border-top:1px solid #999;font-weight:bold}
h2{page-break-after:avoid}table{page-break-inside:avoid}`

// String returns the page. It holds what was written up to now.
func (h *HTML) String() string {
	end := ""
	if h.last != "" {
		end = h.closing()
	}
	return "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>" + h.title +
		"</title>\n<style>\n" + htmlStyle + "\n</style>\n</head>\n<body>\n" + h.lines.String() + end + "</body>\n</html>\n"
}

func (h *HTML) closing() string {
	if h.last == "table" {
		return "</tbody>\n</table>\n"
	}
	return "</" + h.last + ">\n"
}

// begin closes what is open, unless it goes on, and opens an element.
func (h *HTML) begin(element, opening string) {
	if h.last == element && element == "ul" {
		return
	}
	if h.last != "" {
		h.lines.WriteString(h.closing())
	}
	h.last = element
	h.lines.WriteString(opening)
}

func (h *HTML) element(tag, text string) {
	h.lines.WriteString("<" + tag + ">" + safe(text) + "</" + tag + ">\n")
}

func safe(text string) string { return html.EscapeString(Visible(text)) }

// Title writes a heading, of level 1 at the top.
func (h *HTML) Title(level int, text string) {
	h.begin("", "")
	if h.title == "" {
		h.title = safe(text)
	}
	h.element("h"+string(rune('0'+min(max(level, 1), 6))), text)
}

// Paragraph writes a paragraph.
func (h *HTML) Paragraph(text string) {
	h.begin("", "")
	h.element("p", text)
}

// Point writes an entry of a list.
func (h *HTML) Point(level int, text string) {
	h.begin("ul", "<ul>\n")
	h.element("li", text)
}

// Table writes the head of a table. Columns are aligned to the left where sides says l, and else to
// the right.
func (h *HTML) Table(sides string, head ...string) {
	h.begin("table", "<table>\n<thead>\n")
	h.sides = sides
	h.row("<tr>", "th", head)
	h.lines.WriteString("</thead>\n<tbody>\n")
}

// Row writes a row of the table that was begun last.
func (h *HTML) Row(cells ...string) { h.row("<tr>", "td", cells) }

// BoldRow writes a row of totals.
func (h *HTML) BoldRow(cells ...string) { h.row("<tr class=\"t\">", "td", cells) }

func (h *HTML) row(opening, tag string, cells []string) {
	h.lines.WriteString(opening)
	for i, c := range cells {
		class := ""
		if i < len(h.sides) && h.sides[i] != 'l' {
			class = " class=\"r\""
		}
		h.lines.WriteString("<" + tag + class + ">" + safe(strings.TrimSpace(c)) + "</" + tag + ">")
	}
	h.lines.WriteString("</tr>\n")
}
