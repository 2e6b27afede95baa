package rule

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

const small = 240 // prices on the grids of these tests

func cents(t *rapid.T) quoin.Grid {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.AmountOf(small, 2))
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// drawnSet is a set and, beside it, its members one by one.
func drawnSet(t *rapid.T, g quoin.Grid, name string) (Set, []int64) {
	var c *comb
	if rapid.Bool().Draw(t, name+" has a pattern") {
		period := rapid.Int64Range(2, 40).Draw(t, name+" period")
		teeth := rapid.SliceOfNDistinct(rapid.Int64Range(0, period-1), 1, int(period)-1, rapid.ID).Draw(t, name+" teeth")
		slices.Sort(teeth)
		c = &comb{period: period, teeth: teeth}
	}
	s := Set{grid: g, comb: c}
	at := int64(0)
	for range rapid.IntRange(0, 4).Draw(t, name+" runs") {
		first := at + rapid.Int64Range(1, 50).Draw(t, name+" gap")
		last := min(first+rapid.Int64Range(0, 60).Draw(t, name+" length"), g.Len())
		s.add(run{first, last})
		at = last + 1
	}
	return s, members(s)
}

func members(s Set) []int64 {
	var out []int64
	for i := int64(1); i <= s.grid.Len(); i++ {
		for _, r := range s.runs {
			if r.first <= i && i <= r.last && (s.comb == nil || slices.Contains(s.comb.teeth, i%s.comb.period)) {
				out = append(out, i)
			}
		}
	}
	return out
}

func TestSetsAgainstTheirMembers(t *testing.T) { rapid.Check(t, setsAgainstTheirMembers) }

func setsAgainstTheirMembers(t *rapid.T) {
	g := cents(t)
	a, in := drawnSet(t, g, "a")
	b, other := drawnSet(t, g, "b")
	both, err := a.And(b)
	if err != nil {
		t.Fatal(err)
	}
	want := slices.DeleteFunc(slices.Clone(in), func(i int64) bool { return !slices.Contains(other, i) })
	if got := members(both); !slices.Equal(got, want) {
		t.Fatalf("in both: %v, want %v", got, want)
	}
	if a.IsEmpty() != (len(in) == 0) {
		t.Fatalf("empty %t, with %d members", a.IsEmpty(), len(in))
	}
	var listed []int64
	for r := range a.maximal() {
		if len(listed) > 0 && listed[len(listed)-1] >= r.first-1 {
			t.Fatalf("run %v touches the one before", r)
		}
		for i := r.first; i <= r.last; i++ {
			listed = append(listed, i)
		}
	}
	if !slices.Equal(listed, in) {
		t.Fatalf("runs list %v, want %v", listed, in)
	}
	runs := int64(0)
	for range a.maximal() {
		runs++
	}
	if most := a.RunsAtMost(); runs > most {
		t.Fatalf("%d runs, said to be at most %d", runs, most)
	}
	if got := named(g, a.Pattern()); !slices.Equal(got, in) {
		t.Fatalf("the pattern names %v, want %v", got, in)
	}
	i := rapid.Int64Range(1, small).Draw(t, "i")
	at, found := slices.BinarySearch(in, i)
	if a.has(i) != found {
		t.Fatalf("has %d: %t, want %t", i, a.has(i), found)
	}
	if n, ok := a.next(i); ok != (at < len(in)) || ok && n != in[at] {
		t.Fatalf("next of %d is %d, %t in %v", i, n, ok, in)
	}
	if found {
		at++
	}
	if n, ok := a.prev(i); ok != (at > 0) || ok && n != in[at-1] {
		t.Fatalf("previous of %d is %d, %t in %v", i, n, ok, in)
	}
}

// named is the prices that a pattern names, tried one by one.
func named(g quoin.Grid, p Pattern) []int64 {
	var out []int64
	for i := int64(1); i <= g.Len(); i++ {
		price := g.Price(i)
		for _, b := range p.Between {
			ends := slices.ContainsFunc(p.EndsIn, func(e quoin.Amount) bool { return price.Mod(p.Every).Equal(e) })
			if b[0].Cmp(price) <= 0 && price.Cmp(b[1]) <= 0 && ends {
				out = append(out, i)
			}
		}
	}
	return out
}

func TestStepsAgainstPairs(t *testing.T) { rapid.Check(t, stepsAgainstPairs) }

// stepsAgainstPairs: what a set reaches over a step is every price that has a
// partner in it, tried one by one.
func stepsAgainstPairs(t *rapid.T) {
	g := cents(t)
	s, in := drawnSet(t, g, "s")
	var k SizeRatio
	if rapid.Bool().Draw(t, "has least") {
		k.AtLeast = quoin.Some(quoin.AmountOf(rapid.Int64Range(0, 300).Draw(t, "least"), 2).Ratio(quoin.AmountOf(1, 0)))
	}
	if rapid.Bool().Draw(t, "has most") {
		k.AtMost = quoin.Some(quoin.AmountOf(rapid.Int64Range(0, 300).Draw(t, "most"), 2).Ratio(quoin.AmountOf(1, 0)))
	}
	if rapid.Bool().Draw(t, "same") {
		k.AtMost = k.AtLeast
	}
	for _, up := range []bool{true, false} {
		reach, err := k.Down(s)
		if up {
			reach, err = k.Up(s)
		}
		if err != nil {
			t.Fatal(err)
		}
		for i := int64(1); i <= small; i++ {
			partner := slices.ContainsFunc(in, func(j int64) bool {
				if up {
					return k.HoldsBetween(g.Price(j), g.Price(i))
				}
				return k.HoldsBetween(g.Price(i), g.Price(j))
			})
			if reach.has(i) != partner {
				t.Fatalf("%d reached %t (up %t), has a partner %t; %+v over %v", i, reach.has(i), up, partner, k, in)
			}
		}
	}
}

func TestEndingsAgainstRemainders(t *testing.T) { rapid.Check(t, endingsAgainstRemainders) }

// endingsAgainstRemainders: any step, modulus and endings, price by price.
func endingsAgainstRemainders(t *rapid.T) {
	step := quoin.AmountOf(rapid.Int64Range(1, 60).Draw(t, "step"), 2)
	g, err := quoin.NewGrid(step, step.Times(quoin.FactorOf(small)))
	if err != nil {
		t.Fatal(err)
	}
	k := Ending{Every: quoin.AmountOf(rapid.Int64Range(1, 3000).Draw(t, "modulus"), 3)}
	for range rapid.IntRange(1, 4).Draw(t, "endings") {
		k.EndsIn = append(k.EndsIn, quoin.AmountOf(rapid.Int64Range(0, 2000).Draw(t, "of"), 3))
	}
	set, err := k.allowed(Item{Grid: g}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := int64(1); i <= small; i++ {
		want := k.judge(Item{}, nil, g.Price(i))[0].OK
		if set.has(i) != want {
			t.Fatalf("%v ends right %t, in the set %t: %v of %v", g.Price(i), want, set.has(i), k.EndsIn, k.Every)
		}
	}
}

// withoutEnd is a grid of more prices than could be gone through, and endings on it.
func withoutEnd(t *testing.T) (quoin.Grid, func(modulus string, of ...string) Set) {
	t.Helper()
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("999999999999"))
	if err != nil {
		t.Fatal(err)
	}
	return g, func(modulus string, of ...string) Set {
		k := Ending{Every: quoin.MustAmount(modulus)}
		for _, o := range of {
			k.EndsIn = append(k.EndsIn, quoin.MustAmount(o))
		}
		s, err := k.allowed(Item{Grid: g}, nil)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
}

// Patterns and limits far beyond anything that could be gone through.
func TestSetsWithoutEnd(t *testing.T) {
	_, ends := withoutEnd(t)
	for _, c := range []struct {
		what string
		a, b Set
		from string
		want string // the next price in both, empty where there is none
	}{
		// The least x with x ≡ 0.99 (mod 1) and x ≡ 4.99 (mod 5) above a million.
		{"nines of five", ends("1", "0.99"), ends("5", "4.99"), "1000000", "1000004.99"},
		// Chinese remainders by hand: 2 mod 3, 3 mod 5 is 8 mod 15.
		{"three and five", ends("3", "2"), ends("5", "3"), "1000", "1013"}, // 1013 = 15 × 67 + 8
		{"never together", ends("2", "1"), ends("4", "2"), "0.01", ""},
		{"a modulus near the limit", ends("999999999998", "7.77"), ends("1", "0.77"), "0.01", "7.77"},
	} {
		both, err := c.a.And(c.b)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := both.Next(quoin.MustAmount(c.from))
		if ok != (c.want != "") || ok && !got.Equal(quoin.MustAmount(c.want)) {
			t.Errorf("%s: %v, %t, want %q", c.what, got, ok, c.want)
		}
	}
}

// Rules whose endings are too many together are refused, not gone through.
func TestTooManyEndings(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("999999999999"))
	if err != nil {
		t.Fatal(err)
	}
	all := All(g)
	for _, modulus := range []int64{10_007, 10_009, 10_037} { // primes, so that they repeat together only late
		k := Ending{Every: quoin.AmountOf(modulus, 2)}
		for i := range int64(1000) {
			k.EndsIn = append(k.EndsIn, quoin.AmountOf(i, 2))
		}
		s, err := k.allowed(Item{Grid: g}, nil)
		if err == nil {
			all, err = all.And(s)
		}
		if err != nil {
			ps, ok := err.(quoin.Problems)
			if !ok || ps[0].Code != TooManyRuns {
				t.Fatalf("refused as %v", err)
			}
			return
		}
	}
	t.Fatal("a thousand million endings were taken")
}

// The zero Set is empty in every way.
func TestZeroSet(t *testing.T) {
	var s Set
	p := quoin.MustAmount("1.00")
	_, next := s.Next(p)
	_, prev := s.Prev(p)
	if !s.IsEmpty() || s.Contains(p) || next || prev || s.String() != "{}" {
		t.Errorf("%v: empty %t, holds %t", s, s.IsEmpty(), s.Contains(p))
	}
	own := Rule{Kind: Custom{Name: "none", Allowed: func(Item, []Offer) (Set, error) { return Set{}, nil }, Judge: func(_ Item, _ []Offer, p quoin.Amount) []Verdict { return []Verdict{{Got: p.Figure()}} }}}
	if own.Holds(Item{}, p) {
		t.Error("a rule that allows nothing holds")
	}
}
