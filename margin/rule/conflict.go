package rule

import "slices"

// mostGroups bounds how many groups of rules are tried for a smaller conflict.
const mostGroups = 20_000

// smallestConflict returns a group of the rules that cannot hold together with
// as few rules as there can be, the first in order of those; more rules than
// can be gone through give a group from which none can be taken away.
func (s *solver) smallestConflict(rules []int) ([]int, error) {
	group, err := s.remains().explain(rules)
	if err != nil {
		group, err = s.without(rules)
	}
	if err != nil {
		return nil, err
	}
	tried, sound := 0, &sound{rules: rules, left: make([]int, len(s.rules)), m: s.remains()}
	for size := 1; size <= len(group); size++ {
		found, err := sound.firstConflict(size, &tried)
		if err != nil || found != nil {
			return found, err
		}
		if tried > mostGroups {
			break
		}
	}
	return group, nil
}

// explain returns those of some rules that conflict with what is in, in order: all of
// them together do. From the first on, every rule is left out without which the rest still
// conflicts. What stays is found by halves (Junker, "QuickXplain: preferred explanations and
// relaxations for over-constrained problems", AAAI 2004; from memory), the last rules being
// those that rather stay.
func (m *remains) explain(rules []int) ([]int, error) {
	if len(rules) == 1 {
		return rules, nil
	}
	first, last := rules[:len(rules)/2], rules[len(rules)/2:]
	since := len(m.past)
	empty, err := m.join(last...)
	if err != nil {
		return nil, err
	}
	if empty != none {
		return m.explain(last)
	}
	of, err := m.explain(first)
	m.takeBack(since, last)
	if err != nil {
		return nil, err
	}
	since = len(m.past)
	if empty, err = m.join(of...); err != nil || empty != none {
		return of, err
	}
	rest, err := m.explain(last)
	m.takeBack(since, of)
	return slices.Concat(of, rest), err
}

// without is explain rule by rule. It asks of no group that is not on the way
// whether it holds, and that may be more than can be said.
func (s *solver) without(rules []int) ([]int, error) {
	group := slices.Clone(rules)
	m := s.remains()
	for i := 0; i < len(group); {
		rest := slices.Delete(slices.Clone(group), i, i+1)
		holds, err := m.holdsWith(rest...)
		if err != nil {
			return nil, err
		}
		if holds {
			i++
		} else {
			group = rest
		}
	}
	return group, nil
}

// sound is what is known of the groups of rules that hold. Every part of one holds
// too, and need not be tried.
type sound struct {
	rules  []int
	groups [][]bool // by rule: whether it is in
	left   []int    // by rule: how many of them it is left out of
	m      *remains // of no rule
}

// mostSound bounds the groups that are known to hold.
const mostSound = 64

// firstConflict goes through the groups of one size in order.
func (k *sound) firstConflict(size int, tried *int) ([]int, error) {
	at, group := make([]int, size), make([]int, size)
	for i := range at {
		at[i] = i
	}
	for *tried <= mostGroups {
		*tried++
		for i, j := range at {
			group[i] = k.rules[j]
		}
		holds, err := k.holds(group)
		if err != nil {
			return nil, err
		}
		if !holds {
			return group, nil
		}
		if !advance(at, len(k.rules)) {
			return nil, nil
		}
	}
	return nil, nil
}

func (k *sound) holds(group []int) (bool, error) {
	if k.known(group) {
		return true, nil
	}
	if len(k.groups) == mostSound {
		return k.m.holdsWith(group...)
	}
	empty, err := k.m.join(group...)
	if err != nil || empty != none {
		return false, err
	}
	k.grow(group)
	return true, nil
}

func (k *sound) known(group []int) bool {
	for _, in := range k.groups {
		if !slices.ContainsFunc(group, func(r int) bool { return !in[r] }) {
			return true
		}
	}
	return false
}

// grow adds to a group that holds every rule with which it still does, those first
// that were left out most often, and goes back to no rule.
func (k *sound) grow(group []int) {
	in := marked(len(k.left), group)
	order := slices.Clone(k.rules)
	slices.SortStableFunc(order, func(a, b int) int { return k.left[b] - k.left[a] })
	for _, r := range order {
		if in[r] {
			continue
		}
		empty, err := k.m.join(r)
		in[r] = err == nil && empty == none
		if !in[r] {
			k.left[r]++
		}
	}
	k.groups = append(k.groups, in)
	k.m.takeBack(0, k.rules)
}

// advance moves at to the next choice of indexes below n; false after the last.
func advance(at []int, n int) bool {
	for i := len(at) - 1; i >= 0; i-- {
		if at[i] < n-len(at)+i {
			at[i]++
			for j := i + 1; j < len(at); j++ {
				at[j] = at[j-1] + 1
			}
			return true
		}
	}
	return false
}
