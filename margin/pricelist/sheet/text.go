package sheet

import (
	"fmt"
	"strings"

	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
)

const (
	labelWidth  = 24
	columnWidth = 14
	narrowest   = labelWidth + 12
)

// Text writes the answer as plain text, at most width characters wide where the names in it allow:
// the price list, what needs a look, and then each product. At 80 characters and more, a product
// takes 24 lines at most if no more than a dozen channels sell it. FullText says all.
func Text(a pricelist.Answer, width int) string { return written(a, width, false) }

// FullText is Text with all that was worked out: margins, kinds of order, parcels, what is cut out
// of what, how many to start, quotes, supplies and machines.
func FullText(a pricelist.Answer, width int) string { return written(a, width, true) }

func written(a pricelist.Answer, width int, full bool) string {
	p := newText(width, a)
	if len(a.Conflict) > 0 {
		p.conflict(a)
	} else {
		p.prices(a.Products)
	}
	p.points(needsALook+":", "- ", p.look(a))
	for _, it := range a.Products {
		p.item(it, full)
	}
	for _, part := range p.parts(a, full) {
		p.points(part.title+":", "- ", part.texts)
	}
	if len(a.Products) > 0 {
		p.wrap("", averages)
	}
	p.cautions(a)
	return p.String()
}

const (
	needsALook = "What needs a look"
	averages   = "Averages over the kinds of order of each channel. Each column adds up as it is printed."
)

func (p *text) cautions(a pricelist.Answer) {
	for _, c := range a.Cautions {
		p.wrap("", c)
	}
}

// text gathers lines of text.
type text struct {
	page.Text
	wording
}

func newText(width int, a pricelist.Answer) *text {
	return &text{page.Text{Width: max(width, narrowest)}, wordsOf(a)}
}

// wrap writes words behind a lead, and further lines under them.
func (p *text) wrap(lead, words string) { p.Wrap(lead, page.Width(lead), words) }

// points writes sentences under a title, and nothing where there are none.
func (p *text) points(title, lead string, sentences []string) {
	if len(sentences) == 0 {
		return
	}
	p.Line(title)
	for _, s := range sentences {
		p.wrap(lead, s)
	}
	p.Line("")
}

// prices is the price list.
func (p *text) prices(products []pricelist.ProductResult) {
	const column = 12
	room := p.Width - 3*column
	row := func(name string, columns ...string) {
		right := ""
		for _, c := range columns {
			right += strings.Repeat(" ", max(1, column-page.Width(c))) + c
		}
		if page.Width(name) > room {
			p.wrap("", name)
			name = ""
		}
		p.Line(name + strings.Repeat(" ", max(0, room-page.Width(name))) + right)
	}
	if room < 12 {
		room = 0
	}
	row("Price list, "+p.currency.String(), "today", "price", "change")
	for _, it := range products {
		now, change := today(it)
		row(named(it.Name, it.ID), now, it.Price.String(), change)
		p.wrap("    ", sentence(it))
	}
	p.Line("")
}

// sentence says where a price may lie, and which rules hold it there.
func sentence(it pricelist.ProductResult) string {
	text := "May be " + mayLie(it, fewRanges)
	low, high := refusing(it.Lower), refusing(it.Higher)
	if low != "" {
		text += "; held from below by " + low
	}
	if high != "" {
		text += "; from above by " + high
		if low == "" {
			text = strings.Replace(text, "; from", "; held from", 1)
		}
	}
	return text
}

// fewRanges is how many ranges of prices the price list names.
const fewRanges = 4

// item is a product: its price, why that is not another one, where it goes, and what may be given
// away. Where that is more than a screen, what is said elsewhere too is left out.
func (p *text) item(it pricelist.ProductResult, full bool) {
	b := block{width: p.Width, full: full || p.Width < screenWidth}
	b.title(titled(p.wording, it))
	b.say(p.reasons(it, full))
	if len(it.Channels) > b.fit() && !full && p.Width >= screenWidth {
		b.table(p.wording, "One print, on average", p.brief(it), briefHeads)
	} else {
		b.statements(p.wording, it, full)
	}
	b.say(p.limits(it))
	for _, l := range b.most(b.full) {
		p.Line(l)
	}
	p.Line("")
	if full {
		p.points("  In each channel:", "  - ", p.standings(it))
		p.points("  Orders:", "  - ", p.orders(it))
		p.points("  Worked out:", "  - ", p.workings(it))
	}
}

func titled(p wording, it pricelist.ProductResult) string {
	text := fmt.Sprintf("%s: %s %s", named(it.Name, it.ID), it.Price, p.currency)
	if now, ok := it.Today.Get(); ok {
		text += fmt.Sprintf(" (today %s)", now)
	}
	return text
}
