package rule

import (
	"fmt"
	"slices"

	"example.com/quoin"
)

// Choice says which of the allowed prices is taken.
type Choice string

const (
	Least    Choice = "least"    // the least of each product; also when empty
	Greatest Choice = "greatest" // the greatest of each product
	// Nearest takes the price nearest to today's, ties going down, product by
	// product in order, each choice pruning the rest before the next; a
	// product without a price today takes its least.
	Nearest Choice = "nearest"
)

// UnmarshalText reads least, greatest or nearest.
func (c *Choice) UnmarshalText(text []byte) (err error) {
	*c, err = quoin.Word(string(text), Least, Greatest, Nearest)
	return err
}

// Decision is what the rules come to.
type Decision struct {
	// Allowed is, for each item, the prices that all must rules and all kept
	// preferences allow, each with a partner on every ladder. It is empty on a
	// conflict.
	Allowed []Set
	// Prices is the chosen price of each item; empty on a conflict.
	Prices []quoin.Amount
	// Dropped names the preferences that would have left no price, in order,
	// and Emptied the item that each would have left without one.
	Dropped []string
	Emptied []string
	// Conflict names a smallest group of must rules that cannot hold together:
	// drop any one of them and the rest can. Of several groups of that size it
	// is the first in the order of the rules. Empty where there is none.
	Conflict []string
	// Gaps is how far apart the rules of the conflict are, where a floor stands
	// above a ceiling.
	Gaps []Gap
	// ByRule is what each rule by itself allows each item, in the order of the
	// rules and items given.
	ByRule [][]Set

	items []Item
	rules []Rule
	index map[string]int
}

// Decide finds the prices that the rules allow the items, all on one grid, and
// chooses. It errs, with a Problem, where prices break into more runs than can
// be told apart.
func Decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	d, err := decide(items, rules, choose)
	return d, of("rules", err)
}

func decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	s, err := newSolver(items, rules)
	if err != nil {
		return Decision{}, err
	}
	var musts, prefers []int
	for i, r := range rules {
		if r.Strength == Prefer {
			prefers = append(prefers, i)
		} else {
			musts = append(musts, i)
		}
	}
	d := Decision{ByRule: s.byRule, items: items, rules: rules, index: s.index}
	kept, empty, err := s.together(musts)
	if err != nil {
		return Decision{}, err
	}
	if empty != none {
		group, err := s.smallestConflict(musts)
		d.Conflict, d.Gaps = d.ids(group), d.gaps(group)
		return d, err
	}
	keptRules := musts
	for _, i := range prefers {
		with, empty, err := s.join(kept, append(slices.Clone(keptRules), i))
		if err != nil {
			return Decision{}, err
		}
		if empty != none {
			d.Dropped = append(d.Dropped, rules[i].ID)
			d.Emptied = append(d.Emptied, items[empty].ID)
			continue
		}
		kept, keptRules = with, append(keptRules, i)
	}
	d.Allowed = kept
	d.Prices, err = s.choose(kept, keptRules, choose)
	return d, err
}

// solver holds what each rule allows each item.
type solver struct {
	items  []Item
	rules  []Rule
	byRule [][]Set
	index  map[string]int // of the items, by id
}

func newSolver(items []Item, rules []Rule) (*solver, error) {
	s := &solver{items: items, rules: rules, index: make(map[string]int, len(items))}
	for i, it := range items {
		s.index[it.ID] = i
	}
	left := mostTried
	for n, r := range rules {
		row := make([]Set, len(items))
		for i, it := range items {
			var err error
			it.left = &left
			if row[i], err = r.Allowed(it); err != nil {
				return nil, of(fmt.Sprintf("rules[%d]", n), err)
			}
		}
		s.byRule = append(s.byRule, row)
	}
	return s, nil
}

// none stands for no item, where one may be left without a price.
const none = -1

// together returns what is left for each item when a group of rules holds, and
// the item for which that is nothing, or none.
func (s *solver) together(group []int) ([]Set, int, error) {
	all := make([]Set, len(s.items))
	for i, it := range s.items {
		all[i] = All(it.Grid)
	}
	for _, r := range group {
		if empty, err := s.narrowBy(all, r); err != nil || empty != none {
			return nil, empty, err
		}
	}
	return s.prune(all, group)
}

// join adds the last rule of a group to what is left with the others.
func (s *solver) join(left []Set, group []int) ([]Set, int, error) {
	with := slices.Clone(left)
	if empty, err := s.narrowBy(with, group[len(group)-1]); err != nil || empty != none {
		return nil, empty, err
	}
	return s.prune(with, group)
}

func (s *solver) narrowBy(sets []Set, r int) (empty int, err error) {
	for i := range sets {
		if sets[i], err = sets[i].And(s.byRule[r][i]); err != nil {
			return none, err
		}
		if sets[i].IsEmpty() {
			return i, nil
		}
	}
	return none, nil
}

// pair is two neighbours on a ladder.
type pair struct {
	step         Step
	before, next int
}

// of says where a problem is that was found without knowing.
func of(path string, err error) error {
	if p, ok := err.(quoin.Problem); ok && p.Path == "" {
		p.Path = path
		return p
	}
	return err
}

func (s *solver) pairs(group []int) []pair {
	var out []pair
	for _, r := range group {
		out = append(out, pairsOf(s.rules[r:r+1], s.index)...)
	}
	return out
}

func pairsOf(rules []Rule, index map[string]int) []pair {
	var out []pair
	for _, r := range rules {
		step, ok := r.Kind.(Step)
		if !ok {
			continue
		}
		for i := range len(r.Products) - 1 {
			before, a := index[r.Products[i]]
			next, b := index[r.Products[i+1]]
			if a && b {
				out = append(out, pair{step, before, next})
			}
		}
	}
	return out
}

// mostRuns bounds the runs gone through while sets prune each other. Ladders of
// sizes are done in two rounds; only rings of them creep, a step at a time.
const mostRuns = 1 << 22

// prune takes away, pair by pair, every price without a partner, until nothing
// moves. Whatever the order, the same sets are left (the constraints are closed
// under minimum and maximum, so the least prices left, and the greatest, hold
// together).
func (s *solver) prune(sets []Set, group []int) ([]Set, int, error) {
	pairs := s.pairs(group)
	moved, gone := true, 0
	for moved {
		moved = false
		for _, p := range pairs {
			if empty, err := p.meet(sets, &moved); err != nil || empty != none {
				return nil, empty, err
			}
			gone += 2 + len(sets[p.before].runs) + len(sets[p.next].runs)
		}
		if gone > mostRuns {
			return nil, none, tooFine("ladders of sizes that keep pushing each other on")
		}
	}
	return sets, none, nil
}

// meet takes from both sizes of a pair what has no partner in the other, and
// returns the one that has nothing left, or none.
func (p pair) meet(sets []Set, moved *bool) (empty int, err error) {
	up, err := p.step.Up(sets[p.before])
	if err == nil {
		err = narrow(sets, p.next, up, moved)
	}
	if err != nil {
		return none, err
	}
	if sets[p.next].IsEmpty() {
		return p.next, nil
	}
	down, err := p.step.Down(sets[p.next])
	if err == nil {
		err = narrow(sets, p.before, down, moved)
	}
	if err == nil && sets[p.before].IsEmpty() {
		return p.before, nil
	}
	return none, err
}

func narrow(sets []Set, i int, by Set, moved *bool) error {
	s, err := sets[i].And(by)
	if err != nil {
		return err
	}
	*moved = *moved || !s.Equal(sets[i])
	sets[i] = s
	return nil
}

func (s *solver) choose(left []Set, group []int, choose Choice) ([]quoin.Amount, error) {
	out := make([]quoin.Amount, len(left))
	for i := range left {
		switch choose {
		case Greatest:
			out[i], _ = left[i].Greatest()
			continue
		case Nearest:
			out[i] = left[i].nearest(s.items[i].Today)
		default:
			out[i], _ = left[i].Least()
			continue
		}
		fixed := slices.Clone(left)
		fixed[i] = Between(left[i].grid, out[i], out[i])
		next, empty, err := s.prune(fixed, group)
		if err != nil || empty != none {
			return nil, err
		}
		left = next
	}
	return out, nil
}

// nearest returns the price of a nonempty set nearest to p, the lower of two
// as near; the least where there is no p.
func (s Set) nearest(p quoin.Optional[quoin.Amount]) quoin.Amount {
	today, given := p.Get()
	if !given {
		return s.grid.Price(s.first())
	}
	below, lower := s.Prev(today)
	above, higher := s.Next(today)
	if !higher || lower && today.Sub(below).Cmp(above.Sub(today)) <= 0 {
		return below
	}
	return above
}
