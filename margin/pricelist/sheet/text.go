package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

const (
	labelWidth  = 16
	columnWidth = 14
	narrowest   = labelWidth + columnWidth
)

// Text writes the answer as plain text, at most width characters wide where
// the names in it allow; statements of more channels than fit side by side
// follow below each other. Figures are rounded for display only.
func Text(a pricelist.Answer, width int) string {
	p := page{width: max(width, narrowest), currency: a.Currency}
	if len(a.Conflict) > 0 {
		p.conflict(a)
	}
	for _, product := range a.Products {
		p.product(product)
	}
	for _, id := range a.Dropped {
		p.wrap("", fmt.Sprintf("Preference %q was dropped: with it, no price would be left.", visible(id)))
	}
	if len(a.Dropped) > 0 {
		p.line("")
	}
	if len(a.Products) > 0 {
		p.wrap("", "Figures are per item, averaged over the kinds of order, and rounded for display only.")
	}
	for _, c := range a.Cautions {
		p.wrap("", c)
	}
	return p.b.String()
}

// page gathers lines of text.
type page struct {
	b        strings.Builder
	width    int
	currency quoin.Currency
}

func (p *page) line(s string) { p.b.WriteString(strings.TrimRight(s, " ") + "\n") }

// wrap writes words under an indent, as many to a line as fit.
func (p *page) wrap(indent, text string) {
	line := indent
	for _, word := range strings.Fields(text) {
		if line != indent && width(line)+1+width(word) > p.width {
			p.line(line)
			line = indent
		}
		if line != indent {
			line += " "
		}
		line += word
	}
	p.line(line)
}

func (p *page) money(a quoin.Amount) string {
	return p.currency.Round(a, quoin.HalfUp).String()
}

func (p *page) product(it pricelist.Priced) {
	name, price := named(it.Name, it.ID), fmt.Sprintf("%s %s", it.Price, p.currency)
	gap := min(p.width, labelWidth+4*columnWidth) - width(name) - width(price)
	if gap < 2 {
		p.wrap("", name)
		p.line("  " + price)
	} else {
		p.line(name + strings.Repeat(" ", gap) + price)
	}
	p.wrap("  ", fmt.Sprintf("may be %s to %s", it.Least, it.Greatest)+held(it))
	for rest := it.Channels; len(rest) > 0; {
		n := min(len(rest), (p.width-labelWidth)/columnWidth)
		p.line("")
		p.statements(rest[:n])
		rest = rest[n:]
	}
	p.line("")
}

// held says which rules refuse the next price on each side.
func held(it pricelist.Priced) string {
	var parts []string
	if by := refusing(it.Lower); len(by) > 0 {
		parts = append(parts, "no lower by "+list(by))
	}
	if by := refusing(it.Higher); len(by) > 0 {
		parts = append(parts, "no higher by "+list(by))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, "; ")
}

func refusing(why *rule.Why) []string {
	var out []string
	if why == nil {
		return nil
	}
	for _, r := range why.By {
		if !slices.Contains(out, r.Rule) {
			out = append(out, r.Rule)
		}
	}
	return out
}

func list(ids []string) string {
	quoted := make([]string, len(ids))
	for i, id := range ids {
		quoted[i] = fmt.Sprintf("%q", visible(id))
	}
	return strings.Join(quoted, " and ")
}

// row is one line of a statement.
type row struct {
	label  string
	figure func(margin.Statement) quoin.Amount
}

var statement = []row{
	{"revenue", func(s margin.Statement) quoin.Amount { return s.Revenue }},
	{"- goods", func(s margin.Statement) quoin.Amount { return s.Goods }},
	{"= gross", func(s margin.Statement) quoin.Amount { return s.Gross }},
	{"- fees", func(s margin.Statement) quoin.Amount { return s.Fees }},
	{"- fulfilment", func(s margin.Statement) quoin.Amount { return s.Fulfilment }},
	{"- selling", func(s margin.Statement) quoin.Amount { return s.Selling }},
	{"= contribution", func(s margin.Statement) quoin.Amount { return s.Contribution }},
	{"- overhead", func(s margin.Statement) quoin.Amount { return s.Overhead }},
	{"= operating", func(s margin.Statement) quoin.Amount { return s.Operating }},
	{"- income tax", func(s margin.Statement) quoin.Amount { return s.IncomeTax }},
	{"= net", func(s margin.Statement) quoin.Amount { return s.Net }},
}

func (p *page) statements(channels []pricelist.Sold) {
	p.columns("", channels, func(c pricelist.Sold) string { return short(named(c.Name, c.ID), columnWidth-1) })
	for _, r := range statement {
		p.columns(r.label, channels, func(c pricelist.Sold) string { return p.money(r.figure(c.Statement)) })
	}
	p.columns("gross margin", channels, func(c pricelist.Sold) string { return share(c.Statement.GrossMargin()) })
	p.columns("net margin", channels, func(c pricelist.Sold) string { return share(c.Statement.NetMargin()) })
}

func (p *page) columns(label string, channels []pricelist.Sold, cell func(pricelist.Sold) string) {
	line := fmt.Sprintf("  %-*s", labelWidth-2, label)
	for _, c := range channels {
		text := cell(c)
		line += strings.Repeat(" ", max(1, columnWidth-width(text))) + text
	}
	p.line(line)
}

func share(r quoin.Rate, ok bool) string {
	if !ok {
		return "none"
	}
	return fmt.Sprintf("%.1f%%", r)
}

func (p *page) conflict(a pricelist.Answer) {
	p.wrap("", fmt.Sprintf("No price list: %s cannot hold together. Drop or change any one of them and the rest can.", list(a.Conflict)))
	p.line("")
	last := ""
	for _, c := range a.Clashes {
		if c.Product != last {
			p.line(visible(c.Product))
			last = c.Product
		}
		least, some := c.Least.Get()
		greatest, _ := c.Greatest.Get()
		allows := "allows no price up to the limit"
		if some {
			allows = fmt.Sprintf("allows %s to %s", p.money(least), p.money(greatest))
		}
		p.wrap("  ", fmt.Sprintf("%q %s", visible(c.Rule), allows))
	}
	p.line("")
}

func named(name, id string) string {
	if name == "" {
		return visible(id)
	}
	return visible(name)
}

// visible keeps what stands in a document from doing anything to a terminal.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return '?'
		}
		return r
	}, s)
}

func short(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

func width(s string) int { return len([]rune(s)) }
