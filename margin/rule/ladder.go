package rule

import "sort"

// pair is two neighbours on the ladder of a rule.
type pair struct {
	rule         int
	step         Step
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
func newLadders(items []Item, rules []Rule, order []int) ladders {
	l := ladders{ofRule: make([][2]int, len(rules))}
	index := indexOf(items, rules)
	for _, r := range order {
		first := len(l.pairs)
		if step, ok := rules[r].Kind.(Step); ok {
			l.addPairs(pair{rule: r, step: step}, rules[r].Products, index)
		}
		l.ofRule[r] = [2]int{first, len(l.pairs)}
	}
	if len(l.pairs) == 0 {
		return l
	}
	l.ofItem = make([][]int, len(items))
	for n, p := range l.pairs {
		l.ofItem[p.before] = append(l.ofItem[p.before], n)
		if p.next != p.before {
			l.ofItem[p.next] = append(l.ofItem[p.next], n)
		}
	}
	return l
}

// indexOf returns the places of the items, by id; nothing where no rule is a ladder.
func indexOf(items []Item, rules []Rule) map[string]int {
	for _, r := range rules {
		if _, ok := r.Kind.(Step); !ok {
			continue
		}
		index := make(map[string]int, len(items))
		for i, it := range items {
			index[it.ID] = i
		}
		return index
	}
	return nil
}

func (l *ladders) addPairs(of pair, products []string, index map[string]int) {
	for i := range len(products) - 1 {
		var a, b bool
		of.before, a = index[products[i]]
		of.next, b = index[products[i+1]]
		if a && b {
			l.pairs = append(l.pairs, of)
		}
	}
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
