package rule_test

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// shelf is sizes on one small grid and rules for them, in places on the grid: all that follows is
// found by trying every price.
type shelf struct {
	step  quoin.Amount
	n     int64 // of prices
	today []int64
	rules []shelfRule
}

// shelfRule is a bound, an ending or a step.
type shelfRule struct {
	prefer      bool
	of          []int // places of sizes, of a step from the first up
	low, high   int64 // 0 where there is none
	every       int64 // of an ending
	ends        []int64
	steps       bool
	least, most int64 // of a step, in twentieths; −1 where there is none
}

func (r *shelfRule) allows(p int64) bool {
	switch {
	case r.low > 0 && p < r.low, r.high > 0 && p > r.high:
		return false
	case r.every > 0:
		return slices.Contains(r.ends, p%r.every)
	}
	return true
}

// fits says whether one size may cost p where the next one costs q.
func (r *shelfRule) fits(p, q int64) bool {
	return (r.least < 0 || 20*q >= p*r.least) && (r.most < 0 || 20*q <= p*r.most)
}

// each calls do with the neighbours of steps of a group.
func (s *shelf) each(group []int, do func(r, before, next int)) {
	for _, r := range group {
		if of := s.rules[r].of; s.rules[r].steps {
			for n := range len(of) - 1 {
				do(r, of[n], of[n+1])
			}
		}
	}
}

// own is what a group leaves each size without its steps.
func (s *shelf) own(group []int) [][]bool {
	left := make([][]bool, len(s.today))
	for i := range left {
		left[i] = make([]bool, s.n+1)
		for p := int64(1); p <= s.n; p++ {
			left[i][p] = !slices.ContainsFunc(group, func(r int) bool {
				return slices.Contains(s.rules[r].of, i) && !s.rules[r].allows(p)
			})
		}
	}
	return left
}

// left takes away prices without a partner until every one has one; false where a size has none.
func (s *shelf) left(group []int) (left [][]bool, some bool) {
	left = s.own(group)
	for moved := true; moved; {
		moved = false
		s.each(group, func(r, before, next int) {
			for side, of := range [2]int{before, next} {
				other := left[before+next-of]
				for p, in := range left[of] {
					if in && !slices.ContainsFunc(between(1, s.n), func(q int64) bool {
						return other[q] && (side == 0 && s.rules[r].fits(int64(p), q) || side == 1 && s.rules[r].fits(q, int64(p)))
					}) {
						left[of][p], moved = false, true
					}
				}
			}
		})
	}
	return left, !slices.ContainsFunc(left, func(of []bool) bool { return !slices.Contains(of, true) })
}

var numbers = func() (out []int64) {
	for n := range int64(200) {
		out = append(out, n)
	}
	return out
}()

func between(from, to int64) []int64 { return numbers[from : to+1] }

// decided is the conflict, or what is kept, what is dropped and what is left.
func (s *shelf) decided() (conflict, kept, dropped []int, left [][]bool) {
	var prefers []int
	for r := range s.rules {
		if s.rules[r].prefer {
			prefers = append(prefers, r)
		} else {
			kept = append(kept, r)
		}
	}
	left, some := s.left(kept)
	for size := 1; !some; size++ {
		for _, group := range groups(kept, size) {
			if _, fit := s.left(group); !fit {
				return group, nil, nil, nil
			}
		}
	}
	for _, r := range prefers {
		if with, some := s.left(append(slices.Clone(kept), r)); some {
			kept, left = append(kept, r), with
		} else {
			dropped = append(dropped, r)
		}
	}
	slices.Sort(kept)
	return nil, kept, dropped, left
}

// chosen takes prices one size after the other, each the nearest to today's with which all sizes
// after it have one that fits all; passed counts those that were nearer.
func (s *shelf) chosen(kept []int, left [][]bool, choose rule.Choice) (prices []int64, passed int) {
	for i := range left {
		at := slices.DeleteFunc(slices.Clone(between(1, s.n)), func(p int64) bool { return !left[i][p] })
		away := func(p int64) int64 { return max(2*p-s.today[i], s.today[i]-2*p) }
		switch {
		case choose == rule.Greatest:
			slices.Reverse(at)
		case choose != rule.Least && s.today[i] > 0:
			slices.SortStableFunc(at, func(p, q int64) int { return int(away(p) - away(q)) })
		}
		for n, p := range at {
			if s.goesOn(kept, left, append(slices.Clone(prices), p)) {
				prices, passed = append(prices, p), passed+n
				break
			}
		}
	}
	return prices, passed
}

// goesOn says whether prices of the first sizes fit each other and some of the rest.
func (s *shelf) goesOn(kept []int, left [][]bool, prices []int64) bool {
	last, fit := len(prices)-1, true
	s.each(kept, func(r, before, next int) {
		if max(before, next) == last {
			fit = fit && s.rules[r].fits(prices[before], prices[next])
		}
	})
	if !fit || len(prices) == len(left) {
		return fit
	}
	return slices.ContainsFunc(between(1, s.n), func(p int64) bool {
		return left[len(prices)][p] && s.goesOn(kept, left, append(slices.Clone(prices), p))
	})
}

// edge is a floor or a ceiling, and the rules that set it.
type edge struct {
	at int64
	by []int
}

func (e *edge) push(at int64, other edge, r int, low bool) bool {
	if low && at <= e.at || !low && at >= e.at {
		return false
	}
	e.at, e.by = at, slices.Clone(other.by)
	if !slices.Contains(e.by, r) {
		e.by = append(e.by, r)
	}
	return true
}

// gaps are the sizes whose floor is above their ceiling: by rules of their own, or else the first one
// to which all steps in their order, met once more and once more, push one so far.
func (s *shelf) gaps(group []int) (out []string) {
	floors, ceilings := make([]edge, len(s.today)), make([]edge, len(s.today))
	crossed := func() (out []string) {
		for i := range floors {
			if floors[i].at > ceilings[i].at {
				out = append(out, fmt.Sprint(i, floors[i], ceilings[i]))
			}
		}
		return out
	}
	for i := range floors {
		floors[i].at, ceilings[i].at = 1, s.n
		for _, r := range group {
			if !slices.Contains(s.rules[r].of, i) {
				continue
			}
			allowed := slices.DeleteFunc(slices.Clone(between(1, s.n)), func(p int64) bool { return !s.rules[r].allows(p) })
			if len(allowed) == 0 {
				return nil
			}
			floors[i].push(allowed[0], edge{}, r, true)
			ceilings[i].push(allowed[len(allowed)-1], edge{}, r, false)
		}
	}
	if out = crossed(); len(out) > 0 {
		return out
	}
	for range 4 * len(floors) * len(group) {
		moved := false
		s.each(group, func(r, a, b int) {
			k := &s.rules[r]
			push := func(at int64, e *edge, from edge, low bool) {
				moved = e.push(min(max(at, 0), s.n+1), from, r, low) || moved
			}
			if k.least > 0 {
				push((floors[a].at*k.least+19)/20, &floors[b], floors[a], true)
				push(ceilings[b].at*20/k.least, &ceilings[a], ceilings[b], false)
			}
			if k.most > 0 {
				push((floors[b].at*20+k.most-1)/k.most, &floors[a], floors[b], true)
				push(ceilings[a].at*k.most/20, &ceilings[b], ceilings[a], false)
			}
		})
		if out = crossed(); len(out) > 0 || !moved {
			return out[:min(len(out), 1)]
		}
	}
	return nil
}

// involved are the sizes that a conflict leaves no price: by themselves, or else those of its ladders.
func (s *shelf) involved(group []int) (out []int) {
	for i, of := range s.own(group) {
		if !slices.Contains(of, true) {
			out = append(out, i)
		}
	}
	if len(out) > 0 {
		return out
	}
	tree := slices.Clone(between(0, int64(len(s.today))-1)) // by size: the first one that it is tied to
	for range s.today {
		s.each(group, func(_, a, b int) { tree[a], tree[b] = min(tree[a], tree[b]), min(tree[a], tree[b]) })
	}
	for of := range tree {
		only := *s
		only.rules = slices.Clone(s.rules)
		tied := func(i int) bool { return int(tree[i]) == of }
		for r := range only.rules {
			if of := only.rules[r].of; only.rules[r].steps {
				if !tied(of[0]) {
					only.rules[r].of = nil
				}
			} else {
				only.rules[r].of = slices.DeleteFunc(slices.Clone(of), func(i int) bool { return !tied(i) })
			}
		}
		if _, some := only.left(group); !some {
			for i := range tree {
				if tied(i) {
					out = append(out, i)
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

func (s *shelf) price(p int64) quoin.Amount { return s.step.Times(quoin.FactorOf(p)) }

func (s *shelf) items(t *rapid.T) (out []rule.Item) {
	g := must(quoin.NewGrid(s.step, s.price(s.n)))(t)
	for i, today := range s.today {
		it := rule.NewItem(fmt.Sprint("size-", i), g)
		if today > 0 {
			it.Today = quoin.Some(s.price(today).Over(quoin.FactorOf(2)))
		}
		out = append(out, it)
	}
	return out
}

func (s *shelf) given() (out []rule.Rule) {
	for n, r := range s.rules {
		one := rule.Rule{ID: fmt.Sprint("rule-", n)}
		if r.prefer {
			one.Strength = rule.Prefer
		}
		for _, i := range r.of {
			one.Products = append(one.Products, fmt.Sprint("size-", i))
		}
		some := func(n int64) (out quoin.Optional[quoin.Amount]) {
			if n > 0 {
				out = quoin.Some(s.price(n))
			}
			return out
		}
		times := func(n int64) (out quoin.Optional[quoin.Factor]) {
			if n >= 0 {
				out = quoin.Some(quoin.FactorOf(n).Over(quoin.FactorOf(20)))
			}
			return out
		}
		switch {
		case r.steps:
			one.Kind = rule.SizeRatio{AtLeast: times(r.least), AtMost: times(r.most)}
		case r.every > 0:
			k := rule.Ending{Every: s.price(r.every)}
			for _, e := range r.ends {
				k.EndsIn = append(k.EndsIn, s.price(e))
			}
			one.Kind = k
		default:
			one.Kind = rule.Price{AtLeast: some(r.low), AtMost: some(r.high)}
		}
		out = append(out, one)
	}
	return out
}
