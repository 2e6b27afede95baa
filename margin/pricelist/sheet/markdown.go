package sheet

import (
	"fmt"
	"strings"

	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
)

// Markdown writes the answer as Markdown: a table of prices, a table of
// statements for each product, warnings and cautions.
func Markdown(a pricelist.Answer) string {
	p := markdown{wording: wording{a.Currency}}
	if len(a.Conflict) > 0 {
		p.conflict(a)
	} else {
		p.prices(a.Products)
	}
	for _, it := range a.Products {
		p.product(it)
	}
	for _, part := range p.parts(a) {
		p.section(part.title, part.texts)
	}
	p.section("Dropped preferences", dropped(a))
	p.section("Warnings", warnings(a))
	p.section("Cautions", a.Cautions)
	return p.String()
}

// markdown gathers Markdown.
type markdown struct {
	page.Markdown
	wording
}

func (p *markdown) section(title string, texts []string) {
	if len(texts) > 0 {
		p.Title(2, title)
		p.points(texts)
	}
}

func (p *markdown) points(of ...[]string) {
	for _, texts := range of {
		for _, t := range texts {
			p.Point(0, t)
		}
	}
}

func (p *markdown) prices(products []pricelist.ProductResult) {
	p.Title(1, "Price list")
	p.Table("lrrrll", "product", "price, "+p.currency.String(), "from", "to", "forbids less", "forbids more")
	for _, it := range products {
		p.Row(named(it.Name, it.ID), it.Price.String(), it.Least.String(), it.Greatest.String(), refusing(it.Lower), refusing(it.Higher))
	}
}

func (p *markdown) product(it pricelist.ProductResult) {
	p.Title(2, fmt.Sprintf("%s: %s %s", named(it.Name, it.ID), it.Price, p.currency))
	if it.Uncertainty != nil {
		p.Paragraph(p.spread(*it.Uncertainty))
	}
	head := []string{"per item"}
	for _, c := range it.Channels {
		head = append(head, named(c.Name, c.ID))
	}
	p.Table("l"+strings.Repeat("r", len(it.Channels)), head...)
	p.rows(it.Channels, func(label string, cell func(pricelist.ChannelResult) string) {
		cells := []string{label}
		for _, c := range it.Channels {
			cells = append(cells, cell(c))
		}
		p.Row(cells...)
	})
	p.points(p.standings(it), p.orders(it), p.workings(it))
}

func (p *markdown) conflict(a pricelist.Answer) {
	p.Title(1, "No price list")
	p.Paragraph(impossible(a))
	p.Table("lll", "product", "rule", "allows")
	for _, c := range a.Clashes {
		p.Row(c.Product, c.Rule, p.allowed(c))
	}
	for _, g := range a.Gaps {
		p.Point(0, p.gap(g))
	}
	if len(a.Remedies) > 0 {
		p.Paragraph(oneChange)
	}
	for _, r := range p.remedies(a.Remedies) {
		p.Point(0, r)
	}
}
