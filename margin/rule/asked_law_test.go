package rule_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// endsRight says of a price, in cents, whether it leaves what the endings ask.
func endsRight(cents int64, rules []rule.Rule, dropped []string) bool {
	for _, r := range rules {
		k, ok := r.Kind.(rule.Ending)
		if !ok || slices.Contains(dropped, r.ID) {
			continue
		}
		every, _ := k.Every.Units(2)
		if every == 0 {
			every = 100
		}
		if !slices.ContainsFunc(k.EndsIn, func(end quoin.Amount) bool { n, _ := end.Units(2); return (cents-n)%every == 0 }) {
			return false
		}
	}
	return true
}

// What the sizes of a step say of a refused price, found price by price: the next one that ends right
// and is not allowed, and how far the other size would have to go.
func TestStepsSayWhoHoldsThem(t *testing.T) {
	const step, last = 5, 900
	cents := func(n int64) quoin.Amount { return quoin.AmountOf(n, 2) }
	held, beyondLimit, because, above := 0, 0, 0, 0
	bounds := make(map[rule.Bound]int)
	one := func(t *rapid.T) {
		grid, err := quoin.NewGrid(cents(step), cents(last))
		if err != nil {
			t.Fatal(err)
		}
		items := []rule.Item{{ID: "small", Grid: grid}, {ID: "large", Grid: grid}}
		k := rule.SizeRatio{}
		quarters := func(what string, from, to int64) quoin.Factor {
			return quoin.FactorOf(rapid.Int64Range(from, to).Draw(t, what)).Over(quoin.FactorOf(4))
		}
		if rapid.IntRange(0, 3).Draw(t, "at least") > 0 {
			k.AtLeast = quoin.Some(quarters("least", 4, 9))
		}
		if least, ok := k.AtLeast.Get(); !ok || rapid.Bool().Draw(t, "at most") {
			k.AtMost = quoin.Some(quarters("most", 4, 12))
			if most, _ := k.AtMost.Get(); ok && most.Cmp(least) < 0 {
				k.AtMost = quoin.Some(least)
			}
		}
		rules := []rule.Rule{{ID: "step", Products: []string{"small", "large"}, Kind: k}}
		for _, id := range []string{"small", "large"} {
			of := rule.Price{}
			if rapid.IntRange(0, 3).Draw(t, "from") > 0 {
				of.AtLeast = quoin.Some(cents(rapid.Int64Range(1, 400).Draw(t, "lowest")))
			}
			if rapid.IntRange(0, 3).Draw(t, "to") > 0 {
				of.AtMost = quoin.Some(cents(rapid.Int64Range(400, last).Draw(t, "highest")))
			}
			rules = append(rules, rule.Rule{ID: "of " + id, Products: []string{id}, Kind: of})
		}
		for _, id := range []string{"ending", "other ending"} {
			if rapid.IntRange(0, 2).Draw(t, id) == 0 {
				e := rule.Ending{EndsIn: []quoin.Amount{cents(step * rapid.Int64Range(0, 9).Draw(t, "ends in"))}, Every: cents(50 * rapid.Int64Range(1, 4).Draw(t, "every"))}
				rules = append(rules, rule.Rule{ID: id, Strength: rule.Prefer, Kind: e})
			}
		}
		d, err := rule.Decide(items, rules, rapid.SampledFrom([]rule.Choice{"", rule.Least, rule.Greatest}).Draw(t, "choose"))
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Conflict) > 0 {
			return
		}
		right := func(n int64) bool { return endsRight(n, rules, d.Dropped) }
		beside := func(from, side int64) (int64, bool) {
			for n := from + side*step; n >= step && n <= last; n += side * step {
				if right(n) {
					return n, true
				}
			}
			return 0, false
		}
		for i, it := range items {
			// What is asked for at a price and above the limit.
			p := rapid.Int64Range(0, 3*last*10).Draw(t, "asked, in tenths of a cent")
			want := max((p+10*step-1)/(10*step), 1) * step
			for !right(want) {
				want += step
			}
			if want > last {
				above++
			}
			if got := d.Asked(i, quoin.AmountOf(p, 3)); !got.Equal(cents(want)) {
				t.Fatalf("%v asks %s of %s, want %s", rules, got, quoin.AmountOf(p, 3), cents(want))
			}
			for _, side := range []int64{-1, +1} {
				why, ok := d.Lower(i, d.Prices[i])
				if side > 0 {
					why, ok = d.Higher(i, d.Prices[i])
				}
				at, _ := d.Prices[i].Units(2)
				next, more := beside(at, side)
				for more && d.Allowed[i].Contains(cents(next)) {
					next, more = beside(next, side)
				}
				if ok != more || more && !why.Price.Equal(cents(next)) || d.Ends(i, d.Prices[i], int(side)) != more {
					t.Fatalf("%s at %s: %v, %t; want %s, %t", it.ID, d.Prices[i], why, ok, cents(next), more)
				}
				for _, by := range why.By {
					if by.Kind != "size_ratio" {
						continue
					}
					held++
					other := 1 - i
					x, _ := d.Allowed[other].Least()
					y, _ := d.Allowed[other].Greatest()
					least, low := k.AtLeast.Get()
					most, high := k.AtMost.Get()
					bound, asked, near := rule.OneOf, why.Price.Figure(), quoin.Optional[quoin.Amount]{}
					p := why.Price
					switch {
					case i == 0 && low && y.Over(least).Cmp(p) < 0:
						bound, asked, near = rule.AtMost, y.Over(least).Figure(), quoin.Some(y)
					case i == 0 && high && x.Over(most).Cmp(p) > 0:
						bound, asked, near = rule.AtLeast, x.Over(most).Figure(), quoin.Some(x)
					case i == 1 && low && x.Times(least).Cmp(p) > 0:
						bound, asked, near = rule.AtLeast, x.Times(least).Figure(), quoin.Some(x)
					case i == 1 && high && y.Times(most).Cmp(p) < 0:
						bound, asked, near = rule.AtMost, y.Times(most).Figure(), quoin.Some(y)
					}
					bounds[bound]++
					got, given := by.NeighbourPrice.Get()
					price, wanted := near.Get()
					if by.Bound != bound || !by.Asked.Equal(asked) || !by.Got.Equal(p.Figure()) || given != wanted || given && !got.Equal(price) || by.Neighbour != items[other].ID || by.Product != it.ID || !by.Price.Equal(p) {
						t.Fatalf("%v: %s of %s: %+v; want %s %s beside %v", rules, it.ID, p, by, bound, asked, price)
					}
					if !wanted {
						if by.AtLimit || by.Because != nil {
							t.Fatalf("%+v, although both sides have prices", by)
						}
						continue
					}
					n, _ := price.Units(2)
					beyond, further := beside(n, side)
					if by.AtLimit == further || by.AtLimit && by.Because != nil {
						t.Fatalf("%v: %+v; a price beyond: %t", rules, by, further)
					}
					if by.AtLimit {
						beyondLimit++
						continue
					}
					because++
					var refuses []string
					for _, r := range rules[1:] {
						set, err := r.Allowed(items[other])
						if err != nil {
							t.Fatal(err)
						}
						if !set.Contains(cents(beyond)) && !slices.Contains(d.Dropped, r.ID) {
							refuses = append(refuses, r.ID)
						}
					}
					var told []string
					for _, b := range by.Because {
						if b.Product != items[other].ID || !b.Price.Equal(cents(beyond)) {
							t.Fatalf("%v: %+v, want one of %s at %s", rules, b, items[other].ID, cents(beyond))
						}
						if b.Kind != "size_ratio" {
							told = append(told, b.Rule)
						}
					}
					if !slices.Equal(told, refuses) {
						t.Fatalf("%v: %s of %s since %v, want %v", rules, items[other].ID, cents(beyond), told, refuses)
					}
				}
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		for range 5 {
			one(t)
		}
	})
	if held < 100 || beyondLimit < 5 || because < 50 || above < 30 || bounds[rule.AtLeast] < 20 || bounds[rule.AtMost] < 20 {
		t.Errorf("only %d held, %d by the limit, %d for a reason, %d asked above the limit, %v", held, beyondLimit, because, above, bounds)
	}
}
