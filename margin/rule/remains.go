package rule

import (
	"fmt"

	"example.com/quoin"
)

// remains is what a group of rules leaves of each item's prices. Only sets that can
// move are touched, and what was done can be taken back.
type remains struct {
	*solver
	sets  []Set
	holds []bool // by rule: whether its ladder is in the group
	due   sweep  // the pairs of those ladders of which an end has moved
	past  []past
	waits *waits // where a move need not go on yet; nil where it always does
	met   []int  // by pair: the runs gone through in this pruning
	seen  []int  // the pairs of which there are any
}

// past is what an item was left before it was narrowed.
type past struct {
	item int
	set  Set
}

// remains returns what no rule at all leaves: everything.
func (s *solver) remains() *remains {
	m := &remains{solver: s, sets: make([]Set, len(s.whole)), holds: make([]bool, len(s.rules)), due: newSweep(len(s.pairs))}
	copy(m.sets, s.whole)
	return m
}

// none stands for no item, where one may be left without a price.
const none = -1

// join adds a group of rules. It returns the item that is left without a price, or
// none; then, as on an error, nothing is added.
func (m *remains) join(group ...int) (empty int, err error) {
	since := len(m.past)
	empty, err = m.add(group)
	if err != nil || empty != none {
		m.takeBack(since, group)
	}
	return empty, err
}

// holdsWith reports whether the rules that are in hold with a group besides, which
// is not added.
func (m *remains) holdsWith(group ...int) (bool, error) {
	since := len(m.past)
	empty, err := m.join(group...)
	m.takeBack(since, group)
	return empty == none, err
}

func (m *remains) add(group []int) (empty int, err error) {
	for _, r := range group {
		if empty, err := m.narrowBy(r); err != nil || empty != none {
			return empty, err
		}
	}
	for _, r := range group {
		m.holds[r] = true
		for p := m.ofRule[r][0]; p < m.ofRule[r][1]; p++ {
			m.due.mark(p)
		}
	}
	return m.prune()
}

// takeBack undoes what was done since, with a group.
func (m *remains) takeBack(since int, group []int) {
	for n := len(m.past) - 1; n >= since; n-- {
		m.sets[m.past[n].item] = m.past[n].set
	}
	m.past = m.past[:since]
	m.due.clear()
	for _, r := range group {
		m.holds[r] = false
	}
}

func (m *remains) narrowBy(r int) (empty int, err error) {
	for n, i := range m.byRule[r].items {
		if err := m.narrow(i, m.byRule[r].sets[n]); err != nil {
			return none, err
		}
		if m.sets[i].IsEmpty() {
			return i, nil
		}
	}
	return none, nil
}

func (m *remains) narrow(i int, by Set) error {
	if by.spans(m.sets[i]) {
		return nil
	}
	s, err := m.sets[i].And(by)
	if err != nil {
		return err
	}
	if !s.Equal(m.sets[i]) {
		m.put(i, s)
	}
	return nil
}

// spans reports whether a set is one unbroken run that another one lies in.
func (s Set) spans(t Set) bool {
	if s.comb != nil || len(s.runs) != 1 || t.IsEmpty() {
		return false
	}
	return s.first() <= t.first() && t.last() <= s.last()
}

// put leaves an item a set, and marks the pairs that this may move.
func (m *remains) put(i int, s Set) {
	m.past = append(m.past, past{i, m.sets[i]})
	m.sets[i] = s
	for _, p := range m.with(i) {
		if m.holds[m.pairs[p].rule] && !m.waits.at(i, p) {
			m.due.mark(p)
		}
	}
}

// mostRuns bounds the runs of one pair that are gone through while sets prune each
// other. Ladders of sizes are done in two rounds; only rings of them creep, a step at a
// time.
const mostRuns = 1 << 20

// prune takes away, pair by pair, every price without a partner, until nothing
// moves. Whatever the order, the same sets are left (the constraints are closed
// under minimum and maximum, so the least prices left, and the greatest, hold
// together); which item is found first to have nothing left is a matter of order.
func (m *remains) prune() (empty int, err error) {
	if m.met == nil {
		m.met = make([]int, len(m.pairs))
	}
	defer m.forget()
	for m.due.left > 0 {
		for p, ok := m.due.next(); ok; p, ok = m.due.next() {
			if empty, err := m.meet(p); err != nil || empty != none {
				return empty, err
			}
			if m.counted(p) > mostRuns {
				return none, m.creeping(p)
			}
		}
	}
	return none, nil
}

// counted counts the runs of a pair that was met.
func (m *remains) counted(p int) int {
	if m.met[p] == 0 {
		m.seen = append(m.seen, p)
	}
	m.met[p] += 2 + len(m.sets[m.pairs[p].before].runs) + len(m.sets[m.pairs[p].next].runs)
	return m.met[p]
}

func (m *remains) forget() {
	for _, p := range m.seen {
		m.met[p] = 0
	}
	m.seen = m.seen[:0]
}

func (m *remains) creeping(p int) error {
	pair := m.pairs[p]
	return quoin.Problem{
		Code: TooFine, Severity: quoin.Fault, Path: fmt.Sprintf("rules[%d]", pair.rule),
		Found:  fmt.Sprintf("more than %d runs of prices while the sizes %q and %q push each other on", mostRuns, m.items[pair.before].ID, m.items[pair.next].ID),
		Wanted: "ladders of which none leads back to a size that it came from",
		Remedy: "leave out one of the steps between these sizes, or give them bounds that the others keep anyway",
	}
}

// meet takes from both sizes of a pair what has no partner in the other, and
// returns the one that has nothing left, or none.
func (m *remains) meet(n int) (empty int, err error) {
	p := &m.pairs[n]
	up, err := p.step.Up(m.sets[p.before])
	if err == nil {
		err = m.narrow(p.next, up)
	}
	if err != nil {
		return none, err
	}
	if m.sets[p.next].IsEmpty() {
		return p.next, nil
	}
	down, err := p.step.Down(m.sets[p.next])
	if err == nil {
		err = m.narrow(p.before, down)
	}
	if err == nil && m.sets[p.before].IsEmpty() {
		return p.before, nil
	}
	return none, err
}
