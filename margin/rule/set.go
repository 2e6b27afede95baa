package rule

import (
	"fmt"
	"iter"
	"slices"
	"sort"
	"strings"

	"example.com/quoin"
)

// Set is an immutable set of prices on a grid: runs of neighbouring prices and, if there is a
// pattern of endings, only those prices that fit it. All, Between, Only and Rule.Allowed make
// sets. And, Or, Without and Complement combine them. The zero value is the empty set, on every
// grid.
type Set struct {
	grid quoin.Grid
	// runs are sorted and disjoint, never touch, and begin and end on members.
	runs []run
	comb *comb
}

// run is the grid indexes from first to last.
type run struct{ first, last int64 }

// All returns every price of the grid.
func All(g quoin.Grid) Set { return between(g, 1, g.Len()) }

// Between returns the prices from least to most, both included.
func Between(g quoin.Grid, least, most quoin.Amount) Set {
	return between(g, g.Ceil(least), g.Floor(most))
}

func between(g quoin.Grid, first, last int64) Set {
	s := Set{grid: g}
	if first <= last {
		s.runs = []run{{first, last}}
	}
	return s
}

// Grid returns the grid that the set's prices are of.
func (s Set) Grid() quoin.Grid { return s.grid }

// IsEmpty reports whether no price is in the set.
func (s Set) IsEmpty() bool { return len(s.runs) == 0 }

// Least returns the least price; false for the empty set.
func (s Set) Least() (quoin.Amount, bool) {
	if s.IsEmpty() {
		return quoin.Amount{}, false
	}
	return s.grid.Price(s.first()), true
}

// Greatest returns the greatest price; false for the empty set.
func (s Set) Greatest() (quoin.Amount, bool) {
	if s.IsEmpty() {
		return quoin.Amount{}, false
	}
	return s.grid.Price(s.last()), true
}

func (s Set) first() int64 { return s.runs[0].first }
func (s Set) last() int64  { return s.runs[len(s.runs)-1].last }

// Contains reports whether p is in the set.
func (s Set) Contains(p quoin.Amount) bool {
	i := onGrid(s.grid, p)
	return i > 0 && s.has(i)
}

func (s Set) has(i int64) bool {
	at := s.runAt(i)
	return at < len(s.runs) && s.runs[at].first <= i && s.comb.has(i)
}

// runAt returns the first run that does not end before i.
func (s Set) runAt(i int64) int {
	return sort.Search(len(s.runs), func(j int) bool { return s.runs[j].last >= i })
}

// Next returns the least price in the set that is at least p.
func (s Set) Next(p quoin.Amount) (quoin.Amount, bool) {
	i, ok := s.next(s.grid.Ceil(p))
	return s.grid.Price(i), ok
}

// Prev returns the greatest price in the set that is at most p.
func (s Set) Prev(p quoin.Amount) (quoin.Amount, bool) {
	i, ok := s.prev(s.grid.Floor(p))
	return s.grid.Price(i), ok
}

func (s Set) next(i int64) (int64, bool) {
	at := s.runAt(i)
	if at == len(s.runs) {
		return 0, false
	}
	// A run ends on a member, so there is one at or after i.
	return s.comb.next(max(i, s.runs[at].first)), true
}

func (s Set) prev(i int64) (int64, bool) {
	at := sort.Search(len(s.runs), func(j int) bool { return s.runs[j].first > i }) - 1
	if at < 0 {
		return 0, false
	}
	return s.comb.prev(min(i, s.runs[at].last)), true
}

// Runs yields the runs of neighbouring prices in the set, each as its first and its last price.
// There may be very many; Next, Prev and Contains take the same time whatever their number.
func (s Set) Runs() iter.Seq2[quoin.Amount, quoin.Amount] {
	return func(yield func(first, last quoin.Amount) bool) {
		for r := range s.maximal() {
			if !yield(s.grid.Price(r.first), s.grid.Price(r.last)) {
				return
			}
		}
	}
}

func (s Set) maximal() iter.Seq[run] {
	if s.comb == nil {
		return slices.Values(s.runs)
	}
	return func(yield func(run) bool) {
		for _, r := range s.runs {
			for i := r.first; i <= r.last; {
				j := s.comb.lastNeighbour(i, r.last)
				if !yield(run{i, j}) {
					return
				}
				if j == r.last {
					break
				}
				i = s.comb.next(j + 1)
			}
		}
	}
}

// meet returns the prices in the set's and in other runs that are in a pattern.
func (s Set) meet(runs []run, of *comb) Set {
	out := Set{grid: s.grid, comb: of}
	if len(runs) == 0 {
		return out
	}
	for i, j := s.runAt(runs[0].first), 0; i < len(s.runs) && j < len(runs); {
		a, b := s.runs[i], runs[j]
		out.add(run{max(a.first, b.first), min(a.last, b.last)})
		if a.last < b.last {
			i++
		} else {
			j++
		}
	}
	return out
}

// String lists the runs of the set, at most eight of them.
func (s Set) String() string {
	var parts []string
	for first, last := range s.Runs() {
		if len(parts) == 8 {
			parts = append(parts, "…")
			break
		}
		parts = append(parts, fmt.Sprintf("%v to %v", first, last))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// add appends what r holds of the pattern. Runs come in order; one that
// touches the last joins it.
func (s *Set) add(r run) {
	if r.first > r.last {
		return
	}
	if s.comb != nil {
		first := s.comb.next(r.first)
		if first > r.last {
			return
		}
		r = run{first, s.comb.prev(r.last)}
	}
	if n := len(s.runs); n > 0 && r.first <= s.runs[n-1].last+1 {
		s.runs[n-1].last = max(s.runs[n-1].last, r.last)
		return
	}
	s.runs = append(s.runs, r)
}
