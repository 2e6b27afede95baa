package rule_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// plainly decides by the words of what is promised and nothing cleverer: groups of
// rules are tried all over, by size and then in the order of the rules, and every step
// of every ladder is met, round after round, until nothing moves.
type plainly struct {
	items []rule.Item
	rules []rule.Rule
}

type plainDecision struct {
	Conflict, Dropped, Emptied []string
	Allowed                    []rule.Set
	Prices                     []string
}

func (d plainly) decide(t *rapid.T, choose rule.Choice) plainDecision {
	var out plainDecision
	var kept, prefers []int
	for i, r := range d.rules {
		if r.Strength == rule.Prefer {
			prefers = append(prefers, i)
		} else {
			kept = append(kept, i)
		}
	}
	sets, empty := d.together(t, kept)
	if empty >= 0 {
		out.Conflict = d.smallest(t, kept)
		return out
	}
	for _, i := range prefers {
		with, empty := d.narrowed(t, sets, i, append(slices.Clone(kept), i))
		if empty >= 0 {
			out.Dropped, out.Emptied = append(out.Dropped, d.rules[i].ID), append(out.Emptied, d.items[empty].ID)
			continue
		}
		sets, kept = with, append(kept, i)
	}
	out.Allowed = sets
	for _, p := range d.choose(t, sets, kept, choose) {
		out.Prices = append(out.Prices, p.String())
	}
	return out
}

func (d plainly) smallest(t *rapid.T, rules []int) []string {
	for size := 1; ; size++ {
		for _, group := range groups(rules, size) {
			if _, empty := d.together(t, group); empty < 0 {
				continue
			}
			var ids []string
			for _, r := range group {
				ids = append(ids, d.rules[r].ID)
			}
			return ids
		}
	}
}

// must fails the test where a call errs.
func must[T any](v T, err error) func(interface {
	Helper()
	Fatal(...any)
}) T {
	return func(t interface {
		Helper()
		Fatal(...any)
	},
	) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// groups are the choices of so many of the rules, in order.
func groups(rules []int, size int) [][]int {
	if size == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for i, r := range rules {
		for _, rest := range groups(rules[i+1:], size-1) {
			out = append(out, append([]int{r}, rest...))
		}
	}
	return out
}

func (d plainly) together(t *rapid.T, group []int) (sets []rule.Set, empty int) {
	for _, it := range d.items {
		sets = append(sets, rule.All(it.Grid))
	}
	for _, r := range group {
		if sets, empty = d.allowedBy(t, sets, r); empty >= 0 {
			return nil, empty
		}
	}
	return d.pruned(t, sets, group)
}

func (d plainly) narrowed(t *rapid.T, sets []rule.Set, by int, group []int) ([]rule.Set, int) {
	sets, empty := d.allowedBy(t, sets, by)
	if empty >= 0 {
		return nil, empty
	}
	return d.pruned(t, sets, group)
}

func (d plainly) allowedBy(t *rapid.T, sets []rule.Set, r int) ([]rule.Set, int) {
	sets = slices.Clone(sets)
	for i, it := range d.items {
		if sets[i] = must(sets[i].And(must(d.rules[r].Allowed(it))(t)))(t); sets[i].IsEmpty() {
			return nil, i
		}
	}
	return sets, -1
}

func (d plainly) pruned(t *rapid.T, sets []rule.Set, group []int) ([]rule.Set, int) {
	sets = slices.Clone(sets)
	for moved := true; moved; {
		moved = false
		for _, r := range group {
			step, ok := d.rules[r].Kind.(rule.SizeRatio)
			if !ok {
				continue
			}
			for n := range len(d.rules[r].Products) - 1 {
				before, next := d.at(d.rules[r].Products[n]), d.at(d.rules[r].Products[n+1])
				a, b := sets[before], sets[next]
				if sets[next] = must(sets[next].And(must(step.Up(sets[before]))(t)))(t); sets[next].IsEmpty() {
					return nil, next
				}
				if sets[before] = must(sets[before].And(must(step.Down(sets[next]))(t)))(t); sets[before].IsEmpty() {
					return nil, before
				}
				moved = moved || !sets[before].Equal(a) || !sets[next].Equal(b)
			}
		}
	}
	return sets, -1
}

func (d plainly) at(product string) int {
	return slices.IndexFunc(d.items, func(it rule.Item) bool { return it.ID == product })
}

// choose gives up where the nearest price of one item leaves another none, as it can
// where ladders make a ring.
func (d plainly) choose(t *rapid.T, sets []rule.Set, group []int, choose rule.Choice) []quoin.Amount {
	var out []quoin.Amount
	for i := range sets {
		p := d.chosen(sets[i], d.items[i], choose)
		sets = slices.Clone(sets)
		sets[i] = rule.Between(d.items[i].Grid, p, p)
		left, empty := d.pruned(t, sets, group)
		if empty >= 0 {
			return nil
		}
		out, sets = append(out, p), left
	}
	return out
}

func (d plainly) chosen(s rule.Set, it rule.Item, choose rule.Choice) quoin.Amount {
	least, _ := s.Least()
	greatest, _ := s.Greatest()
	today, given := it.Today.Get()
	switch {
	case choose == rule.Greatest:
		return greatest
	case choose == rule.Least || !given:
		return least
	}
	best := least
	for n := int64(1); n <= it.Grid.Len(); n++ {
		p := it.Grid.Price(n)
		if s.Contains(p) && distance(p, today).Cmp(distance(best, today)) < 0 {
			best = p
		}
	}
	return best
}

func distance(p, q quoin.Amount) quoin.Amount {
	if d := p.Sub(q); d.Sign() >= 0 {
		return d
	}
	return q.Sub(p)
}

// Whatever the rules, ladders that cross and make rings among them, the solver decides
// what plainly does.
func TestSolverIsPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawnPlainly(t)
		choose := rapid.SampledFrom([]rule.Choice{rule.Least, rule.Greatest, rule.Nearest, ""}).Draw(t, "choose")
		want := d.decide(t, choose)
		got := must(rule.Decide(d.items, d.rules, choose))(t)
		same(t, "conflict", want.Conflict, got.Conflict)
		same(t, "dropped", want.Dropped, got.Dropped)
		same(t, "emptied", want.Emptied, got.Emptied)
		sameSets(t, want.Allowed, got.Allowed)
		if want.Prices != nil || want.Conflict != nil {
			same(t, "prices", want.Prices, words(got.Prices))
		}
	})
}

func same(t *rapid.T, what string, want, got []string) {
	t.Helper()
	if !slices.Equal(want, got) {
		t.Fatalf("%s %q, want %q", what, got, want)
	}
}

func words[T fmt.Stringer](of []T) []string {
	var out []string
	for _, x := range of {
		out = append(out, x.String())
	}
	return out
}

// sameSets holds what is allowed to the same prices, in whatever runs they are kept.
func sameSets(t *rapid.T, want, got []rule.Set) {
	t.Helper()
	if !slices.EqualFunc(want, got, rule.Set.Equal) {
		t.Fatalf("allowed %v, want %v", got, want)
	}
}

func drawnPlainly(t *rapid.T) plainly {
	g := must(quoin.NewGrid(quoin.MustAmount("1.00"), quoin.MustAmount("36.00")))(t)
	var d plainly
	var ids []string
	for i := range rapid.IntRange(1, 6).Draw(t, "items") {
		it := rule.NewItem(fmt.Sprintf("print-%d", i+1), g)
		if rapid.IntRange(0, 3).Draw(t, "today") > 0 {
			it.Today = quoin.Some(drawnPrice(t))
		}
		d.items, ids = append(d.items, it), append(ids, it.ID)
	}
	for i := range rapid.IntRange(1, 7).Draw(t, "rules") {
		r := rule.Rule{ID: fmt.Sprintf("rule-%d", i+1), Kind: drawnKind(t, len(ids) > 1)}
		if rapid.IntRange(0, 2).Draw(t, "prefer") == 0 {
			r.Strength = rule.Prefer
		}
		if _, step := r.Kind.(rule.SizeRatio); step {
			r.Products = rapid.Permutation(ids).Draw(t, "ladder")[:rapid.IntRange(2, len(ids)).Draw(t, "sizes")]
		} else if rapid.Bool().Draw(t, "of some") {
			r.Products = rapid.Permutation(ids).Draw(t, "products")[:rapid.IntRange(1, len(ids)).Draw(t, "named")]
		}
		d.rules = append(d.rules, r)
	}
	return d
}

func drawnPrice(t *rapid.T) quoin.Amount {
	return quoin.AmountOf(rapid.Int64Range(1, 36).Draw(t, "price"), 0)
}

func drawnKind(t *rapid.T, ladder bool) rule.Kind {
	n := rapid.IntRange(0, 6).Draw(t, "kind")
	switch {
	case n > 3 && ladder:
		k := rule.SizeRatio{}
		least := rapid.Int64Range(5, 20).Draw(t, "least")
		if n < 6 {
			k.AtLeast = quoin.Some(quoin.FactorOf(least).Over(quoin.FactorOf(10)))
		}
		if n > 4 {
			k.AtMost = quoin.Some(quoin.FactorOf(least + rapid.Int64Range(0, 12).Draw(t, "more")).Over(quoin.FactorOf(10)))
		}
		return k
	case n%4 == 0:
		return rule.Price{AtLeast: quoin.Some(drawnPrice(t))}
	case n%4 == 1:
		return rule.Price{AtMost: quoin.Some(drawnPrice(t))}
	}
	modulus := rapid.Int64Range(2, 7).Draw(t, "modulus")
	k := rule.Ending{Every: quoin.AmountOf(modulus, 0)}
	for _, e := range rapid.SliceOfNDistinct(rapid.Int64Range(0, modulus-1), 1, 3, rapid.ID[int64]).Draw(t, "endings") {
		k.EndsIn = append(k.EndsIn, quoin.AmountOf(e, 0))
		if len(k.EndsIn) == int(modulus)-1 {
			break
		}
	}
	return k
}
