package waste_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/waste"
)

// A worked case of the trade, recomputed exactly below: twenty good at 90% take
// 22 starts on average, which give them only 62% of the time; 24 give 91%, 25
// give 97%.
func TestStartsFor(t *testing.T) {
	yield := quoin.MustRate("90%")
	for started, percent := range map[int64]string{20: "12%", 22: "62%", 24: "91%", 25: "97%", 19: "0%"} {
		got, err := waste.Chance(started, 20, yield)
		if err != nil || got.Round(0).String() != percent {
			t.Errorf("%d starts are enough %s of the time, %v, want %s", started, got, err, percent)
		}
	}
	for sure, start := range map[string]int64{"62%": 22, "90%": 24, "92%": 25, "97%": 26, "1%": 20} {
		s, err := waste.StartsFor(20, yield, quoin.MustRate(sure))
		if err != nil || s.Start != start || s.Average != 23 {
			t.Errorf("%s sure: %+v, %v, want %d", sure, s, err, start)
		}
	}
	s, err := waste.StartsFor(20, yield, quoin.MustRate("95%"))
	if err != nil || s.AverageChance.Round(0).String() != "81%" || !s.Good.Equal(factor("22.5")) {
		t.Errorf("%+v, %v", s, err)
	}
	all, err := waste.StartsFor(20, quoin.MustRate("100%"), quoin.MustRate("99.9%"))
	if err != nil || all.Start != 20 || !all.Chance.Equal(quoin.MustRate("100%")) {
		t.Errorf("where nothing is lost: %+v, %v", all, err)
	}
	large, err := waste.StartsFor(10_000, yield, quoin.MustRate("99%"))
	if err != nil || large.Start <= 11_112 || large.Start > 11_300 {
		t.Errorf("ten thousand: %+v, %v", large, err)
	}
}

func TestStartsRefused(t *testing.T) {
	for what, c := range map[string]struct {
		good        int64
		yield, sure string
		code        quoin.Code
	}{
		"none":                       {0, "90%", "90%", quoin.OutOfRange},
		"too many":                   {10_001, "90%", "90%", waste.TooManyStarts},
		"no yield":                   {10, "0%", "90%", quoin.OutOfRange},
		"not sure":                   {10, "90%", "0%", quoin.OutOfRange},
		"all too sure":               {10, "90%", "100%", quoin.OutOfRange},
		"a yield of next to nothing": {10, "0.001%", "90%", waste.TooManyStarts},
	} {
		_, err := waste.StartsFor(c.good, quoin.MustRate(c.yield), quoin.MustRate(c.sure))
		if p := problemtest.Only(err); p.Code != c.code {
			t.Errorf("%s: %v, want %s", what, err, c.code)
		}
	}
}

// exactly is the sum of the binomial distribution in exact fractions.
func exactly(started, good int64, yield *big.Rat) *big.Rat {
	sum := new(big.Rat)
	lost := new(big.Rat).Sub(big.NewRat(1, 1), yield)
	for k := good; k <= started; k++ {
		term := new(big.Rat).SetInt(new(big.Int).Binomial(started, k))
		for range k {
			term.Mul(term, yield)
		}
		for range started - k {
			term.Mul(term, lost)
		}
		sum.Add(sum, term)
	}
	return sum
}

func TestStartsAgainstExactSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		percent := func(name string, from, to int) quoin.Rate {
			return quoin.MustRate(fmt.Sprintf("%d%%", rapid.IntRange(from, to).Draw(t, name)))
		}
		good, yield, sure := rapid.Int64Range(1, 15).Draw(t, "good"), percent("yield", 30, 100), percent("sure", 1, 99)
		s, err := waste.StartsFor(good, yield, sure)
		if err != nil {
			t.Fatal(err)
		}
		if exactly(s.Start, good, yield.Rat()).Cmp(sure.Rat()) < 0 {
			t.Fatalf("%d starts for %d at %s are not %s sure", s.Start, good, yield, sure)
		}
		if s.Start > good && exactly(s.Start-1, good, yield.Rat()).Cmp(sure.Rat()) >= 0 {
			t.Fatalf("%d starts for %d at %s are %s sure too", s.Start-1, good, yield, sure)
		}
		for started, chance := range map[int64]quoin.Rate{s.Start: s.Chance, s.Average: s.AverageChance} {
			if got, want := chance.Rat().FloatString(12), exactly(started, good, yield.Rat()).FloatString(12); got != want {
				t.Fatalf("%d starts for %d at %s: chance %s, exactly %s", started, good, yield, got, want)
			}
		}
	})
}

// 500 ordered at 10% over or under, 40.00 set-up and 1.20 each.
func TestDelivery(t *testing.T) {
	d := waste.Delivery{Ordered: 500, Over: quoin.MustRate("10%"), Under: quoin.MustRate("10%"), Setup: amount("45.00"), Each: amount("1.20")}
	each, ok := d.UnitCost()
	if d.Fewest() != 450 || d.Most() != 550 || !d.Cash().Equal(amount("705.00")) || !ok || !each.High.Equal(amount("1.30")) || each.Low.Round(4, quoin.HalfUp).String() != "1.2818" {
		t.Errorf("%d to %d for %s, each %s to %s", d.Fewest(), d.Most(), d.Cash(), each.Low, each.High)
	}
	odd := waste.Delivery{Ordered: 55, Over: quoin.MustRate("10%"), Under: quoin.MustRate("10%"), Each: amount("2.00")}
	if odd.Fewest() != 50 || odd.Most() != 60 { // 49.5 and 60.5
		t.Errorf("%d to %d of 55", odd.Fewest(), odd.Most())
	}
	if _, ok := (waste.Delivery{Under: quoin.MustRate("10%")}).UnitCost(); ok {
		t.Error("nothing ordered has a unit cost")
	}
}

// A food-yield textbook: 3.6 kg at a yield of 90% take 4 kg. And 1,200 lost of
// 13,200 is 10% of what came out, 12,000.
func TestPublishedYields(t *testing.T) {
	starts, _ := waste.Route{{ID: "trim", Yield: quoin.MustRate("90%")}}.Starts("trim")
	if got := factor("3.6").Times(starts); !got.Equal(factor("4")) {
		t.Errorf("%s kg, want 4", got)
	}
	starts, _ = waste.Route{{ID: "trim", LostOfGood: quoin.MustRate("10%")}}.Starts("trim")
	if got := factor("12000").Times(starts); !got.Equal(factor("13200")) {
		t.Errorf("%s started, want 13200", got)
	}
}

func BenchmarkStartsFor(b *testing.B) {
	for _, good := range []int64{20, 250} {
		b.Run(fmt.Sprint(good), func(b *testing.B) {
			for b.Loop() {
				if _, err := waste.StartsFor(good, quoin.MustRate("90%"), quoin.MustRate("95%")); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
