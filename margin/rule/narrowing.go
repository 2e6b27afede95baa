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
	due   turns  // the pairs of those ladders of which an end has moved
	past  []past
	since int    // in past: from where on what is done is taken back together
	last  []int  // by item: how many past there were with the last one of the item
	waits *waits // where a move need not go on yet; nil where it always does
	met   []int  // by pair: the runs gone through in this pruning
	seen  []int  // the pairs of which there are any
	// named says that it matters which item is left without a price, and patience how
	// many pairs of rings may be met for that.
	named    bool
	patience int
}

// past is what an item was left before it was narrowed.
type past struct {
	item int
	set  Set
	last int
}

// remains returns what no rule at all leaves: everything.
func (s *solver) remains() *remains {
	m := &remains{solver: s, sets: make([]Set, len(s.whole)), holds: make([]bool, len(s.rules)), due: newTurns(len(s.pairs), false), last: make([]int, len(s.whole))}
	copy(m.sets, s.whole)
	return m
}

// none stands for no item, where one may be left without a price.
const none = -1

// join adds a group of rules. It returns the item that is left without a price, or
// none; then, as on an error, nothing is added.
func (m *remains) join(group ...int) (empty int, err error) {
	since := m.begin()
	empty, err = m.add(group)
	if err != nil || empty != none {
		m.takeBack(since, group)
	}
	return empty, err
}

// begin begins what is taken back together.
func (m *remains) begin() (since int) {
	m.since = len(m.past)
	return m.since
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
		by := &m.byRule[r]
		for n, i := range by.items {
			if err := m.narrow(i, by.set(n)); err != nil {
				return none, err
			}
			if m.sets[i].IsEmpty() {
				return i, nil
			}
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
		p := &m.past[n]
		m.sets[p.item], m.last[p.item] = p.set, p.last
	}
	clear(m.past[since:])
	m.past = m.past[:since]
	m.due.clear()
	for _, r := range group {
		m.holds[r] = false
	}
}

// keep gives up taking back what was done so far.
func (m *remains) keep() {
	for _, p := range m.past {
		m.last[p.item] = 0
	}
	clear(m.past)
	m.past = m.past[:0]
}

func (m *remains) narrow(i int, by Set) error {
	if by.comb == nil && len(by.runs) == 1 {
		m.cut(i, by.runs[0])
		return nil
	}
	s, err := m.patterns.and(m.sets[i], by)
	if err != nil {
		return err
	}
	if !s.alike(m.sets[i]) {
		m.put(i, s)
	}
	return nil
}

// cut leaves an item the prices of a run.
func (m *remains) cut(i int, to run) {
	s := m.sets[i]
	if s.IsEmpty() || to.first <= s.first() && s.last() <= to.last {
		return
	}
	m.put(i, s.meet([]run{to}, s.comb))
}

// spans reports whether a set is one unbroken run that another one lies in.
func (s Set) spans(t Set) bool {
	if s.comb != nil || len(s.runs) != 1 || t.IsEmpty() {
		return false
	}
	return s.first() <= t.first() && t.last() <= s.last()
}

// put leaves an item a set, and marks the pairs that this may move. What the item was
// left is kept once for all that is taken back together.
func (m *remains) put(i int, s Set) {
	if m.last[i] <= m.since {
		m.past = append(m.past, past{i, m.sets[i], m.last[i]})
		m.last[i] = len(m.past)
	}
	m.sets[i] = s
	for _, p := range m.with(i) {
		if m.holds[m.pairs[p].rule] && !m.waits.at(i, p) {
			m.due.mark(p)
		}
	}
}

// mostRuns bounds the runs of one pair that are gone through while sets prune each
// other, each time that it is met counting as many again as perMeeting. Ladders of
// sizes are done in two rounds; only rings of them creep, a step at a time.
const (
	mostRuns   = 1 << 20
	perMeeting = 1 << 6
)

// prune takes away, pair by pair, every price without a partner, until nothing
// moves. Whatever the order, the same sets are left (the constraints are closed
// under minimum and maximum, so the least prices left, and the greatest, hold
// together); which item is found first to have nothing left is a matter of order.
// Where pairs are met over and over, ladders are taken to creep.
func (m *remains) prune() (empty int, err error) {
	if m.met == nil {
		m.met = make([]int, len(m.pairs))
	}
	defer m.forget()
	meetings, effort := 0, 0
	for m.due.left > 0 {
		for p, ok := m.due.next(); ok; p, ok = m.due.next() {
			if empty, err := m.meet(p); err != nil || empty != none {
				return empty, err
			}
			before := m.met[p]
			if m.counted(p) > mostRuns {
				return none, m.creeping(p, mostRuns/perMeeting)
			}
			meetings, effort = meetings+1, effort+m.met[p]-before
		}
		if meetings > 16+4*len(m.seen) && effort > perMeeting*(256+4*len(m.seen)) {
			if empty, err := m.skip(); err != nil || empty != none {
				return empty, err
			}
			meetings, effort = 0, 0
		}
	}
	return none, nil
}

// counted counts the runs of a pair that was met.
func (m *remains) counted(p int) int {
	if m.met[p] == 0 {
		m.seen = append(m.seen, p)
	}
	m.met[p] += perMeeting + len(m.sets[m.pairs[p].before].runs) + len(m.sets[m.pairs[p].next].runs)
	return m.met[p]
}

func (m *remains) forget() {
	for _, p := range m.seen {
		m.met[p] = 0
	}
	m.seen = m.seen[:0]
}

func (m *remains) creeping(p, times int) error {
	pair := m.pairs[p]
	return fault(quoin.Problem{
		Code: TooManyRuns, Path: fmt.Sprintf("rules[%d]", pair.rule),
		Found:  fmt.Sprintf("steps that push the sizes %q and %q on by a little each time round, more than %d times", m.items[pair.before].ID, m.items[pair.next].ID, times),
		Wanted: "ladders of which none leads back to a size that it came from",
		Remedy: "leave out one of the steps between these sizes, or give them bounds that the others keep anyway",
	})
}

// meet takes from both sizes of a pair what has no partner in the other, and
// returns the one that has nothing left, or none.
func (m *remains) meet(n int) (empty int, err error) {
	p := &m.pairs[n]
	if err := m.follow(p.climb, p.before, p.next, up); err != nil || m.sets[p.next].IsEmpty() {
		return p.next, err
	}
	if err := m.follow(p.climb, p.next, p.before, down); err != nil || m.sets[p.before].IsEmpty() {
		return p.before, err
	}
	return none, nil
}

// follow leaves an item what another one reaches.
func (m *remains) follow(c *climb, from, to int, way direction) error {
	if r, ok := c.single(m.sets[from], way); ok {
		m.cut(to, r)
		return nil
	}
	set, err := c.reach(m.sets[from], way)
	if err != nil {
		return err
	}
	return m.narrow(to, set)
}
