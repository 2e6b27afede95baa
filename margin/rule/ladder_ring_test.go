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

// tied are items on one grid, with steps between them of least ratios in ten-thousandths.
func tied(t testing.TB, limit string, n int, ratios ...[3]int64) ([]rule.Item, []rule.Rule) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount(limit))
	if err != nil {
		t.Fatal(err)
	}
	var items []rule.Item
	for i := range n {
		items = append(items, rule.NewItem(fmt.Sprintf("size-%d", i), g))
	}
	var rules []rule.Rule
	for i, r := range ratios {
		factor := quoin.FactorOf(r[2]).Over(quoin.FactorOf(10_000))
		rules = append(rules, rule.Rule{
			ID: fmt.Sprintf("step-%d", i), Kind: rule.SizeRatio{AtLeast: quoin.Some(factor)},
			Products: []string{items[r[0]].ID, items[r[1]].ID},
		})
	}
	return items, rules
}

// A ring whose ratios multiply to more than 1 is a conflict of its steps, however near to 1
// they are and however high prices may go; what would take a round for each price is not
// gone through.
func TestRingAboveOneIsAConflict(t *testing.T) {
	for _, c := range []struct {
		limit  string
		n      int
		ratios [][3]int64
	}{
		{"999999999999.00", 2, [][3]int64{{0, 1, 10_001}, {1, 0, 10_000}}},
		{"999999999999.00", 2, [][3]int64{{0, 1, 13_001}, {1, 0, 7_692}}}, // 1.00003692
		{"999999999999.00", 3, [][3]int64{{0, 1, 20_001}, {1, 2, 5_000}, {2, 0, 10_000}}},
		{"999999999999.00", 5, [][3]int64{{0, 1, 10_000}, {1, 2, 15_000}, {2, 1, 6_000}, {2, 3, 4_000}, {3, 4, 30_001}, {4, 0, 5_556}}},
	} {
		items, rules := tied(t, c.limit, c.n, c.ratios...)
		d, err := rule.Decide(items, rules, rule.Least)
		if err != nil {
			t.Errorf("%v: %v", c.ratios, err)
			continue
		}
		var want []string
		for i, r := range rules {
			if c.n < 5 || i != 2 {
				want = append(want, r.ID)
			}
		}
		if !slices.Equal(d.Conflict, want) {
			t.Errorf("%v: conflict %q, want %q", c.ratios, d.Conflict, want)
		}
	}
}

// A ring of exactly 1 holds at the prices at which nothing has to be rounded: with 1.0625
// and 16 ÷ 17, which is no short decimal and is given as the greatest ratio back, at
// multiples of 16 cents.
func TestRingOfOneHoldsWhereNothingIsRounded(t *testing.T) {
	items, rules := tied(t, "999999999999.00", 2, [3]int64{0, 1, 10_625})
	rules = append(rules,
		rule.Rule{ID: "back", Kind: rule.SizeRatio{AtMost: quoin.Some(quoin.MustFactor("1.0625"))}, Products: []string{"size-0", "size-1"}},
		rule.Rule{ID: "floor", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("100000000000.01"))}, Products: []string{"size-0"}})
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil || len(d.Conflict) > 0 {
		t.Fatal(err, d.Conflict)
	}
	// 10,000,000,000,001 cents; the next multiple of 16 is 10,000,000,000,016.
	if got := d.Prices[0].String(); got != "100000000000.16" {
		t.Errorf("%s", got)
	}
	if got := d.Prices[1].String(); got != "106250000000.17" { // × 1.0625 = 10,625,000,000,017
		t.Errorf("%s", got)
	}
}

// Between endings that come round at other prices than those at which nothing is rounded, a
// ring of exactly 1 is looked for from price to price: it is no ring above 1.
func TestRingOfOneBetweenEndings(t *testing.T) {
	items, rules := tied(t, "999999999.00", 2, [3]int64{0, 1, 10_625})
	const modulus = 100_003
	var of []quoin.Amount
	ends := make(map[int64]bool)
	for i := range int64(100) { // that a few multiples of 16 and of 17 have
		for _, end := range []int64{i * i * i * 7 % modulus, 16 * 90_000 % modulus, 17 * 90_000 % modulus} {
			if !ends[end] {
				ends[end], of = true, append(of, quoin.AmountOf(end, 2))
			}
		}
	}
	rules = append(rules,
		rule.Rule{ID: "back", Kind: rule.SizeRatio{AtMost: quoin.Some(quoin.MustFactor("1.0625"))}, Products: []string{"size-0", "size-1"}},
		rule.Rule{ID: "endings", Kind: rule.Ending{Every: quoin.AmountOf(modulus, 2), EndsIn: of}})
	want := int64(16)
	for !ends[want%modulus] || !ends[want/16*17%modulus] {
		want += 16
	}
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil || len(d.Conflict) > 0 {
		t.Fatal(err, d.Conflict)
	}
	if got := d.Prices[0]; !got.Equal(quoin.AmountOf(want, 2)) {
		t.Errorf("%v, want %d cents", got, want)
	}
}

// A ring just below 1 holds from where one cent is less than what it falls short by: with
// 1.00000001 and 0.99999998 of a cent or more from 1,000,000.00 on, where the larger size is
// one cent dearer.
func TestRingBelowOneHoldsFromAPriceOn(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("999999999999.00"))
	if err != nil {
		t.Fatal(err)
	}
	items := []rule.Item{rule.NewItem("small", g), rule.NewItem("large", g)}
	rules := []rule.Rule{
		{ID: "there", Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.00000001"))}, Products: []string{"small", "large"}},
		{ID: "back", Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("0.99999998"))}, Products: []string{"large", "small"}},
	}
	d, err := rule.Decide(items, rules, rule.Least)
	if err != nil || len(d.Conflict) > 0 {
		t.Fatal(err, d.Conflict)
	}
	// In cents large ≥ small + 1 up to 10^8, and small ≥ 0.99999998 × large: with large =
	// small + 1 that is small × 0.00000002 ≥ 0.99999998, small ≥ 49,999,999.
	if d.Prices[0].String() != "499999.99" || d.Prices[1].String() != "500000.00" {
		t.Errorf("%v", d.Prices)
	}
}

// A ring that comes over a hole moves as far as that once, and not each time round. The largest size has prices of 7k alone up
// to some price, where that of 7k + 2 has no partner, and both from there on.
func TestRingOverAHole(t *testing.T) {
	g := must(quoin.NewGrid(quoin.MustAmount("1.00"), quoin.MustAmount("3000.00")))(t)
	ratio := func(least, most string, products ...string) rule.Rule {
		k := rule.SizeRatio{AtMost: quoin.Some(quoin.MustFactor(most))}
		if least != "" {
			k.AtLeast = quoin.Some(quoin.MustFactor(least))
		}
		return rule.Rule{ID: strings.Join(products, " to ") + " " + most, Kind: k, Products: products}
	}
	rules := []rule.Rule{
		{ID: "endings", Kind: rule.Ending{Every: quoin.MustAmount("7.00"), EndsIn: []quoin.Amount{quoin.MustAmount("0.00"), quoin.MustAmount("2.00")}}},
		ratio("1.0003", "2.5", "small", "middle"), ratio("1.0003", "1.0043", "middle", "large"), ratio("", "1.001", "small", "middle"),
	}
	for i := range rules[1:] {
		rules[1+i].Strength = rule.Prefer // one after the other, so that holes are there before the ring is
	}
	d, err := rule.Decide([]rule.Item{rule.NewItem("small", g), rule.NewItem("middle", g), rule.NewItem("large", g)}, rules, rule.Least)
	if err != nil || len(d.Dropped) > 0 {
		t.Fatal(err, d.Dropped)
	}
	// 2002 × 1.0003 is 2002.6, so the middle one costs 2004, which is at most 2002 × 1.001 = 2004.002; the large one at least 2004.6.
	// Below, 7k + 2 is more than 7k × 1.001, and after 7k + 2 comes 7k + 7.
	if got := fmt.Sprint(words(d.Prices)); got != "[2002.00 2004.00 2009.00]" {
		t.Error(got)
	}
}

// Rings of ratios near 1, with endings and floors, come to what every step being met, round
// after round, comes to.
func TestRingsArePlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawnRing(t)
		choose := rapid.SampledFrom([]rule.Choice{rule.Least, rule.Greatest, rule.Nearest}).Draw(t, "choose")
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

// drawnRing draws a ring, the grid fine enough for it to creep, and more steps beside it.
func drawnRing(t *rapid.T) plainly {
	g := must(quoin.NewGrid(quoin.MustAmount("1.00"), quoin.MustAmount("3000.00")))(t)
	n := rapid.IntRange(2, 4).Draw(t, "sizes")
	var d plainly
	for i := range n {
		it := rule.NewItem(fmt.Sprintf("print-%d", i), g)
		if rapid.Bool().Draw(t, "today") {
			it.Today = quoin.Some(quoin.AmountOf(rapid.Int64Range(1, 3000).Draw(t, "price"), 0))
		}
		d.items = append(d.items, it)
	}
	add := func(kind rule.Kind, products ...string) {
		r := rule.Rule{ID: fmt.Sprintf("rule-%d", len(d.rules)), Kind: kind, Products: products}
		if rapid.IntRange(0, 2).Draw(t, "prefer") == 0 {
			r.Strength = rule.Prefer
		}
		d.rules = append(d.rules, r)
	}
	near := func(label string) quoin.Factor {
		return quoin.FactorOf(rapid.SampledFrom([]int64{9_990, 9_997, 10_000, 10_000, 10_003, 10_010}).Draw(t, label)).Over(quoin.FactorOf(10_000))
	}
	for i := range n {
		step := rule.SizeRatio{AtLeast: quoin.Some(near("least"))}
		switch rapid.IntRange(0, 5).Draw(t, "most") {
		case 0:
			step.AtMost = quoin.Some(quoin.MustFactor("2.5"))
		case 1: // so near that prices fall into many runs
			least, _ := step.AtLeast.Get()
			step.AtMost = quoin.Some(least.Add(quoin.MustFactor("0.004")))
		}
		add(step, d.items[i].ID, d.items[(i+1)%n].ID)
	}
	for range rapid.IntRange(0, 2).Draw(t, "steps") {
		of := rapid.Permutation(d.items).Draw(t, "pair")
		add(rule.SizeRatio{AtMost: quoin.Some(near("most"))}, of[0].ID, of[1].ID)
	}
	for range rapid.IntRange(0, 2).Draw(t, "bounds") {
		at := quoin.Some(quoin.AmountOf(rapid.Int64Range(1, 3000).Draw(t, "bound"), 0))
		kind := rapid.SampledFrom([]rule.Kind{rule.Price{AtLeast: at}, rule.Price{AtMost: at}}).Draw(t, "kind")
		add(kind, rapid.SampledFrom(d.items).Draw(t, "of").ID)
	}
	for range rapid.IntRange(-1, 2).Draw(t, "holes") {
		from := rapid.Int64Range(1, 2900).Draw(t, "from")
		add(hole(from, from+rapid.Int64Range(0, 300).Draw(t, "wide")), rapid.SampledFrom(d.items).Draw(t, "of").ID)
	}
	if rapid.IntRange(0, 2).Draw(t, "endings") == 0 {
		add(rule.Ending{Every: quoin.AmountOf(rapid.SampledFrom([]int64{3, 7, 10}).Draw(t, "modulus"), 0), EndsIn: []quoin.Amount{quoin.AmountOf(0, 0), quoin.AmountOf(2, 0)}})
	}
	return d
}

// hole allows all prices but those from one to another.
func hole(first, last int64) rule.Kind {
	low, high := quoin.AmountOf(first, 0), quoin.AmountOf(last, 0)
	return rule.Custom{Name: "hole", Judge: judgesNothing, Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
		return rule.All(it.Grid).Without(rule.Between(it.Grid, low, high))
	}}
}
