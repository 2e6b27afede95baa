package sheet

import (
	"strings"

	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
)

// Markdown writes the answer as Markdown: a table of prices, what needs a look, a table for each
// product of where its price goes, and the cautions. FullMarkdown says all.
func Markdown(a pricelist.Answer) string { return marked(a, new(page.Markdown), false) }

// FullMarkdown is Markdown with all that was worked out, as FullText has it.
func FullMarkdown(a pricelist.Answer) string { return marked(a, new(page.Markdown), true) }

// pages are written in parts: headings, paragraphs, lists, tables.
type pages interface {
	Title(level int, text string)
	Paragraph(text string)
	Point(level int, text string)
	Table(sides string, head ...string)
	Row(cells ...string)
	BoldRow(cells ...string)
	String() string
}

// markup gathers the parts of a page.
type markup struct {
	pages
	wording
}

func marked(a pricelist.Answer, to pages, full bool) string {
	p := markup{to, wordsOf(a)}
	if len(a.Conflict) > 0 {
		p.conflict(a)
	} else {
		p.prices(a.Products)
	}
	p.section(needsALook, p.look(a))
	for _, it := range a.Products {
		p.item(it, full)
	}
	for _, part := range p.parts(a, full) {
		p.section(part.title, part.texts)
	}
	if len(a.Products) > 0 {
		p.Paragraph(averages)
	}
	p.section("Cautions", a.Cautions)
	return p.String()
}

func (p markup) section(title string, texts []string) {
	if len(texts) > 0 {
		p.Title(2, title)
		p.points(texts)
	}
}

func (p markup) points(of ...[]string) {
	for _, texts := range of {
		for _, t := range texts {
			p.Point(0, t)
		}
	}
}

func (p markup) prices(products []pricelist.ProductResult) {
	p.Title(1, "Price list")
	p.Table("lrrrlll", "product", "today", "price, "+p.currency.String(), "change", "may be", "held from below by", "from above by")
	for _, it := range products {
		now, change := today(it)
		p.Row(named(it.Name, it.ID), now, it.Price.String(), change, mayLie(it, fewRanges), refusing(it.Lower), refusing(it.Higher))
	}
}

func (p markup) item(it pricelist.ProductResult, full bool) {
	p.Title(2, titled(p.wording, it))
	for _, s := range p.reasons(it, full) {
		p.Point(0, s.text)
	}
	head := append([]string{"One print, on average"}, cells("", it.Channels, func(c pricelist.ChannelResult) string { return named(c.Name, c.ID) }).cells...)
	p.Table("l"+strings.Repeat("r", len(it.Channels)), head...)
	rows := append(p.where(it.Channels), p.offs(it, it.Channels, full)...)
	if full {
		rows = append(rows, p.margins(it.Channels)...)
	}
	for _, r := range rows {
		write := p.Row
		if r.total {
			write = p.BoldRow
		}
		write(append([]string{r.label}, r.cells...)...)
	}
	for _, s := range p.limits(it) {
		p.Point(0, s.text)
	}
	if full {
		p.points(p.standings(it), p.orders(it), p.workings(it))
	}
}

func (p markup) conflict(a pricelist.Answer) {
	p.Title(1, "No price list")
	p.Paragraph(impossible(a))
	p.Table("lll", "product", "rule", "allows")
	for _, c := range a.Clashes {
		p.Row(p.product(c.Product), c.Rule, p.allowed(a, c))
	}
	for _, g := range a.Gaps {
		p.Point(0, p.gap(g))
	}
	if len(a.Remedies) > 0 {
		p.Paragraph(oneChange)
	}
	p.points(p.remedies(a.Remedies))
}
