package pricelist

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// Codes of what deserves a look in the decided prices.
const (
	PriceBelowToday   quoin.Code = "price_below_today"
	LargerCostsLess   quoin.Code = "larger_costs_less"
	ListPriceRuleOnly quoin.Code = "list_price_rule_only"
	RuleOfNothing     quoin.Code = "rule_of_nothing"
)

// prices warns of the decided prices themselves: those below today's, and those of designs.
func (w *warner) prices() {
	for i, price := range w.dec.Prices {
		w.below(i, price)
	}
	w.designs()
	w.freed()
}

// below warns of a price below today's, by how much, and by which rule.
func (w *warner) below(i int, price quoin.Amount) {
	today, given := w.items[i].Today.Get()
	if !given || price.Cmp(today) >= 0 {
		return
	}
	less, share := today.Sub(price), today.Sub(price).Share(today).Round(1)
	why, by := "", ""
	if ids := w.dec.Refuse(i, today); len(ids) > 0 {
		by = ids[0]
		why = fmt.Sprintf(", which %q does not allow", by)
	}
	w.warn(PriceBelowToday, quoin.InList("products", i).Field("price"),
		fmt.Sprintf("%s costs %s instead of today's %s%s: %s less, %s of it", w.titled(i), w.money(price), w.money(today), why, w.money(less), share),
		fmt.Sprintf("if it sells at today's price, keep it: a rule \"price\" with \"at_least\" %s holds it", w.money(today)),
		"product", w.items[i].ID, "price", w.money(price), "today", w.money(today), "less", w.money(less), "share", share.String(), "rule", by)
}

// designs warns of a larger print of a design that costs less than a smaller one, or keeps less.
// Rules between sizes have their own pairs.
func (w *warner) designs() {
	if len(w.dec.Prices) == 0 {
		return
	}
	designs := w.sizes()
	if len(designs) == 0 {
		return
	}
	paired := make(map[[2]int]bool)
	for r := range w.doc.Rules {
		for small, large := range w.dec.LadderPairs(r) {
			paired[[2]int{small, large}] = true
		}
	}
	for _, sizes := range designs {
		for k := 1; k < len(sizes); k++ {
			small, large := sizes[k-1], sizes[k]
			if !paired[[2]int{small, large}] {
				w.rung(quoin.InList("products", large).Field("price"), small, large)
			}
		}
	}
}

// sizes are the bare prints of each design, the smallest first, of different sizes.
func (w *warner) sizes() [][]int {
	if len(w.doc.Products) < 2 {
		return nil
	}
	at := make(map[string]int)
	var out [][]int
	for i, p := range w.doc.Products {
		if p.Design == "" || p.paper().IsZero() || !p.Mat.IsZero() || !p.Frame.IsZero() {
			continue
		}
		k, known := at[p.Design]
		if !known {
			k = len(out)
			at[p.Design], out = k, append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	area := func(i int) quoin.Quantity { return w.doc.Products[i].paper().Area() }
	for k, sizes := range out {
		slices.SortStableFunc(sizes, func(i, j int) int { return area(i).Number().Cmp(area(j).Number()) })
		out[k] = slices.CompactFunc(sizes, func(i, j int) bool { return area(i).Number().Equal(area(j).Number()) })
	}
	return out
}

// cheaper warns of a larger size that costs less than the smaller one.
func (w *warner) cheaper(at quoin.Path, small, large int) {
	a, b := w.dec.Prices[small], w.dec.Prices[large]
	if b.Cmp(a) >= 0 {
		return
	}
	less := w.money(a.Sub(b))
	w.warn(LargerCostsLess, at, fmt.Sprintf("%s costs %s, %s less than the smaller %s at %s", w.titled(large), w.money(b), less, w.titled(small), w.money(a)),
		"hold the sizes apart by a rule \"size_ratio\" with \"at_least\" 1 or more",
		"larger", w.items[large].ID, "price", w.money(b), "smaller", w.items[small].ID, "smaller_price", w.money(a), "less", less)
}

// unasked warns of a rule about the list price that is all that a losing channel is asked.
func (w *warner) unasked(i, j int, lost quoin.Amount) {
	if len(w.warnings) >= w.most {
		return // it stands beside each loss, which is counted
	}
	c := w.doc.Channels[j]
	only := -1
	for _, k := range w.dec.Speaking(i) {
		r := w.doc.Rules[k]
		if len(r.Channels) > 0 && !slices.Contains(r.Channels, c.ID) {
			continue
		}
		switch {
		case isFloor(r.Kind):
			if only < 0 {
				only = k
			}
		case r.AsksChannels():
			return
		}
	}
	if only < 0 {
		return
	}
	r := w.doc.Rules[only]
	price, unit := w.money(w.dec.Prices[i]), w.cents(lost.Neg())
	w.warn(ListPriceRuleOnly, quoin.InList("rules", only), fmt.Sprintf("%q holds for %s at its list price of %s, and a sale in %s still loses %s: it does not see discounts, fees and postage there", r.ID, w.titled(i), price, w.place(j), unit),
		fmt.Sprintf("add a rule \"contribution\" for channel %q", c.ID), "rule", r.ID, "product", w.items[i].ID, "channel", c.ID, "price", price, "loss", unit)
}

// isFloor reports whether a rule keeps list prices up, without a look at what a sale leaves.
func isFloor(k rule.Kind) bool {
	switch k := k.(type) {
	case rule.CostMultiple, rule.Market:
		return true
	case rule.Price:
		return k.AtLeast.IsGiven()
	}
	return false
}

// idle warns of rules, from the first of them on, that allow every product every price because
// they have nothing to go by.
func (w *warner) idle(first int) {
	if len(w.items) == 0 || first >= len(w.doc.Rules) {
		return
	}
	spoken := make([][]int, len(w.doc.Rules))
	for i := range w.items {
		for _, k := range w.dec.Speaking(i) {
			spoken[k] = append(spoken[k], i)
		}
	}
	for k := first; k < len(w.doc.Rules); k++ {
		if why := w.nothing(w.doc.Rules[k], spoken[k]); why != "" {
			r := w.doc.Rules[k]
			w.warn(RuleOfNothing, quoin.InList("rules", k), fmt.Sprintf("%q holds no price: %s", r.ID, why), "give it what it asks for, or leave it out", "rule", r.ID, "kind", r.Kind.String())
		}
	}
}

// nothing is why a rule that speaks of these products has nothing to say; nothing where it has.
func (w *warner) nothing(r rule.Rule, of []int) string {
	some := func(has func(rule.Item) bool) bool {
		return slices.ContainsFunc(of, func(i int) bool { return has(w.items[i]) })
	}
	if len(of) == 0 {
		return "it speaks of no product"
	}
	switch r.Kind.(type) {
	case rule.Market:
		if !some(func(it rule.Item) bool { return len(it.Comparables) > 0 }) {
			return "none of its products has a comparable"
		}
	case rule.MaxChange:
		if !some(func(it rule.Item) bool { return it.Today.IsGiven() }) {
			return "none of its products has a price today"
		}
	default:
		if r.AsksChannels() && len(r.Channels) > 0 && !some(func(it rule.Item) bool { return offered(it, r.Channels) }) {
			return "none of its products is sold in its channels"
		}
	}
	return ""
}
