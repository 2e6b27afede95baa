package rule_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
)

// about names a rule and what it is about.
func about(id string, kind rule.Kind, products ...string) rule.Rule {
	return rule.Rule{ID: id, Kind: kind, Products: products}
}

func preferred(id string, kind rule.Kind, products ...string) rule.Rule {
	return rule.Rule{ID: id, Kind: kind, Products: products, Strength: rule.Prefer}
}

func floor(p int64) rule.Price   { return rule.Price{AtLeast: quoin.Some(quoin.AmountOf(p, 0))} }
func ceiling(p int64) rule.Price { return rule.Price{AtMost: quoin.Some(quoin.AmountOf(p, 0))} }

func atLeastTimes(f string) rule.SizeRatio {
	return rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor(f))}
}

func atMostTimes(f string) rule.SizeRatio {
	return rule.SizeRatio{AtMost: quoin.Some(quoin.MustFactor(f))}
}

// allBut allows the prices that do not leave a rest when divided by the modulus.
func allBut(rest, modulus int64) rule.Ending {
	k := rule.Ending{Every: quoin.AmountOf(modulus, 0)}
	for r := range modulus {
		if r != rest {
			k.EndsIn = append(k.EndsIn, quoin.AmountOf(r, 0))
		}
	}
	return k
}

// sizes are three prints that may cost 1.00 to 100.00 in whole euros.
func sizes(t *testing.T, ids ...string) []rule.Item {
	g, err := quoin.NewGrid(quoin.MustAmount("1.00"), quoin.MustAmount("100.00"))
	if err != nil {
		t.Fatal(err)
	}
	var out []rule.Item
	for _, id := range ids {
		out = append(out, rule.NewItem(id, g))
	}
	return out
}

// A conflict is a group with as few rules as there can be, and of those of that size
// the first in the order of the rules.
func TestConflictIsSmallestAndFirst(t *testing.T) {
	for _, c := range []struct {
		why   string
		rules []rule.Rule
		want  string
	}{
		{
			"one rule by itself comes before two",
			[]rule.Rule{
				about("floor 30", floor(30)), about("ceiling 20", ceiling(20)), about("floor 101", floor(101), "a3"),
			},
			"floor 101",
		},
		{
			"two of the same size: the one that ends first",
			[]rule.Rule{
				about("floor 30", floor(30), "a5"), about("ceiling 20", ceiling(20), "a5"),
				about("floor 50", floor(50), "a4"), about("ceiling 40", ceiling(40), "a4"),
			},
			"floor 30, ceiling 20",
		},
		{
			"two of the same size: the one that starts first, though it ends last",
			[]rule.Rule{
				about("floor 50", floor(50), "a4"), about("floor 30", floor(30), "a5"),
				about("ceiling 20", ceiling(20), "a5"), about("ceiling 40", ceiling(40), "a4"),
			},
			"floor 50, ceiling 40",
		},
		{
			"the first floor that is too high, not the highest",
			[]rule.Rule{
				about("floor 10", floor(10)), about("floor 30", floor(30)), about("floor 90", floor(90)), about("ceiling 20", ceiling(20)),
			},
			"floor 30, ceiling 20",
		},
		{
			"no two of three: 1, 2 and 0 are left out of the thirds",
			[]rule.Rule{
				about("floor 10", floor(10)), about("not 1", allBut(1, 3), "a4"), about("ceiling 90", ceiling(90)),
				about("not 2", allBut(2, 3)), about("not 0", allBut(0, 3), "a4", "a3"),
			},
			"not 1, not 2, not 0",
		},
		{
			"three on one print each other two on two are not",
			[]rule.Rule{
				about("not 1", allBut(1, 3), "a4"), about("not 2", allBut(2, 3), "a3"), about("not 0", allBut(0, 3), "a4", "a3"),
				about("odd", allBut(0, 2), "a3"), about("even", allBut(1, 2), "a3"),
			},
			"odd, even",
		},
		{
			"an ending between a floor and a ceiling: 35 to 39 holds no ten",
			[]rule.Rule{
				about("floor 12", floor(12)), about("floor 35", floor(35), "a3"),
				about("tens", rule.Ending{EndsIn: []quoin.Amount{quoin.AmountOf(0, 0)}, Every: quoin.AmountOf(10, 0)}),
				about("ceiling 39", ceiling(39), "a4", "a3"),
			},
			"floor 35, tens, ceiling 39",
		},
		{
			"30 × 1.5 = 45, × 1.5 = 67.50, which is above 60",
			[]rule.Rule{
				about("at most three times", atMostTimes("3"), "a5", "a4", "a3"), about("ceiling 60", ceiling(60), "a3"),
				about("ladder", atLeastTimes("1.5"), "a5", "a4", "a3"), about("floor 5", floor(5)), about("floor 30", floor(30), "a5"),
			},
			"ceiling 60, ladder, floor 30",
		},
		{
			"a ring that goes up and up: a4 is 1.5 × a5 or more, a5 is a4 or more",
			[]rule.Rule{
				about("floor 5", floor(5)), about("up", atLeastTimes("1.5"), "a5", "a4"),
				about("up again", atLeastTimes("1.5"), "a4", "a3"), about("back", atLeastTimes("1"), "a4", "a5"),
			},
			"up, back",
		},
		{
			"a preference has no part in it",
			[]rule.Rule{
				preferred("ceiling 10", ceiling(10)), about("floor 30", floor(30)), about("ceiling 20", ceiling(20)),
			},
			"floor 30, ceiling 20",
		},
	} {
		d, err := rule.Decide(sizes(t, "a5", "a4", "a3"), c.rules, rule.Least)
		if got := strings.Join(d.Conflict, ", "); got != c.want || err != nil || len(d.Prices) > 0 {
			t.Errorf("%s: conflict %q, prices %v, %v, want %q", c.why, got, d.Prices, err, c.want)
		}
	}
}

// Of 30 rules there are 30 + 435 + 4,060 groups of up to three, so of the 27,405 of
// four the first 15,476 are tried: the 14,755 that start with one of the first five
// rules, some that start with the sixth, and none of the last 210, those of the last
// ten rules. What is found then is a group from which none can be taken away.
func TestConflictOfMoreRulesThanAreTried(t *testing.T) {
	fours, fives := []rule.Rule{}, []rule.Rule{}
	for rest := range int64(4) {
		fours = append(fours, about(fmt.Sprintf("four %d", rest), allBut(rest, 4), "a5"))
	}
	for rest := range int64(5) {
		fives = append(fives, about(fmt.Sprintf("five %d", rest), allBut(rest, 5), "a4"))
	}
	filled := func(before, between, after int) []rule.Rule {
		fill := func(where string, n int) (out []rule.Rule) {
			for i := range n {
				out = append(out, about(fmt.Sprintf("floor %d %s", i+2, where), floor(int64(i+2)), "a3"))
			}
			return out
		}
		return slices.Concat(fill("before", before), fours, fill("between", between), fives, fill("after", after))
	}
	for _, c := range []struct {
		why   string
		rules []rule.Rule
		want  string
	}{
		{"four rules at the start are found", filled(0, 21, 0), "four 0, four 1, four 2, four 3"},
		{"from the sixth on, they still are", filled(5, 16, 0), "four 0, four 1, four 2, four 3"},
		{"from the twenty-first on, they are not", filled(20, 1, 0), "five 0, five 1, five 2, five 3, five 4"},
		{"nor where the five do not come last", filled(20, 0, 1), "five 0, five 1, five 2, five 3, five 4"},
	} {
		d, err := rule.Decide(sizes(t, "a5", "a4", "a3"), c.rules, rule.Least)
		if got := strings.Join(d.Conflict, ", "); got != c.want || err != nil || len(c.rules) != 30 {
			t.Errorf("%s: of %d rules, conflict %q, %v, want %q", c.why, len(c.rules), got, err, c.want)
		}
	}
}

// Preferences are taken in order, and one that would leave a print no price is dropped.
// The print is the first of those that the rule by itself leaves none; else the one at
// which its ladder, gone through from its first step, comes to an end.
func TestDroppedPreferences(t *testing.T) {
	for _, c := range []struct {
		why              string
		rules            []rule.Rule
		dropped, emptied string
		prices           string
	}{
		{
			"what is kept binds what comes after it",
			[]rule.Rule{
				preferred("floor 50", floor(50)), preferred("ceiling 40", ceiling(40)), preferred("floor 60", floor(60)),
			},
			"ceiling 40", "a5", "60.00 60.00 60.00",
		},
		{
			"a rule that must hold binds what stands before it",
			[]rule.Rule{
				preferred("ceiling 20", ceiling(20)), about("floor 30", floor(30), "a3", "a4"),
			},
			"ceiling 20", "a4", "1.00 30.00 30.00",
		},
		{
			"dropped rules leave nothing behind",
			[]rule.Rule{
				about("floor 30", floor(30), "a3"), preferred("ceiling 20", ceiling(20)), preferred("ceiling 40", ceiling(40)), preferred("floor 25", floor(25)),
			},
			"ceiling 20", "a3", "25.00 25.00 30.00",
		},
		{
			"up: 30 × 1.5 = 45, × 1.5 = 67.50, above 60",
			[]rule.Rule{
				about("floor 30", floor(30), "a5"), about("ceiling 60", ceiling(60), "a3"),
				preferred("ladder", atLeastTimes("1.5"), "a5", "a4", "a3"), preferred("floor 7", floor(7)),
			},
			"ladder", "a3", "30.00 7.00 7.00",
		},
		{
			"down: 60 × 0.6 = 36, × 0.6 = 21.60, below 30",
			[]rule.Rule{
				about("floor 30", floor(30), "a5"), about("ceiling 60", ceiling(60), "a3"),
				preferred("ladder", atMostTimes("0.6"), "a3", "a4", "a5"), preferred("floor 7", floor(7)),
			},
			"ladder", "a5", "30.00 7.00 7.00",
		},
		{
			"a ceiling through a ladder: a3 is 50 × 1.5 = 75 or more",
			[]rule.Rule{
				preferred("ladder", atLeastTimes("1.5"), "a4", "a3"), preferred("ceiling 60", ceiling(60)), about("floor 50", floor(50), "a4"),
			},
			"ceiling 60", "a3", "1.00 50.00 75.00",
		},
		{
			"a ladder that was dropped binds no more",
			[]rule.Rule{
				about("ceiling 20", ceiling(20), "a4"), preferred("ladder", atLeastTimes("30"), "a5", "a4"), preferred("floor 15", floor(15)),
			},
			"ladder", "a4", "15.00 15.00 15.00",
		},
	} {
		d, err := rule.Decide(sizes(t, "a5", "a4", "a3"), c.rules, rule.Least)
		got := [3]string{strings.Join(d.Dropped, ", "), strings.Join(d.Emptied, ", "), strings.Join(words(d.Prices), " ")}
		if want := [3]string{c.dropped, c.emptied, c.prices}; got != want || err != nil {
			t.Errorf("%s: %q, %v, want %q", c.why, got, err, want)
		}
	}
}

// Where ladders make a ring, a choice bounds all the way round it: b is 2 × a = 20 or
// more, c 2 × b = 40, and so d, which the ladder from a to d would let be 10.
func TestNearestRoundARing(t *testing.T) {
	items := sizes(t, "a", "d", "b", "c")
	for i, p := range []string{"10", "5", "5", "5"} {
		items[i].Today = quoin.Some(quoin.MustAmount(p))
	}
	d, err := rule.Decide(items, []rule.Rule{
		about("doubles", atLeastTimes("2"), "a", "b", "c"), about("not below", atLeastTimes("1"), "c", "d"),
		about("nor below", atLeastTimes("1"), "a", "d"),
	}, rule.Nearest)
	if got := strings.Join(words(d.Prices), " "); got != "10.00 40.00 20.00 40.00" || err != nil {
		t.Errorf("%q, %v", got, err)
	}
}

// Each choice of the nearest price bounds those after it, in whatever order the
// prints and the steps of their ladder stand: a5 may not cost more than a4, nor a4
// more than a3.
func TestNearestInTurn(t *testing.T) {
	ladder := []rule.Rule{about("ladder", atLeastTimes("1"), "a5", "a4", "a3")}
	for _, c := range []struct{ why, order, today, want string }{
		{"up the ladder: each at least the one before", "a5 a4 a3", "20 10 30", "20.00 20.00 30.00"},
		{"the first pushes all", "a5 a4 a3", "80 10 30", "80.00 80.00 80.00"},
		{"down the ladder: each at most the one before", "a3 a4 a5", "30 10 20", "30.00 10.00 10.00"},
		{"both ends before the middle", "a5 a3 a4", "20 10 50", "20.00 20.00 20.00"},
		{"the middle before both ends", "a4 a5 a3", "40 70 10", "40.00 40.00 40.00"},
		{"the middle last, and free between", "a3 a5 a4", "60 20 30", "60.00 20.00 30.00"},
	} {
		items := sizes(t, strings.Fields(c.order)...)
		for i, p := range strings.Fields(c.today) {
			items[i].Today = quoin.Some(quoin.MustAmount(p))
		}
		d, err := rule.Decide(items, ladder, rule.Nearest)
		if got := strings.Join(words(d.Prices), " "); got != c.want || err != nil {
			t.Errorf("%s: %s at %s: %q, %v, want %q", c.why, c.order, c.today, got, err, c.want)
		}
	}
}

// Two ladders between the same two sizes, which together ask for one price of both: 12.00
// has a partner on each, 13.00 and 11.00, and not one on both. The nearest that has is
// 10.00 as well as 14.00, and ties go down.
func TestNearestPassesOverWhatHoldsWithNothing(t *testing.T) {
	grid, err := quoin.NewGrid(quoin.MustAmount("1"), quoin.MustAmount("50"))
	if err != nil {
		t.Fatal(err)
	}
	one, tenth := quoin.Some(quoin.MustFactor("1")), quoin.Some(quoin.MustFactor("1.1"))
	ending := func(id string, of ...string) rule.Rule {
		k := rule.Ending{Every: quoin.MustAmount("100")}
		for _, s := range of {
			k.EndsIn = append(k.EndsIn, quoin.MustAmount(s))
		}
		return rule.Rule{ID: id + " is one of these", Products: []string{id}, Kind: k}
	}
	rules := []rule.Rule{
		ending("x", "10", "12", "14"), ending("y", "10", "11", "13", "14"),
		{ID: "up", Products: []string{"x", "y"}, Kind: rule.SizeRatio{AtLeast: one, AtMost: tenth}},
		{ID: "down", Products: []string{"y", "x"}, Kind: rule.SizeRatio{AtLeast: one, AtMost: tenth}},
	}
	for _, c := range []struct{ today, x, y string }{{"12", "10", "10"}, {"13", "14", "14"}, {"9", "10", "10"}} {
		items := []rule.Item{{ID: "x", Grid: grid, Today: quoin.Some(quoin.MustAmount(c.today))}, {ID: "y", Grid: grid}}
		d, err := rule.Decide(items, rules, rule.Nearest)
		if err != nil || len(d.Prices) != 2 {
			t.Fatalf("today %s: %v, %v", c.today, d.Prices, err)
		}
		if !d.Prices[0].Equal(quoin.MustAmount(c.x)) || !d.Prices[1].Equal(quoin.MustAmount(c.y)) {
			t.Errorf("today %s: %v, want %s and %s", c.today, d.Prices, c.x, c.y)
		}
	}
}
