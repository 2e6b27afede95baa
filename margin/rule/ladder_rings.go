package rule

import "slices"

// rings goes on pruning where ladders creep: where they lead back to sizes that they came
// from, which push each other on by a little each time round.
type rings struct {
	*remains
	item []int32 // by item: its place in the ring at hand, from 1; 0 where it is in none
	pair []int32 // by pair: the same
	in   []bool  // by item: whether it is in the ring at hand
	done []bool  // by pair: whether its ring was at hand
}

// skip finds what the pairs that are due come to, ring by ring. Of several items that
// have nothing left it returns the one that is found first where all is met in rounds, if
// it matters which.
func (m *remains) skip() (empty int, err error) {
	all := &rings{m, make([]int32, len(m.items)), make([]int32, len(m.pairs)), make([]bool, len(m.items)), make([]bool, len(m.pairs))}
	var settled []*ring
	first := emptied{item: none}
	due := m.takeDue()
	for _, p := range due {
		if all.done[p] {
			continue
		}
		r, at, err := all.settle(p, due)
		switch {
		case err != nil:
			return none, err
		case at.item == none:
			settled = append(settled, r)
		case !m.named:
			return at.item, nil
		case first.item == none || at.before(first):
			first = at
		}
	}
	if first.item == none {
		m.narrowTo(settled)
	}
	return first.item, nil
}

// settle settles the ring of a pair.
func (a *rings) settle(p int, due []int) (*ring, emptied, error) {
	if a.named && a.patience > 0 {
		r := a.gather(p, true)
		for _, d := range due {
			r.mark(d)
		}
		// Both ends move at once, in the order in which sets would be pruned: an item that is left
		// no price is the one that would be found. That may take too long.
		r.only = [2]bool{true, true}
		at, done := r.move(func() bool { return r.met < mostNamed })
		a.patience -= r.met
		a.leave(r, done)
		if done {
			return r, at, nil
		}
	}
	r := a.gather(p, false)
	at, err := r.settle()
	a.leave(r, true)
	return r, at, err
}

// takeDue takes the pairs that are due, in order.
func (m *remains) takeDue() []int {
	out := make([]int, 0, m.due.left)
	for m.due.left > 0 {
		if p, ok := m.due.next(); ok {
			out = append(out, p)
		}
	}
	m.due.clear()
	slices.Sort(out)
	return out
}

// gather returns the ring of a pair: its pairs in their order where it is named, else as
// they follow from it.
func (a *rings) gather(from int, named bool) *ring {
	r := &ring{all: a, named: named, pairs: []int{from}}
	a.done[from] = true
	ends := []int{a.pairs[from].before, a.pairs[from].next}
	r.items = a.tied(a.in, func(i, p int) bool {
		if a.done[p] || !a.holds[a.pairs[p].rule] || a.waits.at(i, p) {
			return false
		}
		a.done[p] = true
		r.pairs = append(r.pairs, p)
		return true
	}, slices.Compact(ends)...)
	for n, i := range r.items {
		a.item[i] = int32(n + 1)
	}
	if named {
		slices.Sort(r.pairs)
	}
	for n, p := range r.pairs {
		a.pair[p] = int32(n + 1)
	}
	r.ready()
	return r
}

// leave puts a ring away, for good or to be gathered again.
func (a *rings) leave(r *ring, done bool) {
	for _, i := range r.items {
		a.item[i], a.in[i] = 0, false
	}
	for _, p := range r.pairs {
		a.pair[p], a.done[p] = 0, done
	}
}

// narrowTo leaves the items of rings what these come to. Where not only ends move, all
// pairs are due again.
func (m *remains) narrowTo(settled []*ring) {
	for _, r := range settled {
		for n, i := range r.items {
			m.cut(i, run{r.ends[n].at[lowEnd], r.ends[n].at[highEnd]})
		}
	}
	m.due.clear()
	for _, r := range settled {
		if r.simple {
			continue
		}
		for _, p := range r.pairs {
			m.due.mark(p)
		}
	}
}
