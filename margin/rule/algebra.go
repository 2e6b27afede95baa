package rule

import (
	"iter"
	"slices"

	"example.com/quoin"
)

// Only returns the given prices that are prices of the grid.
func Only(g quoin.Grid, prices ...quoin.Amount) Set {
	var at []int64
	for _, p := range prices {
		if i := onGrid(g, p); i > 0 {
			at = append(at, i)
		}
	}
	slices.Sort(at)
	out := Set{grid: g}
	for _, i := range at {
		out.add(run{i, i})
	}
	return out
}

// And returns the prices that are in both sets. It errs if the sets are on different grids, or
// if their patterns together repeat in too many parts. The zero Set is on every grid.
func (s Set) And(t Set) (Set, error) {
	g, err := s.common(t)
	if err != nil || s.IsEmpty() || t.IsEmpty() {
		return Set{grid: g}, err
	}
	return s.and(t)
}

// and is And of sets that are known to be on one grid.
func (s Set) and(t Set) (Set, error) {
	both, err := s.comb.and(t.comb, s.grid.Len())
	if err != nil {
		return Set{}, err
	}
	return s.meet(t.runs, both), nil
}

// common is the grid of two sets.
func (s Set) common(t Set) (quoin.Grid, error) {
	switch {
	case s.grid.Len() == 0:
		return t.grid, nil
	case t.grid.Len() == 0 || s.grid.Equal(t.grid):
		return s.grid, nil
	}
	return quoin.Grid{}, otherGrid(s.grid, t.grid)
}

// Or returns the prices that are in either set. It errs if the sets are on different grids, or
// if sets with endings together have more than about a million separate runs.
func (s Set) Or(t Set) (Set, error) {
	g, err := s.common(t)
	switch {
	case err != nil:
		return Set{}, err
	case s.IsEmpty():
		t.grid = g
		return t, nil
	case t.IsEmpty():
		return s, nil
	case s.comb.equal(t.comb):
		return s.beside(t), nil
	}
	if s, err = s.plain(); err == nil {
		t, err = t.plain()
	}
	if err != nil {
		return Set{}, err
	}
	return s.beside(t), nil
}

// beside returns the prices in the runs of either, which have one pattern.
func (s Set) beside(t Set) Set {
	out := Set{grid: s.grid, comb: s.comb}
	for i, j := 0, 0; i < len(s.runs) || j < len(t.runs); {
		if j == len(t.runs) || i < len(s.runs) && s.runs[i].first <= t.runs[j].first {
			out.add(s.runs[i])
			i++
		} else {
			out.add(t.runs[j])
			j++
		}
	}
	return out
}

// Complement returns the prices of the grid that are not in the set. It errs if a set with
// endings leaves more than about a million separate runs.
func (s Set) Complement() (Set, error) {
	n := s.grid.Len()
	if s.wholePattern() && s.comb.period <= mostTeeth {
		out := Set{grid: s.grid, comb: s.comb.others()}
		out.add(run{1, n})
		return out, nil
	}
	plain, err := s.plain()
	if err != nil {
		return Set{}, err
	}
	out, from := Set{grid: s.grid}, int64(1)
	for _, r := range plain.runs {
		out.add(run{from, r.first - 1})
		from = r.last + 1
	}
	out.add(run{from, n})
	return out, nil
}

// wholePattern reports whether the set is all prices of the grid that fit a pattern.
func (s Set) wholePattern() bool {
	n := s.grid.Len()
	return s.comb != nil && len(s.runs) == 1 && s.comb.next(1) == s.first() && s.comb.prev(n) == s.last()
}

// others is the pattern of all indexes that are not in one.
func (c *comb) others() *comb {
	teeth, at := make([]int64, 0, c.period-int64(len(c.teeth))), 0
	for i := range c.period {
		if at < len(c.teeth) && c.teeth[at] == i {
			at++
			continue
		}
		teeth = append(teeth, i)
	}
	return combOf(c.period, teeth)
}

// Without returns the prices in s that are not in t. It errs as And and Complement do.
func (s Set) Without(t Set) (Set, error) {
	g, err := s.common(t)
	if err != nil || s.IsEmpty() {
		return Set{grid: g}, err
	}
	if t.comb != nil && !t.wholePattern() { // of the others those in s are enough
		if t, err = s.And(t); err != nil {
			return Set{}, err
		}
	}
	t.grid = g
	rest, err := t.Complement()
	if err != nil {
		return Set{}, err
	}
	return s.And(rest)
}

// plain returns the set with its pattern written out as runs. It errs where they are too
// many.
func (s Set) plain() (Set, error) {
	if s.comb == nil {
		return s, nil
	}
	out := Set{grid: s.grid}
	for r := range s.maximal() {
		if out.runs = append(out.runs, r); len(out.runs) > mostTeeth {
			return Set{}, tooFine("prices with endings that are put together, or left out, one by one")
		}
	}
	return out, nil
}

// Len returns how many prices are in the set.
func (s Set) Len() int64 {
	var n int64
	for _, r := range s.runs {
		n += s.comb.upTo(r.last) - s.comb.upTo(r.first-1)
	}
	return n
}

// upTo returns how many indexes from 0 to i are in.
func (c *comb) upTo(i int64) int64 {
	if c == nil {
		return i + 1
	}
	at, found := slices.BinarySearch(c.teeth, i%c.period)
	if found {
		at++
	}
	return i/c.period*int64(len(c.teeth)) + int64(at)
}

// Prices yields the prices of the set in rising order. There may be very many.
func (s Set) Prices() iter.Seq[quoin.Amount] {
	return func(yield func(quoin.Amount) bool) {
		for r := range s.maximal() {
			for i := r.first; i <= r.last; i++ {
				if !yield(s.grid.Price(i)) {
					return
				}
			}
		}
	}
}

// Equal reports whether both sets hold the same prices, whether they are kept as runs or as
// endings. Sets on different grids are equal only if both are empty. Its time depends on the
// runs and endings, not on the prices.
func (s Set) Equal(t Set) bool {
	if s.IsEmpty() || t.IsEmpty() {
		return s.IsEmpty() && t.IsEmpty()
	}
	if !s.grid.Equal(t.grid) {
		return false
	}
	if s.alike(t) {
		return true
	}
	for at := int64(1); ; {
		i, some := s.next(at)
		j, others := t.next(at)
		if !some || !others || i != j {
			return some == others && i == j
		}
		end := min(s.runs[s.runAt(i)].last, t.runs[t.runAt(i)].last)
		if !s.comb.sameAs(t.comb, i, end) {
			return false
		}
		at = end + 1
	}
}

// alike reports whether both are kept in the same form; two that are not may still hold the
// same prices.
func (s Set) alike(t Set) bool {
	return s.grid.Equal(t.grid) && slices.Equal(s.runs, t.runs) && s.comb.equal(t.comb)
}

// sameAs reports whether patterns agree from an index that is in both up to another one.
// Patterns of periods p and q that agree on p + q neighbours agree everywhere (Fine and
// Wilf, "Uniqueness theorems for periodic functions", Proceedings of the American
// Mathematical Society 16 (1965) 109–114).
func (c *comb) sameAs(d *comb, from, to int64) bool {
	if c.equal(d) {
		return true
	}
	to = min(to, from+c.round()+d.round())
	for i := from; i <= to; {
		next := c.next(i + 1)
		if other := d.next(i + 1); other != next {
			return min(next, other) > to
		}
		i = next
	}
	return true
}

// round is after how many indexes a pattern repeats.
func (c *comb) round() int64 {
	if c == nil {
		return 1
	}
	return c.period
}
