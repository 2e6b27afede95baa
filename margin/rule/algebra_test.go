package rule

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// someSet is a set made in one of the ways in which sets are made, and its members.
func someSet(t *rapid.T, g quoin.Grid, name string) (Set, map[int64]bool) {
	var s Set
	switch rapid.IntRange(0, 3).Draw(t, name+" is made") {
	case 0: // one price by one
		var prices []quoin.Amount
		for _, i := range rapid.SliceOfN(rapid.Int64Range(-3, g.Len()+3), 0, 40).Draw(t, name+" prices") {
			prices = append(prices, g.Price(i))
		}
		s = Only(g, prices...)
	case 1: // a whole pattern
		k := Ending{Every: quoin.AmountOf(rapid.Int64Range(1, 40).Draw(t, name+" modulus"), 2)}
		for _, of := range rapid.SliceOfN(rapid.Int64Range(0, 40), 1, 8).Draw(t, name+" endings") {
			k.EndsIn = append(k.EndsIn, quoin.AmountOf(of, 2))
		}
		var err error
		if s, err = k.allowed(Item{Grid: g}, nil); err != nil {
			t.Fatal(err)
		}
	default:
		s, _ = drawnSet(t, g, name)
	}
	in := make(map[int64]bool)
	for _, i := range members(s) {
		in[i] = true
	}
	return s, in
}

func TestSetAlgebra(t *testing.T) {
	drew := map[string]int{}
	rapid.Check(t, func(t *rapid.T) { setAlgebra(t, drew) })
	for _, what := range []string{"pattern and pattern", "pattern and runs", "equal, kept apart"} {
		if drew[what] == 0 {
			t.Errorf("never drew %s: %v", what, drew)
		}
	}
}

// setAlgebra: every operation is what it is of the members, one by one.
func setAlgebra(t *rapid.T, drew map[string]int) {
	g := cents(t)
	a, inA := someSet(t, g, "a")
	b, inB := someSet(t, g, "b")
	c, _ := someSet(t, g, "c")
	switch {
	case a.comb != nil && b.comb != nil:
		drew["pattern and pattern"]++
	case a.comb != nil || b.comb != nil:
		drew["pattern and runs"]++
	}
	and, or, without, not := got(t)(a.And(b)), got(t)(a.Or(b)), got(t)(a.Without(b)), got(t)(a.Complement())
	var n int64
	for i := int64(1); i <= g.Len(); i++ {
		p := g.Price(i)
		for _, op := range []struct {
			name string
			set  Set
			want bool
		}{{"in both", and, inA[i] && inB[i]}, {"in either", or, inA[i] || inB[i]}, {"in the first alone", without, inA[i] && !inB[i]}, {"not in", not, !inA[i]}} {
			if op.set.Contains(p) != op.want {
				t.Fatalf("%v %s: %t, want %t; %v, %v", p, op.name, op.set.Contains(p), op.want, a, b)
			}
		}
		if inA[i] {
			n++
		}
	}
	if a.Len() != n || int64(len(slices.Collect(a.Prices()))) != n {
		t.Fatalf("%d prices of %v, want %d", a.Len(), a, n)
	}
	for p := range a.Prices() {
		if !a.Contains(p) {
			t.Fatalf("%v is yielded and not in %v", p, a)
		}
	}
	// De Morgan and the rest, by Equal.
	notB := got(t)(b.Complement())
	for _, law := range []struct {
		name string
		x, y Set
	}{
		{"not of both is either not", got(t)(and.Complement()), got(t)(not.Or(notB))},
		{"not of either is both not", got(t)(or.Complement()), got(t)(not.And(notB))},
		{"without is and not", without, got(t)(a.And(notB))},
		{"or the other way round", or, got(t)(b.Or(a))},
		{"or in groups", got(t)(or.Or(c)), got(t)(a.Or(got(t)(b.Or(c))))},
		{"and in groups", got(t)(and.And(c)), got(t)(a.And(got(t)(b.And(c))))},
		{"and over or", got(t)(a.And(got(t)(b.Or(c)))), got(t)(and.Or(got(t)(a.And(c))))},
		{"not of not", got(t)(not.Complement()), a},
		{"a set or its complement is all", got(t)(a.Or(not)), All(g)},
		{"a set and its complement is none", got(t)(a.And(not)), Set{}},
		{"its prices one by one", Only(g, slices.Collect(a.Prices())...), a},
	} {
		if !law.x.Equal(law.y) || !law.y.Equal(law.x) {
			t.Fatalf("%s: %v, and %v", law.name, law.x, law.y)
		}
		if !law.x.alike(law.y) && !law.x.IsEmpty() {
			drew["equal, kept apart"]++
		}
	}
	same := true
	for i := int64(1); i <= g.Len(); i++ {
		same = same && inA[i] == inB[i]
	}
	if a.Equal(b) != same || b.Equal(a) != same {
		t.Fatalf("%v equal to %v: %t, want %t", a, b, a.Equal(b), same)
	}
}

// got fails the test where a call errs.
func got(t *rapid.T) func(Set, error) Set {
	return func(s Set, err error) Set {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
}

// Sets with more prices than could be gone through are compared by what they are kept as.
func TestEqualWithoutEnd(t *testing.T) {
	g, ends := withoutEnd(t)
	for _, c := range []struct {
		what string
		a, b Set
		want bool
	}{
		{"halves, said of one and of two", ends("0.5", "0"), ends("1", "0", "0.5"), true},
		{"halves and quarters", ends("0.5", "0"), ends("0.25", "0"), false},
		{"halves, and three of four", ends("0.02", "0"), ends("0.08", "0", "0.02", "0.04"), false},
		{"a modulus that no other divides", ends("0.5", "0"), ends("999999999998", "0"), false},
		{"all, said by endings", All(g), ends("0.02", "0", "0.01"), true},
		{"one ending of a modulus beyond half the limit", ends("999999999998", "7"), Only(g, quoin.MustAmount("7")), true},
		{"two of it", ends("999999999991", "7"), Only(g, quoin.MustAmount("7")), false},
		{"nothing on any grid", Set{}, Only(g), true},
	} {
		if c.a.Equal(c.b) != c.want || c.b.Equal(c.a) != c.want {
			t.Errorf("%s: equal is not %t", c.what, c.want)
		}
	}
}

func TestSetsOnOtherGrids(t *testing.T) {
	a, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("10"))
	if err != nil {
		t.Fatal(err)
	}
	b, err := quoin.NewGrid(quoin.MustAmount("0.05"), quoin.MustAmount("10"))
	if err != nil {
		t.Fatal(err)
	}
	for name, op := range map[string]func(Set, Set) (Set, error){"and": Set.And, "or": Set.Or, "without": Set.Without} {
		_, err := op(All(a), All(b))
		if ps, ok := err.(quoin.Problems); !ok || len(ps) != 1 || ps[0].Code != OtherGrid {
			t.Errorf("%s on two grids: %v", name, err)
		}
		for _, zero := range [][2]Set{{All(a), {}}, {{}, All(a)}, {{}, {}}} {
			if _, err := op(zero[0], zero[1]); err != nil {
				t.Errorf("%s with no set: %v", name, err)
			}
		}
	}
	if All(a).Equal(All(b)) {
		t.Error("sets on two grids are equal")
	}
}

// A million and more runs are refused, not written out.
func TestTooManyRunsToWriteOut(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("999999999999"))
	if err != nil {
		t.Fatal(err)
	}
	tens, err := Ending{EndsIn: []quoin.Amount{{}}, Every: quoin.MustAmount("0.10")}.allowed(Item{Grid: g}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if rest, err := tens.Complement(); err != nil || rest.Contains(quoin.MustAmount("0.10")) || !rest.Contains(quoin.MustAmount("0.11")) {
		t.Errorf("what is not a tenth: %v", err)
	}
	// Of very many, those that matter to six euros are few: 5.10, 5.20, up to 6.00.
	dear, err := tens.And(Between(g, quoin.MustAmount("5.05"), quoin.MustAmount("999999999999")))
	if err != nil {
		t.Fatal(err)
	}
	if rest, err := Between(g, quoin.MustAmount("0.01"), quoin.MustAmount("6.00")).Without(dear); err != nil || rest.Len() != 590 {
		t.Errorf("without ten of six hundred: %d, %v", rest.Len(), err)
	}
	_, err = tens.Or(Between(g, quoin.MustAmount("1.01"), quoin.MustAmount("1.02")))
	if ps, ok := err.(quoin.Problems); !ok || ps[0].Code != TooManyRuns {
		t.Errorf("written out: %v", err)
	}
}

func ExampleSet_Without() {
	g, _ := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	unlucky := Between(g, quoin.MustAmount("13.00"), quoin.MustAmount("13.99"))
	rest, err := All(g).Without(unlucky)
	fmt.Println(rest, rest.Len(), err)
	gifts := Only(g, quoin.MustAmount("13.00"), quoin.MustAmount("25.00"))
	with, err := rest.Or(gifts)
	fmt.Println(with, with.Len(), err)
	back, err := with.Complement()
	fmt.Println(back, err)
	for p := range gifts.Prices() {
		fmt.Print(p, " ")
	}
	fmt.Println(gifts.Equal(Only(g, quoin.MustAmount("25.00"), quoin.MustAmount("13.00"))))
	// Output:
	// {0.01 to 12.99, 14.00 to 40.00} 3900 <nil>
	// {0.01 to 13.00, 14.00 to 40.00} 3901 <nil>
	// {13.01 to 13.99} <nil>
	// 13.00 25.00 true
}
