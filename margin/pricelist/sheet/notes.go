package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// part is what is said of one part of an answer, in sentences.
type part struct {
	title string
	texts []string
}

// parts are those that stand beside the products.
func (p wording) parts(a pricelist.Answer, full bool) []part {
	out := []part{{"What others sell for", p.markets(a)}, {"Fairs", p.going(a)}, {"Sets", p.sets(a)}, {"Editions", p.editions(a)}}
	if full {
		out = append(out, part{"Supplies and machines", p.supplied(a)})
	}
	return out
}

// look is what needs a look: dropped preferences, and the warnings, those about most money first.
func (p wording) look(a pricelist.Answer) []string {
	return append(p.dropped(a), p.warnings(a)...)
}

func (p wording) dropped(a pricelist.Answer) []string {
	out := make([]string, len(a.Dropped))
	for i, id := range a.Dropped {
		of := ""
		if i < len(a.Emptied) {
			of = " for " + p.product(a.Emptied[i])
		}
		out[i] = fmt.Sprintf("Preference %q was dropped: with it, no price would be left%s.", id, of)
	}
	return out
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// byName writes the names of the products and channels that a warning is about in place of their
// ids. Fairs, sets and editions are called by their names already.
func (p wording) byName(w quoin.Problem, text string) string {
	for _, a := range w.Args {
		if a.Name == "fair" || a.Name == "set" || a.Name == "edition" {
			continue
		}
		if name := cmp.Or(p.products[a.Value], p.channels[a.Value]); name != "" {
			parts := strings.Split(text, name) // where it is called by its name already
			for i := range parts {
				parts[i] = replaceWord(parts[i], a.Value, name)
			}
			text = strings.Join(parts, name)
		}
	}
	return text
}

// replaceWord replaces a word by another where it stands by itself and is not quoted.
func replaceWord(text, word, by string) string {
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, word)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		if (before == "" || apart(before[len(before)-1])) && (after == "" || apart(after[0])) {
			b.WriteString(by)
		} else {
			b.WriteString(word)
		}
		text = after
	}
}

// apart reports whether a byte is neither of a word nor a quote.
func apart(c byte) bool { return strings.IndexByte(" ,;.:()'", c) >= 0 }

// atStake is how much money a warning is about: the difference of two of its figures, or one that
// says what is missing of a print.
func atStake(w quoin.Problem) quoin.Amount {
	figure := func(name string) quoin.Amount {
		i := slices.IndexFunc(w.Args, func(a quoin.Arg) bool { return a.Name == name })
		if i < 0 {
			return quoin.Amount{}
		}
		a, _ := quoin.ParseAmount(w.Args[i].Value)
		return a
	}
	switch w.Code {
	case pricelist.LosesMoney, pricelist.LosesOnWorst:
		return figure("contribution").Neg()
	case pricelist.WholesaleBelow:
		return figure("goods").Sub(figure("revenue"))
	case pricelist.LargerKeepsLess:
		return figure("smaller_keeps").Sub(figure("keeps"))
	}
	for _, name := range []string{"loss", "less", "short", "each"} {
		if a := figure(name); !a.IsZero() {
			return a
		}
	}
	return quoin.Amount{}
}

// spread says in a sentence or two what is unsure and whether it matters.
func (p wording) spread(it pricelist.ProductResult, s pricelist.Uncertainty) string {
	text := fmt.Sprintf("If unsure figures turn out well, it would be %s; if badly, %s", p.end(s.Cheapest), p.end(s.Dearest))
	if !s.Matters {
		text = "Unsure figures do not change the price"
		low, high := s.Cheapest.Least.Or(quoin.Amount{}), s.Dearest.Least.Or(quoin.Amount{})
		if !low.Equal(high) {
			text += fmt.Sprintf(", only the lowest that is allowed: %s to %s", p.money(low), p.money(high))
		}
	}
	if len(s.Inputs) > 0 {
		text += ". Most: " + p.influence(it, s.Inputs[0])
	}
	return text + "."
}

func (p wording) influence(it pricelist.ProductResult, in pricelist.Influence) string {
	name := strings.TrimPrefix(cmp.Or(in.Name, in.Path), named(it.Name, it.ID)+", ")
	return fmt.Sprintf("%s (%s to %s): %s a print", name, p.figure(in.Low), p.figure(in.High), p.money(in.Goods.High.Sub(in.Goods.Low)))
}

func (p wording) end(c pricelist.RangeResult) string {
	if price, ok := c.Price.Get(); ok {
		return p.money(price)
	}
	return "none, by " + list(c.Conflict)
}
