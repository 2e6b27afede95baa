package rule

import (
	"slices"

	"example.com/quoin"
)

// Gap is how far apart the rules of a conflict are about one product: a floor above a ceiling,
// and the rules that set each. If sizes are compared, they go from the rule that started it to
// the last rule between sizes. A floor of 30.22 and a ceiling of 26.90 are 3.32 apart.
type Gap struct {
	// Id of the product.
	Product string `json:"product"`
	// No price below this is left.
	Floor quoin.Amount `json:"floor"`
	// Ids of the rules that set the floor; none where it is the least price there is.
	FloorBy []string `json:"floor_by"`
	// No price above this is left.
	Ceiling quoin.Amount `json:"ceiling"`
	// Ids of the rules that set the ceiling; none where it is price_limit.
	CeilingBy []string `json:"ceiling_by"`
}

// edge is one bound on the prices of an item and the rules that set it; no
// rules where it is the grid's own.
type edge struct {
	at int64
	by *reason
}

// gaps returns where the group's floors stand above its ceilings: of products
// by themselves where there are such, else of the first that a ladder pushes
// so far. There may be none: then the rules meet, but in no price.
func (d Decision) gaps(group []int) []Gap {
	b := bounds{Decision: d, holds: marked(len(d.rules), group), ends: [2][]edge{make([]edge, len(d.items)), make([]edge, len(d.items))}}
	if !b.take() {
		return nil // a rule by itself allows nothing up to the limit
	}
	var out []Gap
	for i := range d.items {
		if b.crossed(i) {
			out = append(out, b.gap(i))
		}
	}
	if len(out) > 0 {
		return out
	}
	return b.pushed(group)
}

// marked is which of n rules are in a group.
func marked(n int, group []int) []bool {
	in := make([]bool, n)
	for _, r := range group {
		in[r] = true
	}
	return in
}

// bounds are the floor and the ceiling of each item.
type bounds struct {
	Decision
	n          int64     // of prices on the grid
	ends       [2][]edge // the floors, and the ceilings
	holds      []bool    // by rule: whether it is in the group
	due        turns     // the pairs of which a bound has moved
	apartFirst int       // the first item whose floor is above its ceiling, of those moved in this round
}

// take sets the bounds of what the rules of a group allow by themselves; false where
// one of them allows an item nothing.
func (b *bounds) take() bool {
	for i := range b.items {
		b.n = b.items[i].Grid.Len()
		floor, ceiling := &b.ends[lowEnd][i], &b.ends[highEnd][i]
		*floor, *ceiling = edge{at: 1}, edge{at: b.n}
		for _, r := range b.Speaking(i) {
			if !b.holds[r] {
				continue
			}
			set := b.Allows(r, i)
			if set.IsEmpty() {
				return false
			}
			if set.first() > floor.at {
				*floor = edge{set.first(), &reason{rule: r}}
			}
			if set.last() < ceiling.at {
				*ceiling = edge{set.last(), &reason{rule: r}}
			}
		}
	}
	return true
}

func (b *bounds) crossed(i int) bool { return b.ends[lowEnd][i].at > b.ends[highEnd][i].at }

func (b *bounds) gap(i int) Gap {
	g, floor, ceiling := b.items[i].Grid, b.ends[lowEnd][i], b.ends[highEnd][i]
	return Gap{
		Product: b.items[i].ID, Floor: g.Price(floor.at), FloorBy: b.ids(floor.by.rules()),
		Ceiling: g.Price(ceiling.at), CeilingBy: b.ids(ceiling.by.rules()),
	}
}

func (d Decision) ids(rules []int) []string {
	return each(rules, func(r int) string { return d.rules[r].ID })
}

// pushed moves bounds over the steps of the group, round by round, until a floor
// stands above a ceiling or nothing moves.
func (b *bounds) pushed(group []int) []Gap {
	b.due = newTurns(len(b.pairs), false)
	for _, r := range group {
		for p := b.ofRule[r][0]; p < b.ofRule[r][1]; p++ {
			b.due.mark(p)
		}
	}
	pushes := 0
	for range 4 * len(b.items) * len(group) {
		if b.due.left == 0 || pushes > mostPushes {
			return nil
		}
		b.apartFirst = none
		for p, ok := b.due.next(); ok; p, ok = b.due.next() {
			b.push(&b.pairs[p])
			pushes++
		}
		if b.apartFirst != none {
			return []Gap{b.gap(b.apartFirst)}
		}
	}
	return nil
}

// mostPushes bounds how often bounds are pushed on for gaps. Only rings push on without
// end, and their floors are no more than how far they were pushed.
const mostPushes = 1 << 22

// push moves bounds over one step.
func (b *bounds) push(p *pair) {
	next := b.pushOver(p, up, lowEnd, p.before, p.next)
	before := b.pushOver(p, down, highEnd, p.next, p.before)
	before = b.pushOver(p, down, lowEnd, p.next, p.before) || before
	next = b.pushOver(p, up, highEnd, p.before, p.next) || next
	if before {
		b.move(p.before)
	}
	if next {
		b.move(p.next)
	}
}

// pushOver moves the end of one item over a step to where another one has its own, and
// reports whether it moved.
func (b *bounds) pushOver(p *pair, way direction, end, from, to int) bool {
	by := p.climb.bounds[way][end]
	if by.times == nil {
		return false
	}
	l, other := &b.ends[end][to], b.ends[end][from]
	at := by.reach(other.at, b.n)
	if end == lowEnd && at <= l.at || end == highEnd && at >= l.at {
		return false
	}
	*l = edge{at, other.by.and(p.rule)}
	return true
}

// move marks the pairs that the bounds of an item push on.
func (b *bounds) move(i int) {
	if b.crossed(i) && (b.apartFirst == none || i < b.apartFirst) {
		b.apartFirst = i
	}
	for _, p := range b.with(i) {
		if b.holds[b.pairs[p].rule] {
			b.due.mark(p)
		}
	}
}

// reason is the rules that set a limit, the last one first.
type reason struct {
	rule   int
	before *reason
}

// and returns the rules with one more, unless it is among them.
func (r *reason) and(rule int) *reason {
	for at := r; at != nil; at = at.before {
		if at.rule == rule {
			return r
		}
	}
	return &reason{rule, r}
}

// rules returns the rules in the order in which they came.
func (r *reason) rules() (out []int) {
	for ; r != nil; r = r.before {
		out = append(out, r.rule)
	}
	slices.Reverse(out)
	return out
}

// Involved returns the items that the conflict is about: those that its rules by themselves
// leave no price. If there are none, it is the items of each ladder that they leave no price.
func (d Decision) Involved() []int {
	group, holds := d.conflicting()
	var alone []int
	known := make(patterns)
	for i := range d.items {
		if d.emptied(holds, i, known) {
			alone = append(alone, i)
		}
	}
	if len(alone) > 0 || len(group) == 0 {
		return alone
	}
	return d.onLadders(group, holds)
}

// onLadders returns the items that the ladders of a group tie together, and that the
// group leaves no price, in order.
func (d Decision) onLadders(group []int, holds []bool) (out []int) {
	rules := each(group, func(r int) Rule { return d.rules[r] })
	seen := make([]bool, len(d.items))
	for i := range d.items {
		if seen[i] || len(d.with(i)) == 0 {
			continue
		}
		tied := d.tied(seen, func(_, p int) bool { return holds[d.pairs[p].rule] }, i)
		slices.Sort(tied)
		if len(tied) == 1 {
			continue // on a ladder of other rules
		}
		items := each(tied, func(j int) Item { return d.items[j] })
		if fit, err := (CheckedItems{items, rules}).Fit(); err != nil || !fit {
			out = append(out, tied...)
		}
	}
	slices.Sort(out)
	return out
}

// conflicting returns the rules of the conflict, and by rule whether it is one.
func (d Decision) conflicting() (group []int, holds []bool) {
	named := make(map[string]bool, len(d.Conflict))
	for _, id := range d.Conflict {
		named[id] = true
	}
	for r, rule := range d.rules {
		if named[rule.ID] {
			group = append(group, r)
		}
	}
	return group, marked(len(d.rules), group)
}

// emptied reports whether rules by themselves leave an item no price.
func (d Decision) emptied(holds []bool, i int, known patterns) bool {
	left := All(d.items[i].Grid)
	for _, r := range d.Speaking(i) {
		if !holds[r] {
			continue
		}
		if both, err := known.and(left, d.Allows(r, i)); err == nil {
			left = both
		}
	}
	return left.IsEmpty()
}

// Rules returns the rules that were decided, in order.
func (d Decision) Rules() []Rule { return d.rules }
