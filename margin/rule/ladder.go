package rule

import (
	"iter"
	"slices"
	"sort"

	"example.com/quoin"
)

// pair is two neighbours on the ladder of a rule.
type pair struct {
	rule         int
	step         SizeRatio
	climb        *climb // the step, made ready
	before, next int
}

// other returns the neighbour of item i.
func (p pair) other(i int) int {
	if i == p.before {
		return p.next
	}
	return p.before
}

// ladders are the pairs of all rules, worked out once for a decision.
type ladders struct {
	pairs  []pair
	ofRule [][2]int // by rule: its first pair, and the one after its last
	ofItem [][]int  // by item: the pairs it is in; none where there is no ladder
}

// newLadders numbers the pairs, rule by rule in the order given.
func newLadders(rules []Rule, in *catalogue, order []int) ladders {
	l := ladders{ofRule: make([][2]int, len(rules))}
	for _, r := range order {
		first := len(l.pairs)
		if step, ok := rules[r].Kind.(SizeRatio); ok {
			climb := newClimb(step)
			for _, rungs := range in.rungs(&rules[r], step) {
				for i := 1; i < len(rungs); i++ {
					l.pairs = append(l.pairs, pair{r, step, climb, rungs[i-1], rungs[i]})
				}
			}
		}
		l.ofRule[r] = [2]int{first, len(l.pairs)}
	}
	if len(l.pairs) == 0 {
		return l
	}
	l.ofItem = make([][]int, len(in.items))
	for n, p := range l.pairs {
		l.ofItem[p.before] = append(l.ofItem[p.before], n)
		if p.next != p.before {
			l.ofItem[p.next] = append(l.ofItem[p.next], n)
		}
	}
	return l
}

// rungs returns the ladders of a step, each as the items on it from the smallest up.
// Pairs of which one is not among the items are none.
func (c *catalogue) rungs(r *Rule, step SizeRatio) [][]int {
	if len(r.Products) > 0 {
		return c.listed(r.Products)
	}
	var out [][]int
	for _, items := range c.designs(r.Designs) {
		if step.Order != Listed {
			items = c.bySize(items)
		}
		out = append(out, items)
	}
	return out
}

// listed is the products of a list, in stretches in which each is among the items.
func (c *catalogue) listed(products []string) [][]int {
	var out [][]int
	var stretch []int
	for _, p := range products {
		i, ok := c.at(p)
		if ok {
			stretch = append(stretch, i)
			continue
		}
		out, stretch = append(out, stretch), nil
	}
	return append(out, stretch)
}

func (c *catalogue) bySize(items []int) []int {
	area := make(map[int]quoin.Factor, len(items))
	for _, i := range items {
		area[i] = c.items[i].Size.Area().Number()
	}
	out := slices.Clone(items)
	slices.SortStableFunc(out, func(i, j int) int { return area[i].Cmp(area[j]) })
	return out
}

// with returns the numbers of the pairs that an item is in.
func (l *ladders) with(item int) []int {
	if l.ofItem == nil {
		return nil
	}
	return l.ofItem[item]
}

// near returns the numbers of the pairs of one rule that an item is in.
func (l *ladders) near(rule, item int) []int {
	all, of := l.with(item), l.ofRule[rule]
	from := sort.SearchInts(all, of[0])
	return all[from : from+sort.SearchInts(all[from:], of[1])]
}

// tiedTo returns, by item, how many items ladders tie together with it, itself among
// them; nil where there are no ladders.
func (l *ladders) tiedTo() []int {
	if len(l.pairs) == 0 {
		return nil
	}
	out, seen := make([]int, len(l.ofItem)), make([]bool, len(l.ofItem))
	for i := range out {
		if seen[i] {
			continue
		}
		tied := l.tied(seen, func(int, int) bool { return true }, i)
		for _, j := range tied {
			out[j] = len(tied)
		}
	}
	return out
}

// tied returns the items that some are tied to over pairs, themselves first. It asks of
// each pair that one of them is in whether it goes over it, and marks the items as seen.
func (l *ladders) tied(seen []bool, over func(item, pair int) bool, items ...int) []int {
	for _, i := range items {
		seen[i] = true
	}
	for n := 0; n < len(items); n++ {
		for _, p := range l.with(items[n]) {
			if next := l.pairs[p].other(items[n]); over(items[n], p) && !seen[next] {
				seen[next] = true
				items = append(items, next)
			}
		}
	}
	return items
}

// LadderPairs yields the pairs of neighbouring sizes on the ladders of rule r, as places of
// items, the smaller first. It yields nothing if the rule is not a SizeRatio.
func (d Decision) LadderPairs(r int) iter.Seq2[int, int] {
	return func(yield func(smaller, larger int) bool) {
		if !d.hasRule(r) {
			return
		}
		for _, p := range d.pairs[d.ofRule[r][0]:d.ofRule[r][1]] {
			if !yield(p.before, p.next) {
				return
			}
		}
	}
}
