package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// noted is a warning as it is said, and where it is.
type noted struct {
	quoin.Problem
	text, at string
}

func (n noted) arg(name string) string {
	i := slices.IndexFunc(n.Args, func(a quoin.Arg) bool { return a.Name == name })
	if i < 0 {
		return ""
	}
	return n.Args[i].Value
}

// Warnings says what needs a look in sentences, as Text prints it: what is about most money first,
// and what differs only in its place, product or channel as one sentence.
func Warnings(a pricelist.Answer) []string { return wordsOf(a).warnings(a) }

// warnings says each in a sentence, those about most money first, and where it does not say so,
// what it is about. What differs only in its place, product or channel is one entry. The answer
// has every warning by itself.
func (p wording) warnings(a pricelist.Answer) []string {
	var groups [][]noted
	at := make(map[string]int)
	for _, n := range p.noted(a) {
		key := p.alike(a, n)
		g, known := at[key]
		if !known {
			g = len(groups)
			at[key], groups = g, append(groups, nil)
		}
		groups[g] = append(groups[g], n)
	}
	out := make([]string, len(groups))
	for i, g := range groups {
		out[i] = p.said(a, g)
	}
	return out
}

// noted are the warnings of an answer in words, those about most money first.
func (p wording) noted(a pricelist.Answer) []noted {
	all := make([]noted, len(a.Warnings))
	for i, w := range a.Warnings {
		at := prose.Place(w.Path, func(string) string { return "" })
		if i < len(a.Places) {
			at = a.Places[i]
		}
		all[i] = noted{w, p.byName(w, w.Found+prose.Behind("; ", w.Remedy)), at}
	}
	slices.SortStableFunc(all, func(m, n noted) int { return atStake(n.Problem).Cmp(atStake(m.Problem)) })
	return all
}

// alike is the same for warnings that are said as one: those of one code whose words differ in
// nothing but names.
func (p wording) alike(a pricelist.Answer, n noted) string {
	if n.Code == pricelist.PostageShort || healed(a, n) {
		return string(n.Code)
	}
	text := n.text
	for i, id := range []string{n.arg("product"), n.arg("channel")} {
		if id == "" {
			continue
		}
		for _, name := range []string{fmt.Sprintf("%q", id), cmp.Or(p.products[id], p.channels[id], id)} {
			text = strings.ReplaceAll(text, name, fmt.Sprintf("\x00%d", i))
		}
	}
	return string(n.Code) + "\x00" + text
}

// healed reports whether a warning is about a price of today in place of which another was
// decided, which breaks no rule.
func healed(a pricelist.Answer, n noted) bool {
	return n.Code == pricelist.TodayBreaksRule && slices.ContainsFunc(a.Products, func(it pricelist.ProductResult) bool { return it.ID == n.arg("product") })
}

// said puts warnings that are alike in one entry.
func (p wording) said(a pricelist.Answer, of []noted) string {
	first := of[0]
	switch {
	case healed(a, first):
		return p.todays(of)
	case first.Code == pricelist.PostageShort && len(of) > 1:
		return p.postage(of)
	case slices.ContainsFunc(of, func(n noted) bool { return n.text != first.text }):
		others := make([]string, len(of)-1)
		for i, n := range of[1:] {
			others[i] = p.about(n)
		}
		return placed(first, []string{first.at}) + " The same for " + names(capped(others)) + "."
	}
	at := make([]string, len(of))
	for i, n := range of {
		at[i] = n.at
	}
	return placed(first, at)
}

// placed is a sentence with the places that it does not name itself. It begins with a capital, unless
// with an id.
func placed(n noted, at []string) string {
	text := n.text
	if !slices.ContainsFunc(n.Args, func(a quoin.Arg) bool { return strings.HasPrefix(text, a.Value+" ") }) {
		text = capital(text)
	}
	at = slices.DeleteFunc(distinct(at), func(s string) bool { return s == "" || strings.Contains(text, s) })
	if len(at) > 0 {
		text += " (" + strings.Join(capped(at), "; ") + ")"
	}
	return text + "."
}

// about names the product and the channel of a warning; a channel with its id, where that is to be
// written.
func (p wording) about(n noted) string {
	product, channel := n.arg("product"), n.arg("channel")
	name := p.channel(channel)
	if id := fmt.Sprintf("%q", channel); channel != "" && strings.Contains(n.text, id) {
		name += " (" + id + ")"
	}
	if product == "" {
		return name
	}
	return p.product(product) + prose.Behind(" in ", name)
}

// todays says that today's prices break rules, which the list above mends.
func (p wording) todays(of []noted) string {
	products := make([]string, len(of))
	for i, n := range of {
		products[i] = p.product(n.arg("product"))
	}
	products = distinct(products)
	if len(products) == 1 {
		return "Today's price of " + products[0] + " breaks a rule; the decided price does not."
	}
	return "Today's prices of " + names(capped(products)) + " break a rule; the decided prices do not."
}

// postage says what of postage prices bear, sum by sum.
func (p wording) postage(of []noted) string {
	var sums []string
	at := make(map[string][]string)
	for _, n := range of {
		sum := fmt.Sprintf("%s of %s, which %s would cover", n.arg("short"), n.arg("paid"), n.arg("enough")+prose.Behind(" ", n.arg("currency")))
		if at[sum] == nil {
			sums = append(sums, sum)
		}
		at[sum] = append(at[sum], strings.TrimSuffix(n.at, ", shipping"))
	}
	for i, sum := range sums {
		sums[i] = fmt.Sprintf("%s (%s)", sum, strings.Join(capped(at[sum]), "; "))
	}
	return "Buyers pay less for shipping, without the tax in it, than postage costs you. The price carries the rest: " + and(capped(sums)) + "."
}

// distinct are texts without those that came before, in their order.
func distinct(texts []string) []string {
	var out []string
	for _, s := range texts {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// capped lists no more than can be taken in.
func capped(texts []string) []string {
	if more := len(texts) - mostListed; more > 0 {
		return append(slices.Clone(texts[:mostListed]), fmt.Sprintf("%d more", more))
	}
	return texts
}

// names joins names; those with commas in them by semicolons.
func names(all []string) string {
	if len(all) < 2 || !slices.ContainsFunc(all, func(s string) bool { return strings.Contains(s, ",") }) {
		return and(all)
	}
	last := len(all) - 1
	return strings.Join(all[:last], "; ") + "; and " + all[last]
}
