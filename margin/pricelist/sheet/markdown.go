package sheet

import (
	"fmt"
	"strings"

	"example.com/quoin/margin/pricelist"
)

// Markdown writes the answer as Markdown: a table of prices, a table of
// statements for each product, warnings and cautions.
func Markdown(a pricelist.Answer) string {
	p := page{width: 1 << 20, currency: a.Currency}
	if len(a.Conflict) > 0 {
		p.line("# No price list")
		p.line("")
		p.conflict(a)
	} else {
		p.line("# Price list")
		p.line("")
		p.prices(a.Products)
	}
	for _, it := range a.Products {
		p.table(it)
	}
	for _, part := range []struct {
		title string
		texts []string
	}{{"Fairs", p.going(a)}, {"Sets", p.sets(a)}, {"Editions", p.editions(a)}, {"Supplies and machines", p.supplied(a)}} {
		p.section(part.title, len(part.texts), func(i int) string { return part.texts[i] })
	}
	p.section("Dropped preferences", len(a.Dropped), func(i int) string { return dropped(a, i) })
	p.section("Warnings", len(a.Warnings), func(i int) string { return warning(a.Warnings[i]) })
	p.section("Cautions", len(a.Cautions), func(i int) string { return a.Cautions[i] })
	return p.b.String()
}

func (p *page) section(title string, n int, text func(int) string) {
	if n == 0 {
		return
	}
	p.line("## " + title)
	p.line("")
	for i := range n {
		p.line("- " + escape(text(i)))
	}
	p.line("")
}

func (p *page) prices(products []pricelist.Priced) {
	p.line(fmt.Sprintf("| product | price, %s | from | to | no lower by | no higher by |", p.currency))
	p.line("|---|--:|--:|--:|---|---|")
	for _, it := range products {
		p.line(fmt.Sprintf("| %s | %s | %s | %s | %s | %s |", escape(named(it.Name, it.ID)), it.Price, it.Least, it.Greatest,
			escape(refusing(it.Lower)), escape(refusing(it.Higher))))
	}
	p.line("")
}

func (p *page) table(it pricelist.Priced) {
	p.line(fmt.Sprintf("## %s: %s %s", escape(named(it.Name, it.ID)), it.Price, p.currency))
	p.line("")
	if it.Spread != nil {
		p.line(escape(p.spread(*it.Spread)) + ".")
		p.line("")
	}
	head, rule := "| per item |", "|---|"
	for _, c := range it.Channels {
		head += " " + escape(named(c.Name, c.ID)) + " |"
		rule += "--:|"
	}
	p.line(head)
	p.line(rule)
	p.rows(it.Channels, func(label string, cell func(pricelist.Sold) string) {
		line := "| " + strings.TrimSpace(label) + " |"
		for _, c := range it.Channels {
			line += " " + cell(c) + " |"
		}
		p.line(line)
	})
	p.line("")
	if points := append(append(p.standings(it), p.orders(it)...), p.workings(it)...); len(points) > 0 {
		for _, w := range points {
			p.line("- " + escape(w))
		}
		p.line("")
	}
}

// escape keeps names from being read as Markdown or HTML.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		if strings.ContainsRune("\\`*_{}[]<>()#+!|&~", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
