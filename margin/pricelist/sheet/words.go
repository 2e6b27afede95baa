package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// wording puts figures of one currency in words, and calls products and channels by their names.
type wording struct {
	currency           quoin.Currency
	products, channels map[string]string   // names by ids, where there are any
	kinds              map[string][]string // names of kinds of order, by channel
}

func wordsOf(a pricelist.Answer) wording {
	p := wording{a.Currency, make(map[string]string), make(map[string]string), make(map[string][]string)}
	for _, it := range a.Products {
		p.products[it.ID] = it.Name
		for _, c := range it.Channels {
			p.channels[c.ID] = c.Name
			if _, known := p.kinds[c.ID]; !known {
				p.kinds[c.ID] = cells("", c.Orders, func(o pricelist.OrderResult) string { return named(o.Name, o.ID) }).cells
			}
		}
	}
	for _, c := range a.Clashes {
		p.products[c.Product] = c.Name
	}
	for _, s := range a.LineSheets {
		p.channels[s.Channel] = s.Name
	}
	return p
}

func (p wording) product(id string) string { return cmp.Or(p.products[id], id) }

func (p wording) channel(id string) string { return cmp.Or(p.channels[id], id) }

func named(name, id string) string { return cmp.Or(name, id) }

func (p wording) money(a quoin.Amount) string {
	return p.currency.Round(a, quoin.HalfUp).String()
}

// figure writes a number for reading: money to the minor unit, rates and plain
// numbers to at most five places.
func (p wording) figure(f quoin.Figure) string { return f.Round(p.currency.Digits()) }

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
	return and(quoted)
}

// and joins words: a, b and c.
func and(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func share(r quoin.Rate, ok bool) string {
	if !ok {
		return "none"
	}
	return percent(r)
}

func percent(r quoin.Rate) string { return fmt.Sprintf("%.1f%%", r) }

// today is what a product costs today, and by how much that changes.
func today(it pricelist.ProductResult) (price, change string) {
	now, ok := it.Today.Get()
	if !ok {
		return "-", "-"
	}
	rise, ok := it.Change.Get()
	if !ok {
		return now.String(), "-"
	}
	change = percent(rise)
	if rise.Sign() > 0 {
		change = "+" + change
	}
	if rise.IsZero() {
		change = "as it is"
	}
	return now.String(), change
}

// mayLie says between which prices a product's may lie, with the holes: at most so many ranges,
// those around its price.
func mayLie(it pricelist.ProductResult, most int) string {
	ranges, more := it.MayLie, it.MoreRanges
	if len(ranges) == 0 { // an answer that was stored without
		return between(rule.AllowedRange{First: it.Least, Last: it.Greatest})
	}
	first := 0
	if len(ranges) > most {
		at := slices.IndexFunc(ranges, func(r rule.AllowedRange) bool { return it.Price.Cmp(r.Last) <= 0 })
		first = min(max(0, at-most/2), len(ranges)-most)
		more = more || first+most < len(ranges)
		ranges = ranges[first : first+most]
	}
	parts := make([]string, len(ranges))
	for i, r := range ranges {
		parts[i] = between(r)
	}
	text := strings.Join(parts, ", ")
	if first > 0 {
		text = "some lower, " + text
	}
	if more {
		text += ", and some higher"
	}
	return text
}

func between(r rule.AllowedRange) string {
	switch {
	case r.NoneLower && r.NoneHigher:
		return "any price"
	case r.NoneLower:
		return "up to " + r.Last.String()
	case r.NoneHigher:
		return r.First.String() + " and up"
	case r.First.Equal(r.Last):
		return r.First.String()
	}
	return r.First.String() + "–" + r.Last.String()
}

// forbidding is what of the rules forbids the price beside. That no price beyond the limit is
// considered is no reason.
func forbidding(b pricelist.WhyNot) (by []rule.Refusal, more bool) {
	why, _ := b.Why()
	by = slices.DeleteFunc(slices.Clone(why.By), rule.Refusal.OnlyLimit)
	return by, why.More
}

// refusing names what forbids the price beside; nothing where nothing does.
func refusing(b pricelist.WhyNot) string {
	var rules []string
	by, more := forbidding(b)
	told := min(len(by), mostListed)
	for _, r := range by[:told] {
		if name := fmt.Sprintf("%q", r.Rule); !slices.Contains(rules, name) {
			rules = append(rules, name)
		}
	}
	if more || told < len(by) {
		rules = append(rules, "others")
	}
	return and(rules)
}

// rangeOf is the range that a product's price lies in.
func rangeOf(it pricelist.ProductResult) (rule.AllowedRange, bool) {
	i := slices.IndexFunc(it.MayLie, func(r rule.AllowedRange) bool {
		return r.First.Cmp(it.Price) <= 0 && it.Price.Cmp(r.Last) <= 0
	})
	if i < 0 {
		return rule.AllowedRange{}, false
	}
	return it.MayLie[i], true
}

// no says of one side why the price goes no further there: what the first rule asks.
func (p wording) no(word string, b pricelist.WhyNot, end quoin.Amount) string {
	by, _ := forbidding(b)
	if len(by) == 0 {
		return ""
	}
	return fmt.Sprintf("Not %s %s: %s.", word, end, p.refused(by[0]))
}

// refused says in short what a rule has against a price.
func (p wording) refused(r rule.Refusal) string {
	where := prose.Behind(" in ", p.channel(r.Channel))
	if r.Order > 0 {
		where += p.ofKind(r)
	}
	want, got := p.figure(r.Asked), p.figure(r.Got)
	if want == got { // rounding hides what is missing
		want, got = r.Asked.Long(), r.Got.Long()
	}
	if r.Reason != "" {
		return fmt.Sprintf("%s (%q)", r.Reason, r.Rule)
	}
	switch r.Kind {
	case "contribution":
		return fmt.Sprintf("at %s a print keeps %s%s, not %s (%q)", p.money(r.Price), got, where, want, r.Rule)
	case "net_margin", "gross_margin":
		return fmt.Sprintf("at %s the %s%s is %s, not %s (%q)", p.money(r.Price), prose.Words(r.Kind), where, inPercent(r.Got, r.Asked, got), want, r.Rule)
	case "cost_multiple":
		return fmt.Sprintf("what it costs to make asks %s%s (%q)", want, where, r.Rule)
	case "size_ratio":
		return fmt.Sprintf("%s (%q)", p.ratio(r), r.Rule)
	}
	return fmt.Sprintf("%q asks %s %s%s", r.Rule, prose.Words(r.Bound), want, where)
}

// ofKind says of which kind of order by itself a rule speaks.
func (p wording) ofKind(r rule.Refusal) string {
	if kinds := p.kinds[r.Channel]; r.Order <= len(kinds) && kinds[r.Order-1] != "" {
		return fmt.Sprintf(" from orders %q", kinds[r.Order-1])
	}
	return fmt.Sprintf(" from orders of kind %d", r.Order)
}

// inPercent is a rate to a tenth of a per cent, or as it is known if that is no other than what is
// asked.
func inPercent(got, asked quoin.Figure, text string) string {
	short := percent(got.Factor().Rate())
	if got.Kind() != quoin.IsRate || short == percent(asked.Factor().Rate()) {
		return text
	}
	return short
}

// ratio says what the other size of a step asks of this one.
func (p wording) ratio(r rule.Refusal) string {
	price, ok := r.NeighbourPrice.Get()
	if !ok {
		return fmt.Sprintf("no price of %s fits beside it", p.product(r.Neighbour))
	}
	side := "less"
	if r.Bound == "at_most" {
		side = "more"
	}
	return fmt.Sprintf("%s cannot be %s than %s, so this cannot be %s than %s", p.product(r.Neighbour), side, p.money(price), side, p.figure(r.Asked))
}
