package rule_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// reasons are why prices are refused, as the words of WhyNot have it, from size to size.
type reasons struct {
	*shelf
	kept   []int
	left   [][]bool
	listed int
	deep   int // how many sizes the longest chain has
}

// beside is the next price on a side that the kept endings allow a size.
func (w *reasons) beside(i int, p, side int64) (int64, bool) {
	for p += side; p >= 1 && p <= w.n; p += side {
		if !slices.ContainsFunc(w.kept, func(r int) bool {
			return w.rules[r].every > 0 && slices.Contains(w.rules[r].of, i) && !w.rules[r].allows(p)
		}) {
			return p, true
		}
	}
	return 0, false
}

func (w *reasons) refused(i int, p, side int64) (int64, bool) {
	next, ok := w.beside(i, p, side)
	for ok && w.left[i][next] {
		next, ok = w.beside(i, next, side)
	}
	return next, ok
}

func (w *reasons) why(i int, p, side int64, seen []int) string {
	w.deep = max(w.deep, len(seen))
	var out []string
	for _, r := range w.kept {
		k := &w.rules[r]
		say := func(bound rule.Bound, asked quoin.Figure, rest string) {
			w.listed++
			out = append(out, fmt.Sprintf("rule-%d: size-%d %s %s %s%s", r, i, w.price(p), bound, asked, rest))
		}
		if !k.steps && slices.Contains(k.of, i) {
			if k.low > 0 && p < k.low {
				say(rule.AtLeast, w.price(k.low).Figure(), "")
			}
			if k.high > 0 && p > k.high {
				say(rule.AtMost, w.price(k.high).Figure(), "")
			}
		}
		w.each([]int{r}, func(_, before, next int) {
			if before != i && next != i {
				return
			}
			other := before + next - i
			var partners []int64
			for q := int64(1); q <= w.n; q++ {
				if w.left[other][q] {
					partners = append(partners, q)
				}
			}
			fits := func(q int64) bool { return i == before && k.fits(p, q) || i == next && k.fits(q, p) }
			if slices.ContainsFunc(partners, fits) {
				return
			}
			x, y := partners[0], partners[len(partners)-1]
			times := func(q, a, b int64) quoin.Figure {
				return w.price(q).Times(quoin.FactorOf(a)).Over(quoin.FactorOf(b)).Figure()
			}
			near, bound, asked := int64(0), rule.OneOf, w.price(p).Figure()
			switch {
			case i == before && k.least > 0 && p*k.least > 20*y:
				near, bound, asked = y, rule.AtMost, times(y, 20, k.least)
			case i == before && k.most > 0 && p*k.most < 20*x:
				near, bound, asked = x, rule.AtLeast, times(x, 20, k.most)
			case i == next && k.least > 0 && 20*p < x*k.least:
				near, bound, asked = x, rule.AtLeast, times(x, k.least, 20)
			case i == next && k.most > 0 && 20*p > y*k.most:
				near, bound, asked = y, rule.AtMost, times(y, k.most, 20)
			}
			rest := fmt.Sprintf(" beside size-%d", other)
			if near > 0 {
				rest += " at " + w.price(near).String()
				if beyond, ok := w.beside(other, near, side); !ok || slices.Contains(seen, other) {
					rest += ", its limit"
				} else {
					rest += " since (" + w.why(other, beyond, side, append(slices.Clone(seen), other)) + ")"
				}
			}
			say(bound, asked, rest)
		})
	}
	return strings.Join(out, "; ")
}

// said is refusals in the words of reasons.
func said(refusals []rule.Refusal) string {
	var out []string
	for _, r := range refusals {
		line := fmt.Sprintf("%s: %s %s %s %s", r.Rule, r.Product, r.Price, r.Bound, r.Asked)
		if r.Neighbour != "" {
			line += " beside " + r.Neighbour
		}
		if p, given := r.NeighbourPrice.Get(); given {
			line += " at " + p.String()
			if r.AtLimit {
				line += ", its limit"
			} else {
				line += " since (" + said(r.Because) + ")"
			}
		}
		out = append(out, line)
	}
	return strings.Join(out, "; ")
}

func drawnShelf(t *rapid.T) *shelf {
	s := &shelf{step: quoin.AmountOf(rapid.SampledFrom([]int64{5, 50, 100}).Draw(t, "step"), 2), n: rapid.Int64Range(20, 60).Draw(t, "prices")}
	var ids []int
	for i := range rapid.IntRange(2, 4).Draw(t, "sizes") {
		ids = append(ids, i)
		s.today = append(s.today, max(rapid.Int64Range(-20, 2*s.n+4).Draw(t, "today, in half steps"), 0))
	}
	add := func(r shelfRule) {
		r.prefer = rapid.IntRange(0, 3).Draw(t, "prefer") == 0
		s.rules = append(s.rules, r)
	}
	some := func(least int) []int {
		return rapid.Permutation(ids).Draw(t, "of")[:rapid.IntRange(least, len(ids)).Draw(t, "many")]
	}
	for range rapid.IntRange(1, 3).Draw(t, "steps") {
		r := shelfRule{steps: true, of: some(2), least: -1, most: -1}
		if rapid.Bool().Draw(t, "in order") {
			slices.Sort(r.of)
		}
		if rapid.IntRange(0, 3).Draw(t, "at least") > 0 {
			r.least = rapid.SampledFrom([]int64{0, 10, 15, 17, 20, 20, 21, 23, 27, 30}).Draw(t, "least")
		}
		if r.least < 0 || rapid.Bool().Draw(t, "at most") {
			r.most = max(r.least, rapid.SampledFrom([]int64{10, 16, 20, 22, 25, 30, 33, 45}).Draw(t, "most"))
		}
		add(r)
	}
	for range rapid.IntRange(0, 4).Draw(t, "bounds") {
		r := shelfRule{of: some(1)}
		if slices.Sort(r.of); rapid.Bool().Draw(t, "from") {
			r.low = rapid.Int64Range(1, s.n).Draw(t, "low")
		}
		if r.low == 0 || rapid.IntRange(0, 3).Draw(t, "to") == 0 {
			r.high = rapid.Int64Range(max(r.low, 1), s.n).Draw(t, "high")
		}
		add(r)
	}
	for range rapid.IntRange(0, 2).Draw(t, "endings") {
		r := shelfRule{of: some(1), every: rapid.Int64Range(2, 7).Draw(t, "every")}
		slices.Sort(r.of)
		r.ends = rapid.SliceOfNDistinct(rapid.Int64Range(0, r.every-1), 1, int(r.every)-1, rapid.ID[int64]).Draw(t, "ends")
		add(r)
	}
	s.rules = rapid.Permutation(s.rules).Draw(t, "rules")
	return s
}

// Of sizes on a small grid every price and every combination of prices is tried: what is left, what is
// chosen, the smallest conflict, its gaps and whom it is about, and why prices are refused, from size
// to size.
func TestEveryPriceIsTried(t *testing.T) {
	drawn := make(map[string]int)
	one := func(t *rapid.T) {
		s := drawnShelf(t)
		choose := rapid.SampledFrom([]rule.Choice{"", rule.Nearest, rule.Least, rule.Greatest}).Draw(t, "choose")
		items, rules := s.items(t), s.given()
		got := must(rule.Decide(items, rules, choose))(t)
		conflict, kept, dropped, left := s.decided()
		ids := func(of []int) (out []string) {
			for _, r := range of {
				out = append(out, rules[r].ID)
			}
			return out
		}
		all := make([]int, len(rules))
		for r := range all {
			all[r] = r
		}
		if _, some := s.left(all); must(rule.Fit(items, rules))(t) != some {
			t.Fatalf("%+v fit: want %t", rules, some)
		}
		same(t, "conflict", ids(conflict), got.Conflict)
		if conflict != nil {
			drawn["conflicts"]++
			var gaps []string
			for _, g := range got.Gaps {
				i := slices.IndexFunc(items, func(it rule.Item) bool { return it.ID == g.Product })
				e := func(p quoin.Amount, by []string) (out edge) {
					out.at = int64(slices.IndexFunc(between(0, s.n+1), func(n int64) bool { return s.price(n).Equal(p) }))
					for _, id := range by {
						out.by = append(out.by, slices.IndexFunc(rules, func(r rule.Rule) bool { return r.ID == id }))
					}
					return out
				}
				gaps = append(gaps, fmt.Sprint(i, e(g.Floor, g.FloorBy), e(g.Ceiling, g.CeilingBy)))
			}
			want := s.gaps(conflict)
			same(t, "gaps", want, gaps)
			if len(want) > 0 {
				drawn["gaps"]++
				if len(got.Gaps[0].FloorBy)+len(got.Gaps[0].CeilingBy) > 2 {
					drawn["gaps by steps"]++
				}
			}
			if want := s.involved(conflict); !slices.Equal(got.Involved(), want) {
				t.Fatalf("%+v: involved %v, want %v", rules, got.Involved(), want)
			}
			return
		}
		same(t, "dropped", ids(dropped), got.Dropped)
		drawn["dropped"] += min(len(dropped), 1)
		for i := range left {
			for p := int64(1); p <= s.n; p++ {
				if got.Allowed[i].Contains(s.price(p)) != left[i][p] {
					t.Fatalf("%+v: size %d at %s, want %t", rules, i, s.price(p), left[i][p])
				}
			}
		}
		prices, passed := s.chosen(kept, left, choose)
		for i, p := range prices {
			if !got.Prices[i].Equal(s.price(p)) {
				t.Fatalf("%+v: size %d costs %s, want %s", rules, i, got.Prices[i], s.price(p))
			}
		}
		drawn["nearer ones passed over"] += min(passed, 1)
		for i, p := range prices {
			for _, side := range []int64{-1, +1} {
				ask := got.Lower
				if side > 0 {
					ask = got.Higher
				}
				w := reasons{shelf: s, kept: kept, left: left}
				next, ok := w.refused(i, p, side)
				why, given := ask(i, s.price(p))
				if given != ok || got.Ends(i, s.price(p), int(side)) != ok {
					t.Fatalf("%+v: size %d beside %s by %d: %v, want %t", rules, i, s.price(p), side, why, ok)
				}
				if !ok {
					continue
				}
				want := w.why(i, next, side, []int{i})
				if w.listed > 30 {
					continue // no more than 32 are listed
				}
				if !why.Price.Equal(s.price(next)) || said(why.By) != want || why.More {
					t.Fatalf("%+v: size %d not %s by\n%s, want %s by\n%s", rules, i, why.Price, said(why.By), s.price(next), want)
				}
				drawn[fmt.Sprintf("chains of %d", w.deep)]++
				drawn["between"] += min(strings.Count(want, "one_of"), 1)
				drawn["limits"] += min(strings.Count(want, "its limit"), 1)
			}
		}
		drawn["decided"]++
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 8 {
			one(t)
		}
	})
	for what, least := range map[string]int{"decided": 100, "conflicts": 40, "gaps": 30, "gaps by steps": 15, "dropped": 20, "nearer ones passed over": 1, "chains of 2": 50, "chains of 3": 20, "chains of 4": 3, "between": 2, "limits": 50} {
		if drawn[what] < least {
			t.Errorf("only %d %s, want %d: %v", drawn[what], what, least, drawn)
		}
	}
}
