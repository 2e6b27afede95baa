package rule

import "example.com/quoin"

// choose takes a price of each item out of what is left, which holds no more after
// it: each choice of the nearest is left alone in its set.
func (m *remains) choose(choose Choice) ([]quoin.Amount, error) {
	end := Set.Least
	if choose == Greatest {
		end = Set.Greatest
	} else if choose != Least {
		return m.nearest()
	}
	out := make([]quoin.Amount, len(m.sets))
	for i, s := range m.sets {
		out[i], _ = end(s)
	}
	return out, nil
}

func (m *remains) nearest() ([]quoin.Amount, error) {
	out := make([]quoin.Amount, len(m.sets))
	if len(m.pairs) > 0 {
		m.waits = m.newWaits()
	}
	for i := range m.sets {
		if len(m.with(i)) == 0 {
			out[i] = m.sets[i].nearest(m.items[i].Today)
			continue
		}
		var err error
		if out[i], err = m.fix(i); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// mostRefused bounds the prices of an item that are nearer and hold with nothing.
const mostRefused = 10_000

// fix takes the nearest price of an item that leaves all others one. Where ladders make
// a ring, a price may have a partner on each of them and still hold with no price of
// the others together; that one is passed over. The least always holds.
func (m *remains) fix(i int) (quoin.Amount, error) {
	for range mostRefused {
		price, since := m.sets[i].nearest(m.items[i].Today), m.begin()
		m.put(i, Between(m.sets[i].grid, price, price))
		for _, p := range m.with(i) {
			if m.holds[m.pairs[p].rule] {
				m.due.mark(p)
			}
		}
		empty, err := m.prune()
		if err != nil || empty == none {
			return price, err
		}
		m.takeBack(since, nil)
		m.begin()
		rest, err := m.sets[i].Without(Between(m.sets[i].grid, price, price))
		if err != nil {
			return quoin.Amount{}, err
		}
		m.put(i, rest)
	}
	return quoin.Amount{}, tooFine("ladders that make a ring in which few prices hold together")
}

// nearest returns the price of a nonempty set nearest to p, the lower of two
// as near; the least where there is no p.
func (s Set) nearest(p quoin.Optional[quoin.Amount]) quoin.Amount {
	today, given := p.Get()
	if !given {
		return s.grid.Price(s.first())
	}
	at := s.grid.Ceil(today)
	above, higher := s.next(at)
	below, lower := s.prev(at - 1)
	switch {
	case !higher:
		return s.grid.Price(below)
	case !lower:
		return s.grid.Price(above)
	}
	low, high := s.grid.Price(below), s.grid.Price(above)
	if !high.Equal(today) && today.Sub(low).Cmp(high.Sub(today)) <= 0 {
		return low
	}
	return high
}

// waits says where the move of an item need not go on while prices are chosen in
// turn: into a branch of a tree of ladders, all of which is chosen after the item.
// What the branch is left follows from the price of the item, as soon as that is
// chosen, and from nothing else on this side of it. Without this every choice would
// move all of a ladder.
type waits struct {
	parent []int // by item: the pair that leads to the first of its tree
	first  []int // by item: the first of its branch; none where ladders make a ring
	in     *remains
}

// at reports whether a move of item i may wait before a pair it is in.
func (w *waits) at(i, pair int) bool {
	if w == nil || pair == w.parent[i] {
		return false
	}
	return w.first[w.in.pairs[pair].other(i)] > i
}

func (m *remains) newWaits() *waits {
	w := &waits{parent: make([]int, len(m.items)), first: make([]int, len(m.items)), in: m}
	seen := make([]bool, len(m.items))
	for i := range m.items {
		if !seen[i] {
			w.plant(i, seen)
		}
	}
	return w
}

// plant goes through all that ladders tie to an item: a tree, unless it comes twice
// to the same item.
func (w *waits) plant(root int, seen []bool) {
	tree := true
	w.parent[root] = none
	tied := w.in.tied(seen, func(i, p int) bool {
		if p == w.parent[i] || !w.in.holds[w.in.pairs[p].rule] {
			return false
		}
		next := w.in.pairs[p].other(i)
		if seen[next] {
			tree = false
		} else {
			w.parent[next] = p
		}
		return true
	}, root)
	for _, i := range tied {
		w.first[i] = i
		if !tree {
			w.first[i] = none
		}
	}
	for n := len(tied) - 1; n > 0; n-- {
		above := w.in.pairs[w.parent[tied[n]]].other(tied[n])
		w.first[above] = min(w.first[above], w.first[tied[n]])
	}
}
