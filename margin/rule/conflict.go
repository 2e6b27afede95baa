package rule

import "slices"

// mostGroups bounds how many groups of rules are tried for a smaller conflict.
const mostGroups = 20_000

// smallestConflict returns a group of the rules that cannot hold together with
// as few rules as there can be, the first in order of those; more rules than
// can be gone through give a group from which none can be taken away.
func (s *solver) smallestConflict(rules []int) ([]int, error) {
	group, err := s.irreducible(rules)
	if err != nil {
		return nil, err
	}
	tried := 0
	for size := 1; size <= len(group); size++ {
		found, err := s.firstConflict(rules, size, &tried)
		if err != nil || found != nil {
			return found, err
		}
		if tried > mostGroups {
			break
		}
	}
	return group, nil
}

// irreducible takes away every rule without which the rest still conflicts.
func (s *solver) irreducible(rules []int) ([]int, error) {
	group := slices.Clone(rules)
	for i := 0; i < len(group); {
		without := slices.Delete(slices.Clone(group), i, i+1)
		_, empty, err := s.together(without)
		if err != nil {
			return nil, err
		}
		if empty == none {
			i++
		} else {
			group = without
		}
	}
	return group, nil
}

// firstConflict goes through the groups of one size in order.
func (s *solver) firstConflict(rules []int, size int, tried *int) ([]int, error) {
	at := make([]int, size)
	for i := range at {
		at[i] = i
	}
	for *tried <= mostGroups {
		*tried++
		group := make([]int, size)
		for i, j := range at {
			group[i] = rules[j]
		}
		_, empty, err := s.together(group)
		if err != nil {
			return nil, err
		}
		if empty != none {
			return group, nil
		}
		if !advance(at, len(rules)) {
			return nil, nil
		}
	}
	return nil, nil
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
