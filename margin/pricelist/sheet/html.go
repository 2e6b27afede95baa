package sheet

import (
	"fmt"
	"slices"

	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
)

// HTML writes the answer as one page for a browser and for a printer: the price list, what needs a
// look and the cautions; then each product with its pictures, where its price goes, and its reasons,
// which unfold; then the line sheets. Printed, on A4 or Letter, the list begins on a page, and so
// does each product and each line sheet. It has no script, and loads nothing from elsewhere.
func HTML(a pricelist.Answer) string { return website(a, false) }

// FullHTML is HTML with all that was worked out, as FullText has it.
func FullHTML(a pricelist.Answer) string { return website(a, true) }

// LineSheetHTML writes a line sheet as a page to print and hand over.
func LineSheetHTML(s pricelist.LineSheet) string {
	h := new(page.HTML)
	lineSheet(h, s)
	return h.String()
}

// storyWidth is how wide the lines are in which a price is worked out.
const storyWidth = 100

func website(a pricelist.Answer, full bool) string {
	a = a.WithCurves()
	h := new(page.HTML)
	p := markup{h, wordsOf(a)}
	h.Style(picture.Style())
	h.Section("list")
	if len(a.Conflict) > 0 {
		p.conflict(a)
	} else {
		p.prices(a.Products)
	}
	p.section(needsALook, p.look(a))
	h.Footer(a.Cautions)
	drawn := make(map[string]bool)
	for _, it := range a.Products {
		h.Section("product")
		p.item(it, full)
		p.drawn(h, a, it, full)
		if draws, ok := picture.Ladder(a, it.Design); ok && !drawn[it.Design] {
			drawn[it.Design] = true
			figure(h, draws)
		}
		if story, ok := Why(a, it.ID, storyWidth); ok {
			h.Fold("How every figure of "+named(it.Name, it.ID)+" is worked out", story)
		}
	}
	parts := slices.DeleteFunc(p.parts(a, full), func(of part) bool { return len(of.texts) == 0 })
	if len(parts) > 0 || len(a.Products) > 0 {
		h.Section("more")
		for _, part := range parts {
			p.section(part.title, part.texts)
		}
		if len(a.Products) > 0 {
			p.Paragraph(averages)
		}
		h.Footer(a.Cautions)
	}
	for _, s := range a.LineSheets {
		h.Section("lines")
		lineSheet(h, s)
	}
	return h.String()
}

// drawn adds the pictures of a product: what is printed of it on one page, or all of them.
func (p markup) drawn(h *page.HTML, a pricelist.Answer, it pricelist.ProductResult, full bool) {
	for _, draw := range []func(pricelist.Answer, string) (picture.Picture, bool){picture.Breakdown, picture.Keeps, picture.Market} {
		if draws, ok := draw(a, it.ID); ok {
			figure(h, draws)
		}
	}
	if !full {
		return
	}
	for _, draws := range picture.Layouts(a, it.ID) {
		figure(h, draws)
	}
}

func figure(h *page.HTML, p picture.Picture) { h.Figure(p.Bare(), p.Title, p.Head, p.Rows) }

// lineSheet writes a line sheet as a section of a page.
func lineSheet(h *page.HTML, s pricelist.LineSheet) {
	p := markup{h, wording{currency: s.Currency}}
	p.lineSheet(s)
}

func (p markup) lineSheet(s pricelist.LineSheet) {
	p.Title(1, "Line sheet, "+seller(s))
	for _, t := range head(s.Head) {
		p.Paragraph(t)
	}
	p.Table("llrrrr", "item", "size", "trade, "+s.Currency.String(), "recommended retail", "case", "minimum, ordered alone")
	for _, l := range s.Lines {
		p.Row(named(l.Name, l.Product), l.Size.String(), p.money(l.Trade), l.Recommended.String(), fmt.Sprint(l.Case), least(l))
	}
	p.points(p.conditions(s), notes(s))
}
