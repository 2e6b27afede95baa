package source_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/problemtest"
)

func TestDemandProblems(t *testing.T) {
	const wanted = ", wanted low and high, or mean and deviation, or cases whose shares sum to 100% [bad_demand]"
	half, whole := quoin.MustRate("50%"), quoin.MustRate("100%")
	for what, c := range map[string]struct {
		demand source.Demand
		want   string
		zero   bool
	}{
		"none":                {source.Demand{}, "fault found 0 ways of giving it" + wanted, true},
		"a low alone":         {source.Demand{Low: 3}, "fault found 0 ways of giving it" + wanted, true},
		"a deviation alone":   {source.Demand{Deviation: factor("3")}, "fault found 0 ways of giving it" + wanted, true},
		"two ways":            {source.Demand{High: 5, Mean: factor("3"), Deviation: factor("1")}, "fault found 2 ways of giving it" + wanted, false},
		"all ways":            {source.Demand{High: 5, Mean: factor("3"), Deviation: factor("1"), Cases: []source.Case{sells(5, whole)}}, "fault found 3 ways of giving it" + wanted, false},
		"low above high":      {source.Demand{Low: 6, High: 5}, "fault found a low above the high" + wanted, false},
		"one or none":         {source.Demand{High: 1}, "", false},
		"two above one":       {source.Demand{Low: 2, High: 1}, "fault found a low above the high" + wanted, false},
		"a low beside a mean": {source.Demand{Low: 3, Mean: factor("3"), Deviation: factor("1")}, "", false},
		"low as high":         {source.Demand{Low: 5, High: 5}, "", false},
		"no deviation":        {source.Demand{Mean: factor("3")}, "fault found a mean without a deviation" + wanted, false},
		"a small deviation":   {source.Demand{Mean: factor("3"), Deviation: factor("0.5")}, "", false},
		"half of the cases":   {source.Demand{Cases: []source.Case{sells(5, half)}}, "fault found shares that sum to 50%" + wanted, false},
		"more than all":       {source.Demand{Cases: []source.Case{sells(5, half), sells(6, whole)}}, "fault found shares that sum to 150%" + wanted, false},
		"all of them":         {source.Demand{Cases: []source.Case{sells(5, half), sells(6, half)}}, "", false},
		"fewer than none":     {source.Demand{High: -1}, "fault high: found -1, wanted a value of at least 0 and at most 1000000 [out_of_range]", false},
		"a mean below 0":      {source.Demand{Mean: factor("-1")}, "fault mean: found -1, wanted a value of at least 0 [out_of_range]", false},
		"a case of unknown":   {source.Demand{Cases: []source.Case{{Share: whole}}}, "fault cases[0].prints: found nothing, wanted the field prints [missing_field]", false},
	} {
		if got := problemtest.Full(c.demand.Check()); got != c.want || c.demand.IsZero() != c.zero {
			t.Errorf("%s: %s, given: %t, want %s", what, got, !c.demand.IsZero(), c.want)
		}
	}
}

func TestCriticalRatios(t *testing.T) {
	for _, c := range []struct {
		short, over, want string // empty where there is none
	}{
		{"18.00", "2.00", "90%"}, {"0", "2.00", "0%"}, {"2.00", "0", "100%"}, {"0.50", "0.50", "50%"}, {"0", "0", ""}, {"-1", "2", ""}, {"2", "-1", ""}, {"0.01", "0.03", "25%"},
	} {
		got, ok := source.CriticalRatio(amount(c.short), amount(c.over))
		if ok != (c.want != "") || ok && got.String() != c.want || !ok && got.IsGiven() {
			t.Errorf("%s and %s: %s, %t, want %s", c.short, c.over, got, ok, c.want)
		}
	}
}

// To all 15 places: z of 97.5%, of 75%, and of a millionth below 1, which is where it ends (by Python 3,
// mpmath, 30 digits).
func TestNormalTo15Places(t *testing.T) {
	d := source.Demand{Mean: factor("10"), Deviation: factor("1")}
	for p, want := range map[string]string{
		"50%": "10", "75%": "10.674489750196082", "97.5%": "11.959963984540054", "2.5%": "8.040036015459946", "99.9999%": "14.753424308822899", "99.99999%": "14.753424308822899",
		"100%": "14.753424308822899", "0.0001%": "5.246575691177101", "0%": "5.246575691177101",
	} {
		if got := d.Quantile(quoin.MustRate(p)); !got.Equal(factor(want)) {
			t.Errorf("%s: %s, want %s", p, got, want)
		}
	}
	// φ(1) + Φ(1) is 0.241970724519143… + 0.841344746068542…, φ(0) is 0.398942280401433.
	for n, want := range map[int64]string{11: "1.083315470587686", 10: "0.398942280401433", 9: "0.083315470587686"} {
		if got := d.LeftOver(n); !got.Equal(factor(want)) {
			t.Errorf("of %d are left %s, want %s", n, got, want)
		}
	}
	// Without a deviation, what is beyond the mean.
	exact := source.Demand{Mean: factor("10.5")}
	for n, want := range map[int64]string{9: "0", 10: "0", 11: "0.5", 20: "9.5"} {
		if got := exact.LeftOver(n); !got.Equal(factor(want)) {
			t.Errorf("of %d are left %s, want %s", n, got, want)
		}
	}
}

func TestOrders(t *testing.T) {
	cases := source.Demand{Cases: []source.Case{sells(60, quoin.MustRate("30%")), sells(0, quoin.MustRate("20%")), sells(20, quoin.MustRate("50%"))}}
	even := source.Demand{Low: 100, High: 300}
	for _, c := range []struct {
		what   string
		demand source.Demand
		ratio  string
		want   int64
	}{
		{"the first case that reaches it", cases, "20%", 0},
		{"a little more", cases, "20.1%", 20},
		{"two cases", cases, "70%", 20},
		{"the last", cases, "71%", 60},
		{"all", cases, "100%", 60},
		{"none of even ones", even, "0%", 100},
		{"part of a print", even, "0.1%", 101},
		{"half of them", even, "50%", 200},
		{"all of them", even, "100%", 300},
		{"more than all", cases, "101%", 60},
		{"one or none", source.Demand{High: 1}, "50%", 1},
		{"one", source.Demand{Low: 1, High: 1}, "50%", 1},
		{"from none", source.Demand{High: 10}, "0%", 0},
		{"below none", source.Demand{Mean: factor("1"), Deviation: factor("10")}, "1%", 0},
	} {
		if got := c.demand.Order(quoin.MustRate(c.ratio)); got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
}

// What is sold for 20.00 each, or 2.00. Worked out by hand.
// What is left over of few, of one, and of none.
func TestLeftOverAtTheEdges(t *testing.T) {
	cases := source.Demand{Cases: []source.Case{sells(20, quoin.MustRate("40%")), sells(60, quoin.MustRate("60%"))}}
	one, half := source.Demand{Low: 1, High: 1}, source.Demand{High: 1}
	for _, c := range []struct {
		demand source.Demand
		n      int64
		want   string
	}{
		{cases, 0, "0"},
		{cases, 20, "0"},
		{cases, 21, "0.4"},
		{cases, 61, "17"}, // 0.4 × 41 + 0.6
		{one, 0, "0"},
		{one, 1, "0"},
		{one, 3, "2"},
		{half, 0, "0"},
		{half, 1, "0.5"},
		{half, 2, "1.5"},
		{source.Demand{Low: 300, High: 500}, 299, "0"},
		{source.Demand{Low: 300, High: 500}, 300, "0"},
		{source.Demand{Low: 300, High: 500}, 301, "0.0025"},
		{source.Demand{Low: 300, High: 500}, 500, "100"},
	} {
		if got := c.demand.LeftOver(c.n); !got.Equal(factor(c.want)) {
			t.Errorf("%v: of %d are left %s, want %s", c.demand, c.n, got, c.want)
		}
	}
}

// Of equal costs home comes first, then the earlier quote; and nothing is said of more than was asked.
func TestCompareTies(t *testing.T) {
	quote := func(id, each string) source.Quote {
		return source.Quote{ID: id, Scale: buy.Scale{Steps: prices("1", each)}}
	}
	home := source.RunAtHome{Each: amount("2.00")}
	steep := source.Quote{ID: "c", Scale: buy.Scale{Steps: prices("1", "3.00", "100", "1.00")}}
	for _, c := range []struct {
		quotes []source.Quote
		most   int64
		want   string
	}{
		{[]source.Quote{quote("a", "2.00")}, 50, "home 1-50 "},
		{[]source.Quote{quote("a", "1.00"), quote("b", "1.00")}, 50, "a 1-50 "},
		{[]source.Quote{quote("a", "3.00"), quote("b", "1.00")}, 50, "b 1-50 "},
		{[]source.Quote{steep}, 49, "home 1-49 "},
		{[]source.Quote{steep}, 98, "home 1-50 c 51-98 "},
		{[]source.Quote{steep}, 99, "home 1-50 c 51-99 "},
		{[]source.Quote{steep}, 100, "home 1-50 c 51-100 "}, // 100 for 100.00
		{nil, 1, "home 1-1 "},
	} {
		got, err := source.Compare(home, c.quotes, c.most)
		said := ""
		for _, s := range got {
			said += fmt.Sprintf("%s %d-%d ", s.Source, s.From, s.To)
		}
		if said != c.want || err != nil {
			t.Errorf("up to %d: %s, %v, want %s", c.most, said, err, c.want)
		}
	}
}

func TestToHaveMadeAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		what   string
		scale  buy.Scale
		demand source.Demand
		price  string
		want   int64
	}{
		// 49 at 2.00: 9² ÷ 40 = 2.025 are left, 18 × 46.975 − 4.05 = 841.50; 50 at 10.00: 10 × 47.5 − 25 = 450.
		{"dearer from 50", buy.Scale{Steps: steps(1, "2.00", 50, "10.00")}, source.Demand{Low: 40, High: 60}, "20.00", 49},
		// Nothing is gained at 2.00, and 1 at 1.00: half of 0 to 10 are 5, of which 1.25 are left.
		{"nothing gained from 50 on", buy.Scale{Steps: steps(1, "1.00", 50, "2.00")}, source.Demand{High: 10}, "2.00", 5},
		{"nothing gained at all", buy.Scale{Steps: steps(1, "2.00")}, source.Demand{High: 10}, "2.00", 0},
		// 49: 4 of 49 are left, 18 × 45 − 8 = 802; 42: 756; 56 at 1.99: 18.01 × 45 − 21.89 = 788.56.
		{"the last pack before a step", buy.Scale{Steps: steps(1, "2.00", 50, "1.99"), Multiple: 7}, source.Demand{Low: 44, High: 46}, "20.00", 49},
		// 50 at 1.00: 5 are left, 19 × 45 − 5 = 850; 46 at 2.00: 18 × 45 − 2 = 808.
		{"the first of a step", buy.Scale{Steps: steps(1, "2.00", 50, "1.00")}, source.Demand{Low: 44, High: 46}, "20.00", 50},
		// 10 of 100 sell: 18 × 10 − 2 × 90, which is no loss.
		{"at least 100, for nothing", buy.Scale{Steps: steps(1, "2.00"), Minimum: 100}, source.Demand{Low: 10, High: 10}, "20.00", 100},
		// All sell for sure, and each brings 18.00: as many as are asked for.
		{"exactly 40", buy.Scale{Steps: steps(1, "2.00")}, source.Demand{Low: 40, High: 40}, "20.00", 40},
	} {
		got, ok := source.Quote{ID: "house", Scale: c.scale}.ToHaveMade(c.demand, kept(c.price))
		if !ok || got != c.want {
			t.Errorf("%s: %d, %t, want %d", c.what, got, ok, c.want)
		}
	}
}

func TestCompareProblems(t *testing.T) {
	packs := func(n int64) source.Quote {
		return source.Quote{Scale: buy.Scale{Steps: prices("1", "2"), Multiple: n}}
	}
	const steps = ".scale.multiple: found 2, wanted a larger multiple, or fewer prints to compare [too_many_steps]"
	for what, c := range map[string]struct {
		quotes []source.Quote
		most   int64
		want   string
	}{
		"nothing to compare":         {nil, 0, "fault most: found 0, wanted a value of at least 1 and at most 1000000 [out_of_range]"},
		"one":                        {nil, 1, ""},
		"as many as can be":          {nil, 1_000_000, ""},
		"more":                       {nil, 1_000_001, "fault most: found 1000001, wanted a value of at least 1 and at most 1000000 [out_of_range]"},
		"998 packs":                  {[]source.Quote{packs(2)}, 1997, ""},
		"999 packs":                  {[]source.Quote{packs(2)}, 1998, "fault quotes[0]" + steps},
		"too many of two":            {[]source.Quote{packs(2), packs(2)}, 1000, "fault quotes[1]" + steps}, // 500 and what they add, and 500
		"a million of one at a time": {[]source.Quote{packs(0), packs(1)}, 1_000_000, ""},
		"few of two":                 {[]source.Quote{packs(2), packs(2)}, 980, ""},
		"two that are at fault":      {[]source.Quote{{Scale: buy.Scale{Steps: prices("2", "2")}}, {}}, 10, "fault quotes[0].scale.steps: found a price from 2, wanted prices from 1, then from rising quantities [bad_scale]\nfault quotes[1].scale.steps: found nothing, wanted the field steps [missing_field]"},
	} {
		got, err := source.Compare(source.RunAtHome{Each: amount("1")}, c.quotes, c.most)
		if said := problemtest.Full(err); said != c.want || (got == nil) != (c.want != "") {
			t.Errorf("%s: %d, %s\nwant %s", what, len(got), said, c.want)
		}
	}
}

// A house whose prints come in packs of 10 has some left of each pack.
func TestSurplusOfStretches(t *testing.T) {
	house := source.Quote{ID: "house", Scale: buy.Scale{Steps: prices("1", "1.00"), Multiple: 10}}
	got, err := source.Compare(source.RunAtHome{Each: amount("3.00")}, []source.Quote{house}, 25)
	// 10.00 for up to 10, which is less than at home from 4 on; 20.00 for up to 20, from 7 on, and so always.
	want := []source.Stretch{
		{From: 1, To: 3, Source: "home", First: amount("3.00"), Last: amount("9.00")},
		{From: 4, To: 25, Source: "house", First: amount("10.00"), Last: amount("30.00"), Surplus: 6},
	}
	if err != nil || len(got) != len(want) {
		t.Fatalf("%+v, %v", got, err)
	}
	for i, s := range got {
		w := want[i]
		if s.From != w.From || s.To != w.To || s.Source != w.Source || s.Surplus != w.Surplus || !s.First.Equal(w.First) || !s.Last.Equal(w.Last) {
			t.Errorf("%v, want %v", s, w)
		}
	}
}
