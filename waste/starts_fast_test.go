package waste_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/waste"
)

func TestStartsAgree(t *testing.T) { rapid.Check(t, startsAgree) }
func FuzzStartsAgree(f *testing.F) { f.Fuzz(rapid.MakeFuzz(startsAgree)) }

// startsAgree: what is looked for near the average is what trying one start after the
// other finds, digit by digit as it is written.
func startsAgree(t *rapid.T) {
	good := rapid.Int64Range(1, 400).Draw(t, "good")
	yield := quoin.MustRate(fmt.Sprintf("0.%s%d", rapid.StringMatching(`0{0,2}[0-9]{0,4}`).Draw(t, "digits"), rapid.IntRange(1, 9).Draw(t, "last")))
	sure := quoin.MustRate("0." + rapid.StringMatching(`(0{0,10}[1-9][0-9]{0,4}|[0-9]{0,6}[1-9]|9{1,16})`).Draw(t, "sure"))
	average := quoin.FactorOf(good).Over(yield.Factor())
	if average.Cmp(quoin.FactorOf(4000)) > 0 {
		t.Skip("too long a way for one start after the other")
	}
	starts := average.Round(0, quoin.Up).Rat().Num().Int64()
	want, found := waste.Stepwise(good, starts, 100_000, yield, sure)
	all, err := waste.StartsFor(good, yield, sure)
	if fmt.Sprint(all) != fmt.Sprint(want) || found != (err == nil) {
		t.Fatalf("%d at %s, %s sure: %+v, %v, want %+v", good, yield, sure, all, err, want)
	}
	if starts-good > 96 {
		fast, certain, err := waste.Fast(good, starts, yield, sure)
		if !certain || fmt.Sprint(fast) != fmt.Sprint(want) || found != (err == nil) {
			t.Fatalf("%d at %s, %s sure: %+v, %v, %t, want %+v", good, yield, sure, fast, err, certain, want)
		}
	}
	for _, n := range []int64{good, good + 96, good + 97, want.Start, starts + 97} {
		if got, err := waste.Chance(n, good, yield); err != nil || n == want.Start && got.String() != want.Chance.String() {
			t.Fatalf("%d starts for %d at %s: %s, %v, want %s", n, good, yield, got, err, want.Chance)
		}
	}
}

// At the ends of what is taken: ten thousand, next to nothing lost, nearly all lost,
// as sure as can be and hardly sure at all. The starts before are not enough, by
// the definition; what is refused is refused whichever way.
func TestStartsAgreeAtTheEnds(t *testing.T) {
	for _, c := range []struct {
		good        int64
		yield, sure string
	}{
		{10_000, "90%", "99%"},
		{10_000, "90%", "0.01"},
		{10_000, "99.9%", "0.9999999999999999"},
		{10_000, "99.99%", "50%"},
		{9_999, "55.5%", "0.000000000003"},
		{120, "2%", "0.9999999999"},
		{1, "1%", "99.9%"},
		{2, "0.5%", "0.0001"},
		{97, "50%", "50%"},
		{10_000, "20%", "0.0000000000001"},
		{10_000, "20%", "0.0000000000005"},
		{10_000, "20%", "0.0000000000005001"},
		{1, "1%", "10%"},
		{30, "1%", "0.0000000000005001"},
	} {
		yield, sure := quoin.MustRate(c.yield), quoin.MustRate(c.sure)
		average := quoin.FactorOf(c.good).Over(yield.Factor()).Round(0, quoin.Up).Rat().Num().Int64()
		got, err := waste.StartsFor(c.good, yield, sure)
		want, found := waste.Stepwise(c.good, average, 100_000, yield, sure)
		if fmt.Sprint(got) != fmt.Sprint(want) || found != (err == nil) {
			t.Errorf("%+v: %+v, %v, want %+v", c, got, err, want)
		}
		if _, certain, _ := waste.Fast(c.good, average, yield, sure); !certain && average-c.good > 96 {
			t.Errorf("%+v: left to the definition", c)
		}
	}
}

// What would need more starts than are looked at is refused for a good reason: the
// greatest number is not enough.
func TestStartsBeyondAreRefused(t *testing.T) {
	for _, c := range []struct {
		good        int64
		yield, sure string
		refused     bool
	}{
		{9_999, "10.1%", "85%", false},
		{10_000, "10.001%", "99.9%", true},
		{10_000, "10.4%", "99.9%", false},
		{10_000, "10%", "90%", true},
		{10_000, "10%", "10%", false},
		{1, "0.02%", "99.9999%", false},
		{1, "0.01%", "0.9999", false},
		{1, "0.01%", "0.9999999", true},
	} {
		yield := quoin.MustRate(c.yield)
		s, err := waste.StartsFor(c.good, yield, quoin.MustRate(c.sure))
		all, err2 := waste.Chance(100_000, c.good, yield)
		if err2 != nil || (err != nil) != c.refused || c.refused != (all.Cmp(quoin.MustRate(c.sure)) < 0) {
			t.Errorf("%+v: %+v, %v; 100000 starts do %s, %v", c, s, err, all, err2)
		}
	}
}

func BenchmarkStartsAtTheEnds(b *testing.B) {
	for _, c := range []struct {
		good        int64
		yield, sure string
	}{{10_000, "10.2%", "99%"}, {1, "0.02%", "99.9999%"}, {10_000, "10%", "99%"}, {60, "62%", "0.9999999999"}, {5_000, "99.9%", "0.9999999999"}} {
		b.Run(fmt.Sprint(c), func(b *testing.B) {
			yield, sure := quoin.MustRate(c.yield), quoin.MustRate(c.sure)
			for b.Loop() {
				_, _ = waste.StartsFor(c.good, yield, sure)
			}
		})
	}
}
