package picture

import (
	"html"
	"strconv"
	"strings"

	"example.com/quoin/internal/page"
)

// canvas writes the elements of an SVG. All lengths are whole tenths of a unit.
type canvas struct {
	body strings.Builder
	id   string // begins the ids of its elements: a page may hold many pictures
	data string // attributes of its root
}

// tenths writes a length.
func tenths(n int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	if n%10 == 0 {
		return sign + strconv.Itoa(n/10)
	}
	return sign + strconv.Itoa(n/10) + "." + strconv.Itoa(n%10)
}

func safe(text string) string { return html.EscapeString(page.Visible(text)) }

func (c *canvas) write(parts ...string) {
	for _, p := range parts {
		c.body.WriteString(p)
	}
}

func (c *canvas) rect(class string, x, y, w, h int) {
	c.write(`<rect class="`, class, `" x="`, tenths(x), `" y="`, tenths(y), `" width="`, tenths(w), `" height="`, tenths(h), `"/>`)
}

// filled is a rectangle with a pattern.
func (c *canvas) filled(pattern, x, y, w, h int) {
	c.write(`<rect class="part" fill="url(#`, c.id, `-`, strconv.Itoa(pattern), `)" x="`, tenths(x), `" y="`, tenths(y), `" width="`, tenths(w), `" height="`, tenths(h), `"/>`)
}

func (c *canvas) line(class string, x1, y1, x2, y2 int) {
	c.write(`<path class="`, class, `" d="M`, tenths(x1), ` `, tenths(y1))
	switch {
	case x1 == x2:
		c.write(`V`, tenths(y2))
	case y1 == y2:
		c.write(`H`, tenths(x2))
	default:
		c.write(`L`, tenths(x2), ` `, tenths(y2))
	}
	c.write(`"/>`)
}

// text writes words with their baseline at y.
func (c *canvas) text(class string, x, y int, words string) {
	c.write(`<text`)
	if class != "" {
		c.write(` class="`, class, `"`)
	}
	c.write(` x="`, tenths(x), `" y="`, tenths(y), `">`, safe(words), `</text>`)
}

// short cuts words to about a width.
func short(words string, wide int) string { return page.Short(words, wide/70) }

// picture closes the canvas at a height.
func (c *canvas) picture(p Picture, high int) Picture {
	p.open = `<svg xmlns="http://www.w3.org/2000/svg" class="quoin" role="img" aria-labelledby="` + c.id + `-t ` + c.id + `-d" viewBox="0 0 ` +
		tenths(width) + ` ` + tenths(high) + `" width="` + tenths(width) + `" height="` + tenths(high) + `"` + c.data + `>` +
		`<title id="` + c.id + `-t">` + safe(p.Title) + `</title><desc id="` + c.id + `-d">` + safe(p.Text) + `</desc>`
	p.rest = `<rect class="bg" width="` + tenths(width) + `" height="` + tenths(high) + `"/>` + c.body.String() + "</svg>\n"
	return p
}
