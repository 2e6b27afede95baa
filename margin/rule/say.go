package rule

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Texts for a person who reads a log or a test. Package sheet says more, and rounds to the
// currency.

// String says what the rule is about.
func (r Rule) String() string {
	kind := "nothing"
	if _, bad := kindProblem(r.Kind); !bad {
		kind = r.Kind.String()
	}
	text := fmt.Sprintf("%s asks for %s", prose.Quoted(r.ID), kind)
	for _, list := range [][]string{r.Products, r.Designs} {
		if len(list) > 0 {
			text += " of " + few(list)
		}
	}
	if len(r.Channels) > 0 {
		text += " in " + few(r.Channels)
	}
	if r.Strength == Prefer {
		text += ", if it can be had"
	}
	return text
}

// few names the first of a list.
func few(names []string) string {
	if len(names) > 4 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:3], ", "), len(names)-3)
	}
	return listOf(names)
}

// listOf joins names as a sentence does.
func listOf(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// String says what the item is, and where it is sold.
func (it Item) String() string {
	text := "item " + prose.Quoted(it.ID)
	if len(it.Offers) > 0 {
		text += " in " + few(it.channels())
	}
	if it.End != Likely {
		text += ", with goods at their " + string(it.End)
	}
	return text
}

// String says which channel the offer is in, and what the goods of an item cost there.
func (o Offer) String() string {
	return fmt.Sprintf("offer in %s of goods for %s", prose.Quoted(o.Channel), o.Sale.GoodsPerItem().Figure().Long())
}

// String says whose the shelf is, and for which prices.
func (s *CompiledChannel) String() string {
	if s == nil || s.grid.Len() == 0 {
		return "no shelf"
	}
	return fmt.Sprintf("shelf of %s for %v", prose.Quoted(s.terms.Channel()), s.grid)
}

// String says what was decided.
func (d Decision) String() string {
	if len(d.Conflict) > 0 {
		return fmt.Sprintf("%s cannot hold together", listOf(each(d.Conflict, prose.Quoted)))
	}
	var prices []string
	for i, p := range d.Prices {
		if i < len(d.items) {
			prices = append(prices, d.items[i].ID+" "+p.String())
		}
	}
	text := "nothing is decided"
	if len(prices) > 0 {
		text = few(prices)
	}
	if len(d.Dropped) > 0 {
		text += "; without " + few(each(d.Dropped, prose.Quoted))
	}
	return text
}

// each is what a function makes of every entry of a list.
func each[S, T any](list []S, of func(S) T) []T {
	out := make([]T, len(list))
	for i, s := range list {
		out[i] = of(s)
	}
	return out
}

// String says what was checked.
func (c CheckedItems) String() string {
	return fmt.Sprintf("%d items and %d rules", len(c.Items), len(c.Rules))
}

// String says what was asked of a price, what it gives, and whether that is enough.
func (v Verdict) String() string {
	text := asked(v.Bound, v.Asked, v.Got, v.Channel, v.Order, v.Reason)
	if v.OK {
		return text + ": it holds"
	}
	return text + ": it does not hold"
}

// asked says what is asked and given; in a rule's own words, where it has some.
func asked(bound Bound, want, got quoin.Figure, channel string, order int, reason string) string {
	if reason != "" {
		return reason
	}
	text := "a price of another set is asked"
	if bound == AtLeast || bound == AtMost {
		text = fmt.Sprintf("%s %s is asked", prose.Words(bound), want.Long())
	}
	if channel != "" {
		text += " in " + channel
	}
	if order > 0 {
		text += fmt.Sprintf(" of orders of kind %d", order)
	}
	return text + ", and it gives " + got.Long()
}

// String says which rule refuses a price, and why.
func (r Refusal) String() string {
	return fmt.Sprintf("%s at %v is refused by %s: %s", r.Product, r.Price, prose.Quoted(r.Rule), r.why())
}

// why says what the rule asks; a step, beside the other size.
func (r Refusal) why() string {
	if r.Neighbour == "" {
		return asked(r.Bound, r.Asked, r.Got, r.Channel, r.Order, r.Reason)
	}
	price, ok := r.NeighbourPrice.Get()
	if !ok {
		return "no price of " + r.Neighbour + " fits beside it"
	}
	side := "less"
	if r.Bound == AtMost {
		side = "more"
	}
	return fmt.Sprintf("%s cannot be %s than %v, so %s %s is asked", r.Neighbour, side, price, prose.Words(r.Bound), r.Asked.Long())
}

// String says which price is refused, and by which rules.
func (w WhyNot) String() string {
	parts := each(w.By, func(r Refusal) string { return fmt.Sprintf("by %s, as %s", prose.Quoted(r.Rule), r.why()) })
	if w.More {
		parts = append(parts, "and by more")
	}
	return strings.TrimSpace(fmt.Sprintf("%v is refused %s", w.Price, strings.Join(parts, "; ")))
}

// String says how far apart the rules of a conflict are about a product.
func (g Gap) String() string {
	return fmt.Sprintf("%s is to cost at least %v by %s, and at most %v by %s",
		g.Product, g.Floor, listOf(each(g.FloorBy, prose.Quoted)), g.Ceiling, listOf(each(g.CeilingBy, prose.Quoted)))
}

// String says where the zone is, and what is kept before it.
func (z DeadZone) String() string {
	text := fmt.Sprintf("from %v to %v a sale keeps less than at %v, where it keeps %s", z.First, z.Last, z.After, z.Contribution.Figure().Long())
	if again, ends := z.Again.Get(); ends {
		text += fmt.Sprintf("; at %v it keeps as much again", again)
	}
	return text
}

// String says the pattern in words.
func (p Pattern) String() string {
	between := each(p.Between, func(b [2]quoin.Amount) string { return fmt.Sprintf("%v to %v", b[0], b[1]) })
	return fmt.Sprintf("%s, with a rest of %s when divided by %v", few(between), few(each(p.EndsIn, quoin.Amount.String)), p.Every)
}
