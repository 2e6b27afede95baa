package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
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
	p.notes(a)
	return p.b.String()
}

// notes are what stands under the prices: dropped preferences, warnings and
// cautions.
func (p *page) notes(a pricelist.Answer) {
	p.points("Fairs:", "- ", p.going(a))
	p.points("Sets:", "- ", p.sets(a))
	p.points("Editions:", "- ", p.editions(a))
	p.points("Supplies and machines:", "- ", p.supplied(a))
	for i := range a.Dropped {
		p.wrap("", dropped(a, i))
	}
	for i, w := range a.Warnings {
		if i == 0 {
			p.line("Worth a look:")
		}
		p.wrapped("- ", warning(w))
	}
	if len(a.Dropped)+len(a.Warnings) > 0 {
		p.line("")
	}
	if len(a.Products) > 0 {
		p.wrap("", "Figures are per item, averaged over the kinds of order, and rounded for display only.")
	}
	for _, c := range a.Cautions {
		p.wrap("", c)
	}
}

func dropped(a pricelist.Answer, i int) string {
	of := ""
	if i < len(a.Emptied) {
		of = " for " + visible(a.Emptied[i])
	}
	return fmt.Sprintf("Preference %q was dropped: with it, no price would be left%s.", visible(a.Dropped[i]), of)
}

// page gathers lines of text.
type page struct {
	b        strings.Builder
	width    int
	currency quoin.Currency
}

func (p *page) line(s string) { p.b.WriteString(strings.TrimRight(s, " ") + "\n") }

// wrap writes words under an indent, as many to a line as fit.
func (p *page) wrap(indent, text string) { p.wrapped(indent, text) }

// wrapped writes words behind a lead, and further lines under them.
func (p *page) wrapped(lead, text string) {
	line, indent := lead, strings.Repeat(" ", width(lead))
	for _, word := range strings.Fields(text) {
		if line != lead && line != indent && width(line)+1+width(word) > p.width {
			p.line(line)
			line = indent
		}
		if line != lead && line != indent {
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
	if it.Spread != nil {
		p.wrap("  ", p.spread(*it.Spread))
	}
	for rest := it.Channels; len(rest) > 0; {
		n := min(len(rest), (p.width-labelWidth)/columnWidth)
		p.line("")
		p.statements(it.Channels, rest[:n])
		rest = rest[n:]
	}
	p.line("")
	p.points("  One price for all:", "  - ", p.standings(it))
	p.points("  Orders:", "  - ", p.orders(it))
	p.points("  Worked out:", "  - ", p.workings(it))
}

// points writes sentences under a title, and nothing where there are none.
func (p *page) points(title, lead string, sentences []string) {
	if len(sentences) == 0 {
		return
	}
	p.line(title)
	for _, s := range sentences {
		p.wrapped(lead, s)
	}
	p.line("")
}

// held says which rules refuse the next price on each side.
func held(it pricelist.Priced) string {
	var parts []string
	if by := refusing(it.Lower); by != "" {
		parts = append(parts, "no lower by "+by)
	}
	if by := refusing(it.Higher); by != "" {
		parts = append(parts, "no higher by "+by)
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, "; ")
}

// refusing names what refuses the price beside; nothing where nothing does.
func refusing(b pricelist.Beside) string {
	var rules []string
	why, _ := b.Why()
	told := min(len(why.By), mostListed)
	for _, r := range why.By[:told] {
		if !slices.Contains(rules, r.Rule) {
			rules = append(rules, r.Rule)
		}
	}
	if why.More || told < len(why.By) {
		return list(rules) + " and others"
	}
	return list(rules)
}

// mostListed is how many names are written for one thing.
const mostListed = 12

func list(ids []string) string {
	quoted := make([]string, min(len(ids), mostListed))
	for i := range quoted {
		quoted[i] = fmt.Sprintf("%q", visible(ids[i]))
	}
	if more := len(ids) - len(quoted); more > 0 {
		quoted = append(quoted, fmt.Sprintf("%d more", more))
	}
	return strings.Join(quoted, " and ")
}

func (p *page) columns(label string, channels []pricelist.Sold, cell func(pricelist.Sold) string) {
	line := fmt.Sprintf("  %-*s", labelWidth-2, label)
	for _, c := range channels {
		text := cell(c)
		line += strings.Repeat(" ", max(1, columnWidth-width(text))) + text
	}
	p.line(line)
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
	for _, g := range a.Gaps {
		p.wrap("", fmt.Sprintf("%s: floor %s from %s, ceiling %s from %s, %s apart", visible(g.Product),
			p.money(g.Floor), list(g.FloorBy), p.money(g.Ceiling), list(g.CeilingBy), p.money(g.Floor.Sub(g.Ceiling))))
	}
	for i, r := range a.Remedies {
		if i == 0 {
			p.line("")
			p.line("One change would do, of goods one for each product:")
		}
		p.wrapped("- ", remedy(p, r))
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
