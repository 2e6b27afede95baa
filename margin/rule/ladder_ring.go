package rule

import "math"

// ring is items that ladders tie together, and the least and the greatest price that each
// is left. These are moved as the sets of the items would be, pair by pair in rounds; where
// all goes on as it did, the rounds between are left out.
type ring struct {
	all    *rings
	items  []int
	ends   []ends // by item
	pairs  []int
	pushes [][4]push // by pair, in the order in which they are made: two on the next size
	due    turns
	round  int64
	met    int     // pairs that were met
	named  bool    // the pairs are in their order, and met in that of pruning
	only   [2]bool // the ends that are moved
	// simple says that no set moves but at its ends, and small that all numbers fit.
	simple, small bool
	window        window
}

// ends are the least and the greatest price that an item is left.
type ends struct {
	set Set
	at  [2]int64
	by  *push // that moved the least last
	// In this window: what the ends were, and how near they came to each other.
	was     [2]int64
	moved   bool
	between int64
}

// push is one bound of a step: it moves the least price of one size up, or the greatest
// down, to where the other size has it.
type push struct {
	bound
	from, to int32 // places of items in the ring
	// In this window: how far, in parts of the denominator of times, the end was beyond
	// what is asked of it, and from where it would have been moved further; at the least.
	seen       bool
	over, room i128
}

// emptied is where a ring leaves an item no price: when that is found, by round and pair,
// and which item.
type emptied struct {
	round int64
	pair  int
	item  int
}

// before reports whether pruning round by round comes to a before b.
func (a emptied) before(b emptied) bool {
	return a.round < b.round || a.round == b.round && a.pair < b.pair
}

// ready makes a ring of the items and pairs that were gathered.
func (r *ring) ready() {
	r.ends, r.pushes, r.due = make([]ends, len(r.items)), make([][4]push, len(r.pairs)), newTurns(len(r.pairs), !r.named)
	for n, i := range r.items {
		s := r.all.sets[i]
		r.ends[n] = ends{set: s, at: [2]int64{s.first(), s.last()}}
	}
	r.simple, r.small = true, true
	for n, p := range r.pairs {
		pair := &r.all.pairs[p]
		c, before, next := pair.climb, r.all.item[pair.before]-1, r.all.item[pair.next]-1
		for end := range 2 {
			r.pushes[n][end] = push{bound: c.bounds[up][end], from: before, to: next}
			r.pushes[n][2+end] = push{bound: c.bounds[down][end], from: next, to: before}
		}
		_, ahead := c.single(r.ends[before].set, up)
		_, back := c.single(r.ends[next].set, down)
		r.simple = r.simple && ahead && back
		for _, p := range r.pushes[n] {
			r.small = r.small && (p.times == nil || p.times.d != 0)
		}
	}
}

// mark makes a pair due that is in the ring, by its number among all.
func (r *ring) mark(p int) {
	if at := r.all.pair[p]; at > 0 {
		r.due.mark(int(at - 1))
	}
}

const (
	// mostMet bounds how many pairs of a ring are met for one of its ends, beside
	// mostTimes each, before it is given up.
	mostMet   = 1 << 20
	mostTimes = 1 << 6
	// mostNamed bounds how many are met in the order in which sets would move, where it
	// matters which item is left without a price.
	mostNamed = 1 << 14
	// mostPatience is how many of all rings in one decision.
	mostPatience = 1 << 20
	// firstLook is how many are met before the ring is looked at as a whole.
	firstLook = 1 << 8
)

// settle moves the ends until nothing moves, or an item has no price left. The least
// prices are moved before the greatest: where they have come to stand, they hold together.
func (r *ring) settle() (emptied, error) {
	for end := range r.only {
		r.only = [2]bool{lowEnd: end == lowEnd, highEnd: end == highEnd}
		for _, p := range r.pairs {
			r.mark(p)
		}
		look, most := r.met+firstLook, r.met+mostMet+mostTimes*len(r.pairs)
		rises := none
		at, done := r.move(func() bool {
			if r.met >= look {
				look, rises = r.met+r.met, r.rising()
			}
			return rises == none && r.met < most
		})
		switch {
		case rises != none:
			return emptied{math.MaxInt64, 0, r.items[rises]}, nil
		case !done:
			return at, r.all.creeping(r.pairs[0], mostMet)
		case at.item != none:
			return at, nil
		}
	}
	return emptied{item: none}, nil
}

// move moves ends round by round as long as it may go on; false where it may not and
// something still moves.
func (r *ring) move(goOn func() bool) (emptied, bool) {
	r.open(len(r.pairs))
	for r.due.left > 0 {
		for at, ok := r.due.next(); ok; at, ok = r.due.next() {
			r.met++
			if item := r.meet(at); item != none {
				return emptied{r.round, r.pairs[at], r.items[item]}, true
			}
		}
		r.round++
		r.watch()
		if !goOn() {
			return emptied{item: none}, false
		}
	}
	return emptied{item: none}, true
}

// meet makes the pushes of a pair. It returns the item that has no price left, or none.
func (r *ring) meet(at int) int {
	pushes := &r.pushes[at]
	if r.all.pairs[r.pairs[at]].climb.kind == crossed {
		return int(pushes[0].to)
	}
	for n := 0; n < 4; n += 2 {
		to := pushes[n].to
		least, greatest := r.push(&pushes[n]), r.push(&pushes[n+1])
		if !least && !greatest {
			continue
		}
		e := &r.ends[to]
		if e.at[lowEnd] > e.at[highEnd] {
			return int(to)
		}
		e.between = min(e.between, e.at[highEnd]-e.at[lowEnd])
		item := r.items[to]
		for _, p := range r.all.with(item) {
			if !r.all.waits.at(item, p) {
				r.mark(p)
			}
		}
	}
	return none
}

// push makes a push, and reports whether an end moved.
func (r *ring) push(p *push) bool {
	if p.times == nil || !r.only[p.end] {
		return false
	}
	e, from := &r.ends[p.to], r.ends[p.from].at[p.end]
	to, n := e.at[p.end], e.set.grid.Len()
	if reached := p.reach(from, n); p.end == lowEnd {
		to = max(to, reached)
	} else {
		to = min(to, reached)
	}
	if to == e.at[p.end] {
		r.window.saw(p, from, to, none)
		return false
	}
	beyond := to
	if p.end == lowEnd {
		to, beyond = e.atLeast(to)
		e.by = p
	} else {
		to, beyond = e.atMost(to)
	}
	r.window.moves(e, p.to)
	e.at[p.end] = to
	r.window.saw(p, from, to, max(to-beyond, beyond-to))
	return true
}

// atLeast returns the least price of the set from i on, beyond the grid where there is
// none, and the one before it, if the pattern of the set went on.
func (e *ends) atLeast(i int64) (at, before int64) {
	at, ok := e.set.next(i)
	if !ok {
		return e.set.grid.Len() + 1, i
	}
	return at, e.set.comb.prev(at - 1)
}

// atMost is atLeast from above.
func (e *ends) atMost(i int64) (at, after int64) {
	at, ok := e.set.prev(i)
	if !ok {
		return 0, i
	}
	return at, e.set.comb.next(at + 1)
}
