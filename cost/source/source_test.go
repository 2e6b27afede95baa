package source_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/source"
	"example.com/quoin/internal/problemtest"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

func prices(pairs ...string) []buy.PriceBreak {
	var out []buy.PriceBreak
	for i := 0; i < len(pairs); i += 2 {
		n := factor(pairs[i]).Rat().Num().Int64()
		out = append(out, buy.PriceBreak{From: n, Each: amount(pairs[i+1])})
	}
	return out
}

// 25.00 each up to 20 and 20.00 from 21, as a ledger.
func TestQuotes(t *testing.T) {
	all := source.Quote{Setup: amount("15.00"), Proof: amount("8.00"), Scale: buy.Scale{Freight: amount("9.00"), Steps: prices("1", "2.50", "100", "2.00")}}
	free := all
	free.Scale.FreeFrom = quoin.Some(amount("250.00"))
	incremental := all
	incremental.Scale.Mode = buy.Incremental
	minimum := all
	minimum.Scale.Minimum, minimum.Scale.Multiple = 50, 25
	for _, c := range []struct {
		what   string
		quote  source.Quote
		needed int64
		cost   string
	}{
		{"forty", all, 40, "132.00"},                                 // 100 + 32
		{"just below the break, bought up to it", all, 99, "232.00"}, // 247.50 + 32 would be 279.50
		{"as cheap as the break", all, 80, "232.00"},                 // 200 + 32 either way
		{"at the break", all, 100, "232.00"},                         // 200 + 32
		{"no freight from 250.00", free, 130, "283.00"},              // 260 + 23
		{"and bought up to it", free, 124, "273.00"},                 // 250 + 23; 248 + 32 would be 280
		{"only those from 100 at 2.00", incremental, 110, "301.50"},  // 247.50 + 22 + 32
		{"the minimum", minimum, 3, "157.00"},                        // 125 + 32
		{"the next multiple", minimum, 51, "219.50"},                 // 75 at 2.50
		{"a multiple that reaches the break", minimum, 76, "232.00"}, // 100 at 2.00
	} {
		if got := c.quote.Cost(c.needed); !got.Equal(amount(c.cost)) {
			t.Errorf("%s: %d cost %s, want %s", c.what, c.needed, got, c.cost)
		}
	}
	if got := minimum.PerPrint(3); !got.Times(factor("3")).Equal(amount("157.00")) {
		t.Errorf("each of three needed costs %s", got)
	}
}

// At home 12.00 and 3.00 each; a house asks 40.00 and 2.50, and from 100 on
// 2.00. They cost the same at 56 prints: 180.00.
func TestCompare(t *testing.T) {
	home := source.RunAtHome{Fixed: amount("12.00"), Each: amount("3.00")}
	house := source.Quote{ID: "house", Setup: amount("40.00"), Scale: buy.Scale{Steps: prices("1", "2.50", "100", "2.00")}}
	got, err := source.Compare(home, []source.Quote{house}, 150)
	if err != nil || len(got) != 2 || got[0].Source != source.AtHome || got[0].To != 56 || got[1].Source != "house" || got[1].From != 57 || got[1].To != 150 {
		t.Fatalf("%+v, %v", got, err)
	}
	if !got[0].Last.Equal(amount("180.00")) || !got[1].First.Equal(amount("182.50")) || !got[1].Last.Equal(amount("340.00")) {
		t.Errorf("%+v", got)
	}
}

func TestCompareRefused(t *testing.T) {
	for what, c := range map[string]struct {
		quote source.Quote
		most  int64
		code  quoin.Code
	}{
		"nothing to compare":  {source.Quote{Scale: buy.Scale{Steps: prices("1", "2")}}, 0, quoin.OutOfRange},
		"too much":            {source.Quote{Scale: buy.Scale{Steps: prices("1", "2")}}, 1_000_001, quoin.OutOfRange},
		"multiples of two":    {source.Quote{Scale: buy.Scale{Steps: prices("1", "2"), Multiple: 2}}, 1_000_000, source.TooManySteps},
		"no prices":           {source.Quote{}, 10, quoin.MissingField},
		"prices from two":     {source.Quote{Scale: buy.Scale{Steps: prices("2", "2")}}, 10, buy.BadScale},
		"prices out of order": {source.Quote{Scale: buy.Scale{Steps: prices("1", "2", "9", "1", "9", "1")}}, 10, buy.BadScale},
	} {
		got, err := source.Compare(source.RunAtHome{}, []source.Quote{c.quote}, c.most)
		if p := problemtest.Only(err); p.Code != c.code || got != nil {
			t.Errorf("%s: %v, %v, want %s", what, got, err, c.code)
		}
	}
}

func drawQuote(t *rapid.T, id string) source.Quote {
	money := func(name string, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(0, most).Draw(t, name), 2)
	}
	q := source.Quote{ID: id, Setup: money("setup", 5000), Proof: money("proof", 1000), Scale: buy.Scale{Freight: money("freight", 1500)}}
	from := int64(1)
	for range rapid.IntRange(1, 4).Draw(t, "prices") {
		q.Scale.Steps = append(q.Scale.Steps, buy.PriceBreak{From: from, Each: money("each", 500)})
		from += rapid.Int64Range(1, 60).Draw(t, "next")
	}
	q.Scale.Mode = rapid.SampledFrom([]buy.Mode{"", buy.AllUnits, buy.Incremental}).Draw(t, "mode")
	if rapid.Bool().Draw(t, "free") {
		q.Scale.FreeFrom = quoin.Some(money("free from", 20_000))
	}
	if rapid.Bool().Draw(t, "minimum") {
		q.Scale.Minimum, q.Scale.Multiple = rapid.Int64Range(1, 50).Draw(t, "at least"), rapid.Int64Range(1, 20).Draw(t, "multiple")
	}
	return q
}

// Against trying every volume.
func TestCompareAgainstEveryVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		home := source.RunAtHome{Fixed: quoin.AmountOf(rapid.Int64Range(0, 4000).Draw(t, "fixed"), 2), Each: quoin.AmountOf(rapid.Int64Range(0, 400).Draw(t, "each"), 2)}
		quotes := []source.Quote{drawQuote(t, "a"), drawQuote(t, "b")}
		const most = 150
		got, err := source.Compare(home, quotes, most)
		if err != nil {
			t.Fatal(err)
		}
		next := int64(1)
		for _, s := range got {
			if s.From != next || s.To < s.From {
				t.Fatalf("stretches do not follow each other: %+v", got)
			}
			for n := s.From; n <= s.To; n++ {
				best, least := source.AtHome, home.Cost(n)
				for _, q := range quotes {
					if c := q.Cost(n); c.Cmp(least) < 0 {
						best, least = q.ID, c
					}
				}
				if best != s.Source {
					t.Fatalf("%d prints: %s is best, not %s\n%+v\n%+v", n, best, s.Source, quotes, got)
				}
			}
			next = s.To + 1
		}
		if next != most+1 {
			t.Fatalf("stretches end at %d", next-1)
		}
	})
}

// Values of textbooks of operations management, from memory.
func TestPublishedNewsvendor(t *testing.T) {
	// Stevenson: cider, evenly 300 to 500, short .60, over .20: .75 and 450.
	ratio, ok := source.CriticalRatio(amount("0.60"), amount("0.20"))
	cider := source.Demand{Low: 300, High: 500}
	if !ok || !ratio.Equal(quoin.MustRate("75%")) || cider.Order(ratio) != 450 {
		t.Errorf("%s, %d", ratio, cider.Order(ratio))
	}
	// Stevenson: cherry-cider, normal 200 and 10 at .75: 206.75 with z of a
	// table, .675; exactly 206.74.
	cherry := source.Demand{Mean: factor("200"), Deviation: factor("10")}
	if got := cherry.Quantile(ratio).Round(2, quoin.HalfUp).String(); got != "206.74" {
		t.Errorf("%s, want 206.74", got)
	}
	// Cachon and Terwiesch, Matching Supply with Demand: wetsuits, normal 3,192
	// and 1,181; price 190 (180), cost 110, salvage 90: ratio .8 (.7778); 4,196
	// and 4,101 with z of a table, .85 and .77.
	wetsuits := source.Demand{Mean: factor("3192"), Deviation: factor("1181")}
	for _, c := range []struct {
		price, ratio, z string
		quantity        int64
	}{{"190", "80%", "0.85", 4196}, {"180", "77.78%", "0.77", 4101}} {
		ratio, _ := source.CriticalRatio(amount(c.price).Sub(amount("110")), amount("20"))
		if got := ratio.Round(2).String(); got != c.ratio {
			t.Errorf("price %s: ratio %s, want %s", c.price, got, c.ratio)
		}
		if table := wetsuits.Mean.Add(wetsuits.Deviation.Times(factor(c.z))).Round(0, quoin.HalfUp); !table.Equal(quoin.FactorOf(c.quantity)) {
			t.Errorf("with z of a table %s, want %d", table, c.quantity)
		}
		if got := wetsuits.Order(ratio); got > c.quantity || got < c.quantity-12 {
			t.Errorf("price %s: %d, near %d wanted", c.price, got, c.quantity)
		}
	}
}

// Quantiles of the standard normal distribution (from memory, to ten places).
func TestPublishedNormal(t *testing.T) {
	standard := source.Demand{Mean: factor("10"), Deviation: factor("1")}
	for p, want := range map[string]string{"50%": "10.0000000000", "75%": "10.6744897502", "97.5%": "11.9599639845", "99.9%": "13.0902323062", "2.5%": "8.0400360155", "84.13447460685%": "11.0000000000"} {
		if got := standard.Quantile(quoin.MustRate(p)).Round(10, quoin.HalfUp); !got.Equal(factor(want)) {
			t.Errorf("%s: %s, want %s", p, got, want)
		}
	}
}

func TestLeftOver(t *testing.T) {
	for _, c := range []struct {
		what   string
		demand source.Demand
		n      int64
		want   string
	}{
		{"evenly 300 to 500, of 450", source.Demand{Low: 300, High: 500}, 450, "56.25"}, // 150² ÷ 400
		{"of more than are ever asked for", source.Demand{Low: 300, High: 500}, 520, "120"},
		{"of fewer than ever", source.Demand{Low: 300, High: 500}, 200, "0"},
		{"20 or 60, of 50", source.Demand{Cases: []source.Case{sells(20, quoin.MustRate("40%")), sells(60, quoin.MustRate("60%"))}}, 50, "12"},
		{"normal, of its mean: deviation × φ(0)", source.Demand{Mean: factor("200"), Deviation: factor("10")}, 200, "3.989422804"},
		{"normal, of far more", source.Demand{Mean: factor("200"), Deviation: factor("10")}, 300, "100"},
		{"exactly 40", source.Demand{Low: 40, High: 40}, 55, "15"},
	} {
		if got := c.demand.LeftOver(c.n).Round(9, quoin.HalfUp); !got.Equal(factor(c.want)) {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

func TestDemandsRefused(t *testing.T) {
	half := quoin.MustRate("50%")
	for what, d := range map[string]source.Demand{
		"none":              {},
		"two ways":          {High: 5, Mean: factor("3"), Deviation: factor("1")},
		"low above high":    {Low: 9, High: 5},
		"no deviation":      {Mean: factor("3")},
		"half of the cases": {Cases: []source.Case{sells(5, half)}},
	} {
		if p := problemtest.Only(d.Check()); p.Code != source.BadDemand {
			t.Errorf("%s: %v", what, d.Check())
		}
	}
	if err := (source.Demand{Cases: []source.Case{sells(5, half), sells(9, half)}}).Check(); err != nil {
		t.Error(err)
	}
	if _, ok := source.CriticalRatio(amount("-1"), amount("2")); ok {
		t.Error("a ratio of a print that loses when it sells")
	}
}

// Of cases, the best order earns at least what any other does, in exact
// fractions.
func TestNewsvendorAgainstEveryOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "cases")
		left := 100
		var d source.Demand
		for i := range n {
			share := left
			if i < n-1 {
				share = rapid.IntRange(0, left).Draw(t, "share")
			}
			left -= share
			d.Cases = append(d.Cases, sells(rapid.Int64Range(0, 30).Draw(t, "prints"), quoin.MustRate(fmt.Sprintf("%d%%", share))))
		}
		short, over := rapid.Int64Range(1, 50).Draw(t, "short"), rapid.Int64Range(0, 50).Draw(t, "over")
		ratio, _ := source.CriticalRatio(quoin.AmountOf(short, 0), quoin.AmountOf(over, 0))
		lost := func(q int64) *big.Rat {
			sum := new(big.Rat)
			for _, c := range d.Cases {
				loss := max(c.Prints.Or(0)-q, 0)*short + max(q-c.Prints.Or(0), 0)*over
				sum.Add(sum, new(big.Rat).Mul(c.Share.Rat(), big.NewRat(loss, 1)))
			}
			return sum
		}
		best := d.Order(ratio)
		for q := int64(0); q <= 31; q++ {
			if lost(q).Cmp(lost(best)) < 0 {
				t.Fatalf("%d loses %s, %d only %s", best, lost(best), q, lost(q))
			}
		}
	})
}

func BenchmarkCompare(b *testing.B) {
	home := source.RunAtHome{Fixed: amount("12.00"), Each: amount("3.00")}
	house := source.Quote{ID: "house", Setup: amount("40.00"), Scale: buy.Scale{Freight: amount("9.00"), FreeFrom: quoin.Some(amount("300.00")), Steps: prices("1", "2.50", "100", "2.00", "500", "1.60")}}
	for b.Loop() {
		if _, err := source.Compare(home, []source.Quote{house}, 100_000); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOrder(b *testing.B) {
	d := source.Demand{Mean: factor("200"), Deviation: factor("35")}
	for b.Loop() {
		d.Order(quoin.MustRate("80%"))
	}
}

// sells is a case of so many prints.
func sells(prints int64, share quoin.Rate) source.Case {
	return source.Case{Prints: quoin.Some(prints), Share: share}
}
