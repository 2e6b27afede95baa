package waste_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/waste"
)

// A route that loses in all three ways, and sells a quarter of what it spoils at last.
var ways = waste.Route{
	{ID: "print", Yield: quoin.MustRate("80%"), Recovery: amount("0.16")},
	{ID: "dry", LostOfStarted: quoin.MustRate("50%")},
	{ID: "rest"},
	{ID: "pack", LostOfGood: quoin.MustRate("25%"), Recovery: amount("0.40"), Seconds: waste.Seconds{Share: quoin.MustRate("25%"), Price: amount("4.00")}},
}

// 0.8 × 0.5 × 1 × 1 ÷ 1.25 is 0.32, and 1 ÷ 0.32 is 3.125.
func TestSteps(t *testing.T) {
	at := func(i int) quoin.Path { return quoin.InList("stages", i) }
	for _, c := range []struct {
		what    string
		explain func(*quoin.Trail)
		want    string
	}{
		{"starts at the first", func(t *quoin.Trail) { ways.ExplainStarts(t, 0, at) }, `
yield stages[3] (pack): quotient one 1x, lost of good one_plus 25% @stages[3].lost_of_good = 0.8x
yield_onward stages[0] (print): product yield 80% @stages[0].yield, lost of started one_minus 50% @stages[1].lost_of_started, yield 100% @stages[2].yield ?, yield 0.8x #1 = 0.32x
starts stages[0] (print): quotient one 1x, yield_onward 0.32x #2 = 3.125x
`},
		{"at the second", func(t *quoin.Trail) { ways[:3].ExplainStarts(t, 1, at) }, `
yield_onward stages[1] (dry): product lost of started one_minus 50% @stages[1].lost_of_started, yield 100% @stages[2].yield ? = 0.5x
starts stages[1] (dry): quotient one 1x, yield_onward 0.5x #1 = 2x
`},
		// 1.25 starts at packing, and 1 behind it: 0.25 spoiled, each worth 0.40 × 0.75 + 4.00 × 0.25.
		{"seconds", func(t *quoin.Trail) {
			ways.ExplainSalvage(t, 3, at, factor("1.25").Named("starts"), factor("1").Named("starts"))
		}, `
spoiled stages[3] (pack): sum starts 1.25x, starts minus 1x = 0.25x
recovers stages[3] (pack): weighted recovery 0.40 @stages[3].recovery, share of seconds one_minus 25% @stages[3].seconds.share, price of seconds 4.00 @stages[3].seconds.price, share of seconds 25% @stages[3].seconds.share = 1.30
salvage stages[3] (pack): product recovers 1.30 #2, spoiled 0.25x #1 = 0.325
`},
		{"no seconds", func(t *quoin.Trail) {
			ways.ExplainSalvage(t, 0, at, factor("3.125").Named("starts"), factor("2.5").Named("starts"))
		}, `
spoiled stages[0] (print): sum starts 3.125x, starts minus 2.5x = 0.625x
salvage stages[0] (print): product recovery 0.16 @stages[0].recovery, spoiled 0.625x #1 = 0.10
`},
		{"behind the last", func(t *quoin.Trail) {
			ways.ExplainStarts(t, 4, at)
			ways.ExplainSalvage(t, 4, at, quoin.Operand{}, quoin.Operand{})
		}, "\n"},
	} {
		trail := quoin.NewTrail(4)
		c.explain(trail)
		if got := problemtest.Steps(trail.Steps()); got != strings.TrimPrefix(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant%s", c.what, got, c.want)
		}
	}
	trail := quoin.NewTrail(1)
	if got := problemtest.Operand(ways.ExplainStarts(trail, 4, at)); got != "starts 1x ?" {
		t.Errorf("starts behind the last: %s", got)
	}
	if got := problemtest.Operand(ways.ExplainSalvage(trail, 4, at, quoin.Operand{}, quoin.Operand{})); got != "salvage 0 ?" {
		t.Errorf("salvage behind the last: %s", got)
	}
}

// Compiled, a route says the same; of two stages with one name the first counts.
func TestCompiledRoutes(t *testing.T) {
	twice := append(waste.Route{}, ways...)
	twice[3].ID = "print"
	for _, r := range []waste.Route{ways, twice, {}} {
		c := r.Compile()
		for _, stage := range []string{"print", "dry", "rest", "pack", "cut"} {
			want, ok := r.Starts(stage)
			if got, found := c.Starts(stage); found != ok || !got.Equal(want) {
				t.Errorf("%s starts at %s, %t, want %s, %t", got, stage, found, want, ok)
			}
		}
		if c.First() != r.First() || !c.Recovered().Equal(r.Recovered()) || len(c.Salvage()) != len(r.Salvage()) {
			t.Errorf("%q, %s, %v", c.First(), c.Recovered(), c.Salvage())
		}
	}
	if got := ways.Recovered(); !got.Equal(amount("0.425")) { // 0.10 + 0.325
		t.Errorf("%s is recovered, want 0.425", got)
	}
}

func TestStartsProblems(t *testing.T) {
	const rates = "fault yield: found "
	for _, c := range []struct {
		good        int64
		yield, sure string
		want        string
	}{
		{1, "100%", "0.0001%", ""},
		{10_000, "100%", "99.9999%", ""},
		{0, "90%", "90%", "fault good: found 0, wanted a value of at least 1 [out_of_range]"},
		{10_001, "90%", "90%", "fault found 10001 good ones, wanted 1 to 10000 [too_many_starts]"},
		{1, "0%", "90%", rates + "0%, wanted a value above 0% and at most 100% [out_of_range]"},
		{1, "101%", "90%", rates + "101%, wanted a value above 0% and at most 100% [out_of_range]"},
		{1, "90%", "0%", "fault sure: found 0%, wanted a value above 0% and below 100% [out_of_range]"},
		{1, "90%", "100%", "fault sure: found 100%, wanted a value above 0% and below 100% [out_of_range]"},
		{-1, "-1%", "101%", "fault good: found -1, wanted a value of at least 1 [out_of_range]\n" + rates + "-1%, wanted a value above 0% and at most 100% [out_of_range]\n" +
			"fault sure: found 101%, wanted a value above 0% and below 100% [out_of_range]"},
		{10_000, "10%", "40%", ""}, // 100,000 on average
		{10_000, "9.999%", "40%", "fault found more than 100000 starts, wanted a yield, or a chance, that fewer do for [too_many_starts]"},
		{10_000, "10%", "60%", "fault found more than 100000 starts, wanted a yield, or a chance, that fewer do for [too_many_starts]"},
	} {
		got, err := waste.StartsFor(c.good, quoin.MustRate(c.yield), quoin.MustRate(c.sure))
		if said := problemtest.Full(err); said != c.want || (got.Start == 0) != (c.want != "") {
			t.Errorf("%d at %s, %s sure: %d starts, %s, want %s", c.good, c.yield, c.sure, got.Start, said, c.want)
		}
	}
}

// 2 good of 3 at 50%: 3 × 1/8 + 1/8 is a half; of none, and of more than are looked at, there is none.
func TestChances(t *testing.T) {
	for _, c := range []struct {
		started, good int64
		yield, want   string
	}{
		{3, 2, "50%", "50%"},
		{2, 2, "50%", "25%"},
		{1, 2, "50%", "0%"},
		{0, 1, "50%", "0%"},
		{1, 1, "90%", "90%"},
		{2, 1, "90%", "99%"},
		{5, 5, "100%", "100%"},
		{500, 5, "100%", "100%"},
		{100_000, 1, "50%", "100%"},
		{100_001, 1, "50%", "0%"},
		{98, 1, "1%", "62.65357195457..."},
		{97, 1, "1%", "62.2763353076..."},
		{99, 1, "1%", "63.02703623502..."}, // 1 − 0.99^98, 1 − 0.99^97 and 1 − 0.99^99, by Python 3
	} {
		got, err := waste.Chance(c.started, c.good, quoin.MustRate(c.yield))
		if near := strings.TrimSuffix(c.want, "..."); err != nil || near == c.want && got.String() != c.want || near != c.want && !strings.HasPrefix(got.String(), near) {
			t.Errorf("%d good of %d at %s: %s, %v, want %s", c.good, c.started, c.yield, got, err, c.want)
		}
	}
	if got, err := waste.Chance(5, 0, quoin.MustRate("50%")); err == nil || got.IsGiven() {
		t.Errorf("%s, %v", got, err)
	}
}

// 100 ordered, 10% more or less, at 2.00 each and 20.00 for setting up.
func TestDeliveries(t *testing.T) {
	d := waste.Delivery{Ordered: 100, Over: quoin.MustRate("10%"), Under: quoin.MustRate("10%"), Setup: amount("20.00"), Each: amount("2.00")}
	cost, ok := d.UnitCost()
	if d.Fewest() != 90 || d.Most() != 110 || !d.Cash().Equal(amount("240.00")) || !ok || !cost.High.Times(factor("90")).Equal(amount("200.00")) || !cost.Low.Times(factor("110")).Equal(amount("240.00")) {
		t.Errorf("%d to %d for %s, each %v, %t", d.Fewest(), d.Most(), d.Cash(), cost, ok)
	}
	d.Ordered = 15
	if d.Fewest() != 14 || d.Most() != 16 { // 13.5 rounded up, 16.5 down
		t.Errorf("%d to %d", d.Fewest(), d.Most())
	}
	d.Under = quoin.MustRate("100%")
	if cost, ok := d.UnitCost(); ok || !cost.IsZero() {
		t.Errorf("none may arrive, at %v each", cost)
	}
}

func TestProblemsOfRoutes(t *testing.T) {
	r := waste.Route{{ID: "print", Yield: quoin.MustRate("90%")}, {}, {}, {ID: "print", Yield: quoin.MustRate("101%")}}
	const want = `fault [1].id: found nothing, wanted the field id [missing_field]
fault [2].id: found nothing, wanted the field id [missing_field]
fault [3].yield: found 101%, wanted a value above 0% and at most 100% [out_of_range]
fault [3].id: found "print" again, wanted each stage once [duplicate_id]`
	if got := problemtest.Full(r.Check()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	for what, c := range map[string]struct {
		do   func()
		says string
	}{
		"starts": {func() { waste.Route{{ID: "a", LostOfStarted: quoin.MustRate("100%")}}.Starts("a") }, "quoin: a stage that loses all, of which nothing comes out: Route.Check refuses it"},
		"parcels": {
			func() { waste.Allowance{Loss: quoin.MustRate("100%")}.Resend(amount("1")) },
			"quoin: a loss of all that is sent, of which nothing arrives: it has to be below 100%",
		},
	} {
		func() {
			defer func() {
				if said := recover(); said != c.says {
					t.Errorf("%s: %v", what, said)
				}
			}()
			c.do()
		}()
	}
}
