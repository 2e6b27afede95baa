package source_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/source"
)

// kept is what a print too few loses where it is sold for so much.
func kept(price string) func(quoin.Amount) quoin.Amount {
	return func(asked quoin.Amount) quoin.Amount { return quoin.MustAmount(price).Sub(asked) }
}

func steps(all ...any) (out []buy.PriceBreak) {
	for i := 0; i < len(all); i += 2 {
		out = append(out, buy.PriceBreak{From: int64(all[i].(int)), Each: quoin.MustAmount(all[i+1].(string))})
	}
	return out
}

// What is sold for 20.00 each. Worked out by hand.
func TestToHaveMade(t *testing.T) {
	for _, c := range []struct {
		what   string
		scale  buy.Scale
		demand source.Demand
		want   int64
	}{
		// 18.00 short, 2.00 over: nine tenths of 100 to 300.
		{"one price", buy.Scale{Steps: steps(1, "2.00")}, source.Demand{Low: 100, High: 300}, 280},
		// All orders that may be needed are of 50 and more.
		{"dearer below what is needed", buy.Scale{Steps: steps(1, "10.00", 50, "2.00")}, source.Demand{Low: 100, High: 300}, 280},
		{"dearer below, of each print by itself", buy.Scale{Steps: steps(1, "10.00", 50, "2.00"), Mode: buy.Incremental}, source.Demand{Low: 100, High: 300}, 280},
		// At 10.00 half of 1 to 41: 21, of which 21 − 5 = 16 are sold and 5 left: 160 − 50 = 110. 50 at 2.00: 21 are
		// sold and 29 left: 18 × 21 − 58 = 320.
		{"more, since it is cheaper", buy.Scale{Steps: steps(1, "10.00", 50, "2.00")}, source.Demand{Low: 1, High: 41}, 50},
		// Of 150, 89.01 are sold on average and 60.99 left: 1480; of 200 92 and 108: 1440.
		{"in packs of 50", buy.Scale{Steps: steps(1, "2.00"), Multiple: 50}, source.Demand{Low: 1, High: 183}, 150},
		// 10.5 are sold and 89.5 left: 189 − 179.
		{"at least 100", buy.Scale{Steps: steps(1, "2.00"), Minimum: 100}, source.Demand{Low: 1, High: 20}, 100},
		// 5.5 are sold and 94.5 left: 99 − 189.
		{"at least 100, which loses", buy.Scale{Steps: steps(1, "2.00"), Minimum: 100}, source.Demand{Low: 1, High: 10}, 0},
	} {
		got, ok := source.Quote{ID: "house", Scale: c.scale}.ToHaveMade(c.demand, kept("20.00"))
		if !ok || got != c.want {
			t.Errorf("%s: %d, %t, want %d", c.what, got, ok, c.want)
		}
	}
	if n, ok := (source.Quote{Scale: buy.Scale{Steps: steps(1, "2.00")}}).ToHaveMade(source.Demand{Low: 1, High: 9}, kept("1.00")); ok {
		t.Errorf("%d where each print loses", n)
	}
}

// On scales whose prices fall, no quantity that is sold earns more.
func TestToHaveMadeEarnsMost(t *testing.T) {
	packs, falls := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		cents := func(name string, low, high int64) quoin.Amount {
			return quoin.AmountOf(rapid.Int64Range(low, high).Draw(t, name), 2)
		}
		s := buy.Scale{Steps: []buy.PriceBreak{{From: 1, Each: cents("each", 500, 900)}}}
		if rapid.Bool().Draw(t, "falls") {
			s.Steps = append(s.Steps, buy.PriceBreak{From: rapid.Int64Range(2, 60).Draw(t, "from"), Each: cents("then", 100, 499)})
			falls++
		}
		s.Minimum, s.Multiple = rapid.Int64Range(0, 40).Draw(t, "minimum"), rapid.SampledFrom([]int64{0, 1, 7, 25}).Draw(t, "multiple")
		if s.Multiple > 1 {
			packs++
		}
		low := rapid.Int64Range(0, 50).Draw(t, "low")
		demand := source.Demand{Low: low, High: low + rapid.Int64Range(1, 80).Draw(t, "width")}
		price := cents("price", 905, 4000)
		short := func(asked quoin.Amount) quoin.Amount { return price.Sub(asked) }
		earns := func(n int64) quoin.Amount {
			asked, left := s.Goods(n).Over(quoin.FactorOf(n)), demand.LeftOver(n)
			return short(asked).Times(quoin.FactorOf(n).Sub(left)).Sub(asked.Times(left))
		}
		n, ok := source.Quote{Scale: s}.ToHaveMade(demand, short)
		if !ok {
			t.Fatal("nothing")
		}
		var best quoin.Amount
		if n > 0 {
			if best = earns(n); s.Sold(n) != n {
				t.Fatalf("%d is not sold", n)
			}
		}
		// A cent for the prints that are whole numbers where the best would be a part.
		for k := s.Sold(1); k <= 200; k += max(s.Multiple, 1) {
			if earns(k).Cmp(best.Add(quoin.AmountOf(1, 0))) > 0 && s.Multiple > 1 || s.Multiple <= 1 && earns(k).Sub(best).Cmp(price) > 0 {
				t.Fatalf("%d earns %v, and %d %v", n, best, k, earns(k))
			}
		}
	})
	if packs == 0 || falls == 0 {
		t.Errorf("%d drawn in packs, %d with falling prices", packs, falls)
	}
}
