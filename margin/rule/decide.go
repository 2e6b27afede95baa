package rule

import (
	"fmt"
	"slices"

	"example.com/quoin"
)

// Choice says which of the allowed prices is taken.
type Choice string

const (
	// Nearest takes the price nearest to today's; also when empty. A price that keeps
	// the rules stays as it is. Ties go down, product by product in order, each choice
	// pruning the rest before the next; a product without a price today takes its
	// least. A price with which the products after it would be left none, as rings of
	// ladders can have, is passed over.
	Nearest  Choice = "nearest"
	Least    Choice = "least"    // the least of each product
	Greatest Choice = "greatest" // the greatest of each product
)

// UnmarshalText reads least, greatest or nearest.
func (c *Choice) UnmarshalText(text []byte) (err error) {
	*c, err = quoin.Word(string(text), Nearest, Least, Greatest)
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
	lost  []bool // by rule: whether it was dropped
	ladders
}

// Decide finds the prices that the rules allow the items, all on one grid, and
// chooses. It errs, with a Problem, where prices break into more runs than can
// be told apart.
func Decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	d, err := decide(items, rules, choose)
	return d, of("rules", err)
}

func decide(items []Item, rules []Rule, choose Choice) (Decision, error) {
	musts, prefers := byStrength(rules)
	s, err := newSolver(items, rules, slices.Concat(musts, prefers))
	if err != nil {
		return Decision{}, err
	}
	d := Decision{ByRule: s.byRule, items: items, rules: rules, ladders: s.ladders}
	m := s.remains()
	empty, err := m.join(musts...)
	if err != nil {
		return Decision{}, err
	}
	if empty != none {
		group, err := s.smallestConflict(musts)
		d.Conflict, d.Gaps = d.ids(group), d.gaps(group)
		return d, err
	}
	if err := d.prefer(m, prefers); err != nil {
		return Decision{}, err
	}
	d.Allowed = slices.Clone(m.sets)
	d.Prices, err = m.choose(choose)
	return d, err
}

// byStrength returns the places of the rules that must hold, and of those that are
// preferred.
func byStrength(rules []Rule) (musts, prefers []int) {
	for i, r := range rules {
		if r.Strength == Prefer {
			prefers = append(prefers, i)
		} else {
			musts = append(musts, i)
		}
	}
	return musts, prefers
}

// prefer adds the preferences that leave a price, in order, and drops the others.
func (d *Decision) prefer(m *remains, prefers []int) error {
	d.lost = make([]bool, len(d.rules))
	for _, r := range prefers {
		empty, err := m.join(r)
		if err != nil {
			return err
		}
		if empty != none {
			d.Dropped = append(d.Dropped, d.rules[r].ID)
			d.Emptied = append(d.Emptied, d.items[empty].ID)
			d.lost[r] = true
		}
	}
	return nil
}

// solver holds what each rule allows each item, and what ladders tie together.
type solver struct {
	items   []Item
	rules   []Rule
	whole   []Set // by item: its grid
	byRule  [][]Set
	narrows [][]int // by rule: the items of whose prices it takes some away
	ladders
}

// newSolver takes the order in which pairs of ladders are gone through.
func newSolver(items []Item, rules []Rule, order []int) (*solver, error) {
	s := &solver{items: items, rules: rules, whole: make([]Set, len(items)), ladders: newLadders(items, rules, order)}
	for i := range items {
		s.whole[i] = All(items[i].Grid)
	}
	for n := range rules {
		row, narrows, err := s.solve(&rules[n])
		if err != nil {
			return nil, of(fmt.Sprintf("rules[%d]", n), err)
		}
		s.byRule, s.narrows = append(s.byRule, row), append(s.narrows, narrows)
	}
	return s, nil
}

// solve returns what a rule allows each item, and of which it takes prices away. A
// ladder, and a rule that does not speak of an item, allow it all.
func (s *solver) solve(r *Rule) (row []Set, narrows []int, err error) {
	row = slices.Clone(s.whole)
	if _, step := r.Kind.(Step); step {
		return row, nil, nil
	}
	speaks := speaker(r)
	for i, it := range s.items {
		if !speaks(it.ID) {
			continue
		}
		if row[i], err = r.Kind.allowed(it, r.offers(it)); err != nil {
			return nil, nil, err
		}
		if !row[i].spans(s.whole[i]) {
			narrows = append(narrows, i)
		}
	}
	return row, narrows, nil
}

// speaker is Rule.SpeaksOf for many products.
func speaker(r *Rule) func(product string) bool {
	if len(r.Products) == 0 {
		return func(string) bool { return true }
	}
	named := make(map[string]bool, len(r.Products))
	for _, p := range r.Products {
		named[p] = true
	}
	return func(product string) bool { return named[product] }
}

// of says where a problem is that was found without knowing.
func of(path string, err error) error {
	if p, ok := err.(quoin.Problem); ok && p.Path == "" {
		p.Path = path
		return p
	}
	return err
}
