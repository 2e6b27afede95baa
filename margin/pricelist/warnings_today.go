package pricelist

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/rule"
)

// brokenRule is a must rule that today's price of a product breaks, in words and as arguments.
type brokenRule struct {
	words string
	args  []string
}

// today warns of prices today that break must rules, once for each product, and of a choice by
// them where there are none.
func (w *warner) today() {
	ladders := w.brokenLadders()
	for i, it := range w.items {
		price, given := it.Today.Get()
		if !given {
			if w.doc.Choose == rule.Nearest {
				w.warn(NoPriceToday, quoin.InList("products", i).Field("price"), fmt.Sprintf("%s has no price today to be nearest to", it.ID), "give it one, or it takes its least", "product", it.ID)
			}
			continue
		}
		var broken []brokenRule
		for _, k := range w.dec.Speaking(i) {
			r := w.doc.Rules[k]
			if r.Strength == rule.Prefer || w.dec.Allows(k, i).Contains(price) {
				continue
			}
			if b, ok := w.broken(r, it, price); ok { // a price off the grid may still hold
				broken = append(broken, b)
			}
		}
		w.breaks(i, price, append(broken, ladders[i]...))
	}
}

// brokenLadders are the rules between sizes that today's prices break, by the larger size.
func (w *warner) brokenLadders() map[int][]brokenRule {
	var out map[int][]brokenRule
	for k, r := range w.doc.Rules {
		step, ok := r.Kind.(rule.SizeRatio)
		if !ok || r.Strength == rule.Prefer {
			continue
		}
		for i, j := range w.dec.LadderPairs(k) {
			small, a := w.items[i].Today.Get()
			large, b := w.items[j].Today.Get()
			if !a || !b || step.HoldsBetween(small, large) {
				continue
			}
			if out == nil {
				out = make(map[int][]brokenRule)
			}
			smaller, price := w.items[i].ID, w.money(small)
			out[j] = append(out[j], brokenRule{fmt.Sprintf("%q beside %s at %s", r.ID, smaller, price), []string{"rule", r.ID, "neighbour", smaller, "neighbour_price", price}})
		}
	}
	return out
}

// broken is the first that a rule has against a price.
func (w *warner) broken(r rule.Rule, it rule.Item, price quoin.Amount) (brokenRule, bool) {
	for _, v := range r.Judge(it, price) {
		if v.OK {
			continue
		}
		got, asked := w.distinct(v.Got, v.Asked)
		words := fmt.Sprintf("%q%s: %s, %s %s asked", r.ID, prose.Behind(" in ", v.Channel), got, prose.Words(v.Bound), asked)
		return brokenRule{words, []string{"rule", r.ID, "channel", v.Channel, "got", got, "bound", string(v.Bound), "asked", asked}}, true
	}
	return brokenRule{}, false
}

// breaks warns of all rules that today's price of product i breaks. Arguments of the second are
// numbered, such as rule_2. A warning that is listed names no more than the first twelve.
func (w *warner) breaks(i int, price quoin.Amount, broken []brokenRule) {
	if len(broken) == 0 {
		return
	}
	today := w.money(price)
	about := append(make([]string, 0, 16), "product", w.items[i].ID, "price", today)
	words := make([]string, 0, len(broken))
	for n, b := range broken {
		if n == w.mostBroken {
			words = append(words, fmt.Sprintf("%d more", len(broken)-n))
			break
		}
		words = append(words, b.words)
		for k := 0; k < len(b.args); k += 2 {
			about = append(about, numbered(b.args[k], n), b.args[k+1])
		}
	}
	found := "today's " + today + " breaks " + words[0]
	if len(broken) > 1 {
		found = fmt.Sprintf("today's %s breaks %d rules: %s", today, len(broken), strings.Join(words, "; "))
		about = append(about, "broken", strconv.Itoa(len(broken)))
	}
	w.warn(TodayBreaksRule, quoin.InList("products", i).Field("price"), found, w.changeIt(len(broken)), about...)
}

// numbered is the name of an argument of rule n, counted from 0.
func numbered(name string, n int) string {
	if n == 0 {
		return name
	}
	return name + "_" + strconv.Itoa(n+1)
}

// changeIt is what to do about a price of today that breaks rules. On a conflict no price is
// decided that could be taken.
func (w *warner) changeIt(rules int) string {
	which := "the rule"
	if rules > 1 {
		which += "s"
	}
	if len(w.dec.Conflict) > 0 {
		return "change " + which + " if today's price is right"
	}
	return "take the decided price, or change " + which
}
