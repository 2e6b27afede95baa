package rule

import (
	"slices"

	"example.com/quoin"
)

// Gap is how far apart the rules of a conflict are about one product: a floor
// above a ceiling, and the rules that set each, through ladders from the rule
// that started it to the last step.
type Gap struct {
	Product   string       `json:"product"`
	Floor     quoin.Amount `json:"floor"`
	FloorBy   []string     `json:"floor_by"`
	Ceiling   quoin.Amount `json:"ceiling"`
	CeilingBy []string     `json:"ceiling_by"`
}

// limit is one bound on the prices of an item and the rules that set it; no
// rules where it is the grid's own.
type limit struct {
	at int64
	by []int
}

// gaps returns where the group's floors stand above its ceilings: of products
// by themselves where there are such, else of the first that a ladder pushes
// so far. There may be none: then the rules meet, but in no price.
func (d Decision) gaps(group []int) []Gap {
	floor, ceiling := make([]limit, len(d.items)), make([]limit, len(d.items))
	for i, it := range d.items {
		floor[i], ceiling[i] = limit{at: 1}, limit{at: it.Grid.Len()}
		for _, r := range group {
			set := d.ByRule[r][i]
			if set.IsEmpty() {
				return nil // the rule by itself allows nothing up to the limit
			}
			if set.first() > floor[i].at {
				floor[i] = limit{set.first(), []int{r}}
			}
			if set.last() < ceiling[i].at {
				ceiling[i] = limit{set.last(), []int{r}}
			}
		}
	}
	if found := d.apart(floor, ceiling); len(found) > 0 {
		return found
	}
	for range 4 * len(d.items) * len(group) {
		d.push(group, floor, ceiling)
		if found := d.apart(floor, ceiling); len(found) > 0 {
			return found[:1]
		}
	}
	return nil
}

func (d Decision) apart(floor, ceiling []limit) []Gap {
	var out []Gap
	for i, it := range d.items {
		if floor[i].at <= ceiling[i].at {
			continue
		}
		out = append(out, Gap{
			Product: it.ID, Floor: it.Grid.Price(floor[i].at), FloorBy: d.ids(floor[i].by),
			Ceiling: it.Grid.Price(ceiling[i].at), CeilingBy: d.ids(ceiling[i].by),
		})
	}
	return out
}

func (d Decision) ids(rules []int) []string {
	out := make([]string, len(rules))
	for i, r := range rules {
		out[i] = d.rules[r].ID
	}
	return out
}

// push moves floors and ceilings once over every step of the group.
func (d Decision) push(group []int, floor, ceiling []limit) {
	for _, r := range group {
		for _, p := range pairsOf(d.rules[r:r+1], d.index) {
			n := d.items[p.next].Grid.Len()
			low, high := multiplier(p.step.AtLeast), multiplier(p.step.AtMost)
			if low != nil && low.a.Sign() > 0 {
				raise(&floor[p.next], low.ceil(floor[p.before].at, n), floor[p.before], r)
				lower(&ceiling[p.before], low.inverse().floor(ceiling[p.next].at, n), ceiling[p.next], r)
			}
			if high != nil && high.a.Sign() > 0 {
				raise(&floor[p.before], high.inverse().ceil(floor[p.next].at, n), floor[p.next], r)
				lower(&ceiling[p.next], high.floor(ceiling[p.before].at, n), ceiling[p.before], r)
			}
		}
	}
}

func raise(l *limit, to int64, from limit, by int) {
	if to > l.at {
		*l = limit{to, through(from, by)}
	}
}

func lower(l *limit, to int64, from limit, by int) {
	if to < l.at {
		*l = limit{to, through(from, by)}
	}
}

func through(from limit, by int) []int {
	if slices.Contains(from.by, by) {
		return from.by
	}
	return append(slices.Clone(from.by), by)
}

// Involved returns the items that the conflict is about: those for which its
// rules by themselves leave no price; where a ladder is in it and there are
// none, those on the ladder.
func (d Decision) Involved() []int {
	var alone, ladder []int
	for i := range d.items {
		left := All(d.items[i].Grid)
		for r, rule := range d.rules {
			if !slices.Contains(d.Conflict, rule.ID) {
				continue
			}
			if _, step := rule.Kind.(Step); step && slices.Contains(rule.Products, d.items[i].ID) && !slices.Contains(ladder, i) {
				ladder = append(ladder, i)
			}
			if both, err := left.And(d.ByRule[r][i]); err == nil {
				left = both
			}
		}
		if left.IsEmpty() {
			alone = append(alone, i)
		}
	}
	if len(alone) > 0 {
		return alone
	}
	return ladder
}

// Rules returns the rules that were decided, in order.
func (d Decision) Rules() []Rule { return d.rules }

// Fit reports whether rules can hold together for the items, whatever their
// strength.
func Fit(items []Item, rules []Rule) (bool, error) {
	s, err := newSolver(items, rules)
	if err != nil {
		return false, err
	}
	group := make([]int, len(rules))
	for i := range group {
		group[i] = i
	}
	_, empty, err := s.together(group)
	return empty == none, err
}
