package pricelist_test

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func holdsForward(doc pricelist.Document, items []rule.Item, d rule.Decision, i int, p quoin.Amount) bool {
	for _, r := range doc.Rules {
		if slices.Contains(d.Dropped, r.ID) {
			continue
		}
		if !r.Holds(items[i], p) || !hasPartners(r, items, d, i, p) {
			return false
		}
	}
	return true
}

func hasPartners(r rule.Rule, items []rule.Item, d rule.Decision, i int, p quoin.Amount) bool {
	step, ok := r.Kind.(rule.SizeRatio)
	if !ok {
		return true
	}
	ladder := ladderOf(r, step, items, items[i])
	at := slices.Index(ladder, items[i].ID)
	if at < 0 {
		return true
	}
	if at > 0 && !hasPartner(d, items, ladder[at-1], func(q quoin.Amount) bool { return step.HoldsBetween(q, p) }) {
		return false
	}
	return at == len(ladder)-1 ||
		hasPartner(d, items, ladder[at+1], func(q quoin.Amount) bool { return step.HoldsBetween(p, q) })
}

// ladderOf is the products of a step, or those of the design of an item of which it speaks.
func ladderOf(r rule.Rule, step rule.SizeRatio, items []rule.Item, of rule.Item) []string {
	if len(r.Products) > 0 || of.Design == "" || !r.SpeaksOf(of.ID, of.Design) {
		return r.Products
	}
	rungs := slices.DeleteFunc(slices.Clone(items), func(it rule.Item) bool { return it.Design != of.Design })
	if step.Order != rule.Listed {
		slices.SortFunc(rungs, func(a, b rule.Item) int { return a.Size.Area().Number().Cmp(b.Size.Area().Number()) })
	}
	var ladder []string
	for _, it := range rungs {
		ladder = append(ladder, it.ID)
	}
	return ladder
}

func hasPartner(d rule.Decision, items []rule.Item, id string, fits func(quoin.Amount) bool) bool {
	j := slices.IndexFunc(items, func(it rule.Item) bool { return it.ID == id })
	for first, last := range d.Allowed[j].Runs() {
		for p := first; p.Cmp(last) <= 0; p = p.Add(items[j].Grid.Step()) {
			if fits(p) {
				return true
			}
		}
	}
	return false
}
