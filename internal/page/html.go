package page

import (
	"html"
	"strings"
)

// HTML is a page for a browser, with one style for reading and for printing. Nothing in it is loaded
// from elsewhere.
type HTML struct {
	lines   strings.Builder
	title   string
	last    string // the element that is open: table, ul or none
	sides   string
	section bool   // one is open
	style   string // of its pictures
}

const htmlStyle = `:root{color-scheme:light dark;--ground:#fffdf7;--ink:#23303a;--soft:#5d6a6f;--rule:#b9b3a4}
@media (prefers-color-scheme:dark){:root{--ground:#1b2226;--ink:#e9e6dc;--soft:#a8b2b4;--rule:#566268}}
body{font:16px/1.45 Georgia,serif;max-width:60em;margin:2em auto;padding:0 1em;background:var(--ground);color:var(--ink)}
table{border-collapse:collapse;margin:1em 0}th,td{padding:.15em .7em;text-align:left;vertical-align:top}
.r{text-align:right;font-variant-numeric:tabular-nums}thead th{border-bottom:1px solid}.t td{border-top:1px solid var(--rule);font-weight:bold}
figure{margin:1em 0}figure svg{display:block;max-width:100%;height:auto}.scroll{overflow-x:auto}
details{margin:.6em 0}summary{cursor:pointer}pre{overflow-x:auto;font-size:.85em;line-height:1.35}
section+section{border-top:1px solid var(--rule);margin-top:2em}footer{color:var(--soft);font-size:.85em}
@media print{:root{color-scheme:light;--ground:#fff;--ink:#000;--soft:#333;--rule:#999}
@page{margin:10mm 12mm}body{font-size:9.5pt;line-height:1.3;max-width:none;margin:0;padding:0}h1,h2{margin:.2em 0 .4em;page-break-after:avoid}
section+section{border:0;margin:0;page-break-before:always}table,figure{page-break-inside:avoid;margin:.2em 0}
th,td{padding:0 .5em;line-height:1.22}figure svg{width:106mm}figcaption{font-size:8pt}details{display:none}.scroll{overflow:visible}p,ul{margin:.4em 0}}`

// String returns the page. It holds what was written up to now.
func (h *HTML) String() string {
	end := ""
	if h.last != "" {
		end = h.closing()
	}
	if h.section {
		end += "</section>\n"
	}
	return "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>" + h.title +
		"</title>\n<style>\n" + htmlStyle + "\n" + h.style + "</style>\n</head>\n<body>\n" + h.lines.String() + end + "</body>\n</html>\n"
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

// Style adds to the style of the page, which is written as it is.
func (h *HTML) Style(css string) { h.style += css + "\n" }

// Section begins a section with a class. Each but the first is printed from a new page on.
func (h *HTML) Section(class string) {
	h.begin("", "")
	if h.section {
		h.lines.WriteString("</section>\n")
	}
	h.section = true
	h.lines.WriteString("<section class=\"" + class + "\">\n")
}

// Figure writes a picture, which is taken as it is, with a caption and the same figures as a table
// that unfolds.
func (h *HTML) Figure(picture, caption string, head []string, rows [][]string) {
	h.begin("", "")
	h.lines.WriteString("<figure>\n" + picture)
	h.element("figcaption", caption)
	h.lines.WriteString("</figure>\n<details>\n")
	h.element("summary", "The figures of this picture")
	h.lines.WriteString("<div class=\"scroll\">\n")
	h.Table("l"+strings.Repeat("r", max(len(head)-1, 0)), head...)
	for _, r := range rows {
		h.Row(r...)
	}
	h.begin("", "")
	h.lines.WriteString("</div>\n</details>\n")
}

// Fold writes lines as they are, under words that unfold them.
func (h *HTML) Fold(summary, lines string) {
	h.begin("", "")
	h.lines.WriteString("<details>\n")
	h.element("summary", summary)
	h.lines.WriteString("<pre>")
	for l := range strings.Lines(lines) {
		h.lines.WriteString(safe(strings.TrimSuffix(l, "\n")) + "\n")
	}
	h.lines.WriteString("</pre>\n</details>\n")
}

// Footer writes small sentences at the end of a section.
func (h *HTML) Footer(sentences []string) {
	h.begin("", "")
	h.lines.WriteString("<footer>\n")
	for _, s := range sentences {
		h.element("p", s)
	}
	h.lines.WriteString("</footer>\n")
}
