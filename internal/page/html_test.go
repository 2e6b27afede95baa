package page_test

import (
	"strings"
	"testing"

	"example.com/quoin/internal/page"
)

// body is what stands between the style of a page and its end.
func body(h *page.HTML) string {
	_, rest, _ := strings.Cut(h.String(), "<body>\n")
	body, end, _ := strings.Cut(rest, "</body>\n</html>\n")
	return body + end
}

// Every part of a page, and how what is open before it is closed.
func TestHTML(t *testing.T) {
	for _, c := range []struct {
		what  string
		write func(*page.HTML)
		want  string
	}{
		{"nothing", func(*page.HTML) {}, ""},
		{"headings from 1 to 6", func(h *page.HTML) {
			for _, level := range []int{-1, 0, 1, 6, 7} {
				h.Title(level, "A & B")
			}
		}, "<h1>A &amp; B</h1>\n<h1>A &amp; B</h1>\n<h1>A &amp; B</h1>\n<h6>A &amp; B</h6>\n<h6>A &amp; B</h6>\n"},
		{"points of a list", func(h *page.HTML) {
			h.Point(0, "one")
			h.Point(1, "two")
			h.Paragraph("behind\x1b it")
			h.Point(0, "three")
		}, "<ul>\n<li>one</li>\n<li>two</li>\n</ul>\n<p>behind? it</p>\n<ul>\n<li>three</li>\n</ul>\n"},
		{"tables", func(h *page.HTML) {
			h.Table("lr", "print", "price")
			h.Row(" A4 ", "17.50", "more")
			h.BoldRow("<all>", "1")
			h.Table("r", "x")
			h.Title(2, "End")
		}, "<table>\n<thead>\n<tr><th>print</th><th class=\"r\">price</th></tr>\n</thead>\n<tbody>\n" +
			"<tr><td>A4</td><td class=\"r\">17.50</td><td>more</td></tr>\n<tr class=\"t\"><td>&lt;all&gt;</td><td class=\"r\">1</td></tr>\n</tbody>\n</table>\n" +
			"<table>\n<thead>\n<tr><th class=\"r\">x</th></tr>\n</thead>\n<tbody>\n</tbody>\n</table>\n<h2>End</h2>\n"},
		{
			"a table that is left open", func(h *page.HTML) { h.Table("l", "x") },
			"<table>\n<thead>\n<tr><th>x</th></tr>\n</thead>\n<tbody>\n</tbody>\n</table>\n",
		},
		{"sections", func(h *page.HTML) {
			h.Section("first")
			h.Point(0, "one")
			h.Section("second")
			h.Point(0, "two")
		}, "<section class=\"first\">\n<ul>\n<li>one</li>\n</ul>\n</section>\n<section class=\"second\">\n<ul>\n<li>two</li>\n</ul>\n</section>\n"},
		{"a picture", func(h *page.HTML) {
			h.Point(0, "one")
			h.Figure("<svg/>\n", "a < b", []string{"x", "y", "z"}, [][]string{{"1", "2", "3"}, {"4", "5", "6"}})
		}, "<ul>\n<li>one</li>\n</ul>\n<figure>\n<svg/>\n<figcaption>a &lt; b</figcaption>\n</figure>\n<details>\n<summary>The figures of this picture</summary>\n<div class=\"scroll\">\n" +
			"<table>\n<thead>\n<tr><th>x</th><th class=\"r\">y</th><th class=\"r\">z</th></tr>\n</thead>\n<tbody>\n" +
			"<tr><td>1</td><td class=\"r\">2</td><td class=\"r\">3</td></tr>\n<tr><td>4</td><td class=\"r\">5</td><td class=\"r\">6</td></tr>\n</tbody>\n</table>\n</div>\n</details>\n"},
		{
			"a picture without figures", func(h *page.HTML) { h.Figure("", "", nil, nil) },
			"<figure>\n<figcaption></figcaption>\n</figure>\n<details>\n<summary>The figures of this picture</summary>\n<div class=\"scroll\">\n" +
				"<table>\n<thead>\n<tr></tr>\n</thead>\n<tbody>\n</tbody>\n</table>\n</div>\n</details>\n",
		},
		{"what unfolds", func(h *page.HTML) {
			h.Point(0, "one")
			h.Fold("All <steps>", "a & b\n\n  c\x07\n")
		}, "<ul>\n<li>one</li>\n</ul>\n<details>\n<summary>All &lt;steps&gt;</summary>\n<pre>a &amp; b\n\n  c?\n</pre>\n</details>\n"},
		{"a footer", func(h *page.HTML) {
			h.Point(0, "one")
			h.Footer([]string{"First.", "Second."})
		}, "<ul>\n<li>one</li>\n</ul>\n<footer>\n<p>First.</p>\n<p>Second.</p>\n</footer>\n"},
	} {
		var h page.HTML
		c.write(&h)
		if got := body(&h); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
		if again := body(&h); again != c.want {
			t.Errorf("%s, written again:\n%s", c.what, again)
		}
	}
}

// A page is named after its first heading, and has its own style with that of its pictures.
func TestHeadOfHTML(t *testing.T) {
	var h page.HTML
	h.Style(".bar{fill:red}")
	h.Style(".dot{fill:blue}")
	h.Title(1, "Prices <2026>")
	h.Title(1, "More")
	got := h.String()
	for _, want := range []string{
		"<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n", "<title>Prices &lt;2026&gt;</title>\n<style>\n:root{",
		"}}\n.bar{fill:red}\n.dot{fill:blue}\n</style>\n</head>\n<body>\n<h1>Prices &lt;2026&gt;</h1>\n<h1>More</h1>\n</body>\n</html>\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// Control characters and marks of direction are not passed on; their neighbours are.
func TestVisible(t *testing.T) {
	for _, c := range []struct {
		from, to rune
		hidden   bool
	}{
		{0, 0x1f, true},
		{' ', '~', false},
		{0x7f, 0x9f, true},
		{0xa0, 0x17f, false},
		{0x2020, 0x2027, false},
		{0x2028, 0x202e, true},
		{0x202f, 0x2065, false},
		{0x2066, 0x2069, true},
		{0x206a, 0x206f, false},
		{0x1f600, 0x1f610, false},
	} {
		for r := c.from; r <= c.to; r++ {
			want := string(r)
			if c.hidden {
				want = "?"
			}
			if got := page.Visible(string(r)); got != want {
				t.Errorf("%U is visible as %q", r, got)
			}
		}
	}
	if page.Width("Öse ≈") != 5 {
		t.Error("five letters are not")
	}
}
