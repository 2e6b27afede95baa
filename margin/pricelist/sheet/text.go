package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/page"
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
	p := newText(width, a.Currency)
	if len(a.Conflict) > 0 {
		p.conflict(a)
	}
	for _, product := range a.Products {
		p.product(product)
	}
	p.notes(a)
	return p.String()
}

// notes are what stands under the prices: dropped preferences, warnings and
// cautions.
func (p *text) notes(a pricelist.Answer) {
	for _, part := range p.parts(a) {
		p.points(part.title+":", "- ", part.texts)
	}
	for _, d := range dropped(a) {
		p.wrap("", d)
	}
	if len(a.Warnings) > 0 {
		p.Line("Worth a look:")
	}
	for _, w := range warnings(a) {
		p.wrap("- ", w)
	}
	if len(a.Dropped)+len(a.Warnings) > 0 {
		p.Line("")
	}
	if len(a.Products) > 0 {
		p.wrap("", "Figures are per item, averaged over the kinds of order, and rounded for display only.")
	}
	for _, c := range a.Cautions {
		p.wrap("", c)
	}
}

// part is what is said of one part of an answer, in sentences.
type part struct {
	title string
	texts []string
}

// parts are those that stand beside the products.
func (p wording) parts(a pricelist.Answer) []part {
	return []part{{"What others sell for", p.markets(a)}, {"Fairs", p.going(a)}, {"Sets", p.sets(a)}, {"Editions", p.editions(a)}, {"Supplies and machines", p.supplied(a)}}
}

func dropped(a pricelist.Answer) []string {
	out := make([]string, len(a.Dropped))
	for i, id := range a.Dropped {
		of := ""
		if i < len(a.Emptied) {
			of = " for " + a.Emptied[i]
		}
		out[i] = fmt.Sprintf("Preference %q was dropped: with it, no price would be left%s.", id, of)
	}
	return out
}

// wording puts figures of one currency in words.
type wording struct{ currency quoin.Currency }

// text gathers lines of text.
type text struct {
	page.Text
	wording
}

func newText(width int, c quoin.Currency) *text {
	return &text{page.Text{Width: max(width, narrowest)}, wording{c}}
}

// wrap writes words behind a lead, and further lines under them.
func (p *text) wrap(lead, words string) { p.Wrap(lead, page.Width(lead), words) }

func (p wording) money(a quoin.Amount) string {
	return p.currency.Round(a, quoin.HalfUp).String()
}

func (p *text) product(it pricelist.ProductResult) {
	name, price := named(it.Name, it.ID), fmt.Sprintf("%s %s", it.Price, p.currency)
	gap := min(p.Width, labelWidth+4*columnWidth) - page.Width(name) - page.Width(price)
	if gap < 2 {
		p.wrap("", name)
		p.Line("  " + price)
	} else {
		p.Line(name + strings.Repeat(" ", gap) + price)
	}
	p.wrap("  ", between(it)+held(it))
	if it.Uncertainty != nil {
		p.wrap("  ", p.spread(*it.Uncertainty))
	}
	for rest := it.Channels; len(rest) > 0; {
		n := min(len(rest), (p.Width-labelWidth)/columnWidth)
		p.Line("")
		p.statements(it.Channels, rest[:n])
		rest = rest[n:]
	}
	p.Line("")
	p.points("  One price for all:", "  - ", p.standings(it))
	p.points("  Orders:", "  - ", p.orders(it))
	p.points("  Worked out:", "  - ", p.workings(it))
}

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

// between says which prices are allowed.
func between(it pricelist.ProductResult) string {
	return fmt.Sprintf("Allowed: %s to %s.", it.Least, it.Greatest)
}

// held says which rules forbid the next price on each side.
func held(it pricelist.ProductResult) string {
	var parts []string
	for i, side := range []pricelist.WhyNot{it.Lower, it.Higher} {
		by, forbid := refusing(side), " forbids "
		if strings.Contains(by, " and ") {
			forbid = " forbid "
		}
		if by != "" {
			parts = append(parts, by+forbid+[]string{"less", "more"}[i])
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " " + strings.Join(parts, ", ") + "."
}

// refusing names what refuses the price beside; nothing where nothing does.
func refusing(b pricelist.WhyNot) string {
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
		quoted[i] = fmt.Sprintf("%q", ids[i])
	}
	if more := len(ids) - len(quoted); more > 0 {
		quoted = append(quoted, fmt.Sprintf("%d more", more))
	}
	return strings.Join(quoted, " and ")
}

func (p *text) columns(label string, channels []pricelist.ChannelResult, cell func(pricelist.ChannelResult) string) {
	line := fmt.Sprintf("  %-*s", labelWidth-2, label)
	for _, c := range channels {
		text := cell(c)
		line += strings.Repeat(" ", max(1, columnWidth-page.Width(text))) + text
	}
	p.Line(line)
}

func (p *text) conflict(a pricelist.Answer) {
	p.wrap("", "No price list: "+impossible(a))
	p.Line("")
	last := ""
	for _, c := range a.Clashes {
		if c.Product != last {
			p.Line(c.Product)
			last = c.Product
		}
		p.wrap("  ", fmt.Sprintf("%q allows %s", c.Rule, p.allowed(c)))
	}
	p.Line("")
	for _, g := range a.Gaps {
		p.wrap("", p.gap(g))
	}
	for i, r := range p.remedies(a.Remedies) {
		if i == 0 {
			p.Line("")
			p.Line(oneChange)
		}
		p.wrap("- ", r)
	}
	p.Line("")
}

const oneChange = "Any one of these ends the conflict:"

func impossible(a pricelist.Answer) string {
	return list(a.Conflict) + " cannot hold together. Drop or change any one of them and the rest can."
}

// allowed says which prices a rule of a conflict allows by itself.
func (p wording) allowed(c pricelist.RuleBounds) string {
	least, some := c.Least.Get()
	if !some {
		return "no price up to the limit"
	}
	return p.money(least) + " to " + p.money(c.Greatest.Or(quoin.Amount{}))
}

func (p wording) gap(g rule.Gap) string {
	return fmt.Sprintf("%s: %s asks at least %s, %s at most %s: %s too much", g.Product,
		list(g.FloorBy), p.money(g.Floor), list(g.CeilingBy), p.money(g.Ceiling), p.money(g.Floor.Sub(g.Ceiling)))
}

func named(name, id string) string {
	return cmp.Or(name, id)
}

func short(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
