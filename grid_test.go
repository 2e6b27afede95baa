package quoin_test

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

func whole(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

// The index of a price, its neighbours and whatever lies between them, against
// fractions; amounts that were divided are taken as they are compared.
func TestGridAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := quoin.AmountOf(rapid.Int64Range(1, 500).Draw(t, "step"), rapid.IntRange(0, 3).Draw(t, "places"))
		limit := step.Times(quoin.FactorOf(rapid.Int64Range(1, 1e6).Draw(t, "prices"))).Add(step.Part(quoin.MustRate("99%")))
		g, err := quoin.NewGrid(step, limit)
		if err != nil {
			t.Fatal(err)
		}
		n, _ := floored(over(limit.Rat(), step.Rat()))
		if g.Len() != n.Int64() || !g.Step().Equal(step) {
			t.Fatalf("steps of %s up to %s are %d steps of %s", step, limit, g.Len(), g.Step())
		}
		i := rapid.Int64Range(-3, g.Len()+3).Draw(t, "i")
		if got := g.Price(i).Rat(); got.Cmp(times(whole(i), step.Rat())) != 0 {
			t.Fatalf("price %d of steps of %s is %s", i, step, got.FloatString(5))
		}
		divisor := aboveZero(t, "divisor")
		for what, a := range map[string]quoin.Amount{
			"a price": g.Price(i), "near it": g.Price(i).Add(quoin.AmountOf(rapid.Int64Range(-1e4, 1e4).Draw(t, "off"), 7)),
			"there and back": g.Price(i).Over(divisor).Times(divisor), "divided": g.Price(i).Over(divisor),
			"divided and near": g.Price(i).Over(divisor).Times(divisor).Add(quoin.AmountOf(rapid.Int64Range(-1, 1).Draw(t, "hair"), 12)),
		} {
			exact := a.Rat()
			switch what {
			case "there and back":
				exact = g.Price(i).Rat()
			case "divided":
				exact = asCompared(a.Rat(), over(g.Price(i).Rat(), divisor.Rat()))
			case "divided and near":
				exact = a.Snap().Rat()
			}
			below, rest := floored(over(exact, step.Rat()))
			above := new(big.Int).Set(below)
			if rest.Sign() > 0 {
				above.Add(above, big.NewInt(1))
			}
			if got, want := g.Floor(a), min(max(below.Int64(), 0), g.Len()); got != want {
				t.Fatalf("%s: the greatest price up to %s in steps of %s is number %d, want %d", what, a, step, got, want)
			}
			if got, want := g.Ceil(a), min(max(above.Int64(), 1), g.Len()+1); got != want {
				t.Fatalf("%s: the least price from %s on in steps of %s is number %d, want %d", what, a, step, got, want)
			}
		}
	})
}

func TestGridAtItsEnds(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.05"), quoin.MustAmount("1.02"))
	if err != nil {
		t.Fatal(err)
	}
	back := quoin.MustAmount("0.20").Over(quoin.FactorOf(3)).Times(quoin.FactorOf(3))
	far := quoin.MustAmount("999999999999").Times(quoin.MustFactor("999999999999"))
	for _, c := range []struct {
		a           quoin.Amount
		floor, ceil int64
	}{
		{quoin.MustAmount("0"), 0, 1},
		{quoin.MustAmount("-7"), 0, 1},
		{far.Neg(), 0, 1},
		{quoin.MustAmount("0.04"), 0, 1},
		{quoin.MustAmount("0.05"), 1, 1},
		{quoin.MustAmount("0.06"), 1, 2},
		{back, 4, 4},
		{quoin.MustAmount("1.00"), 20, 20},
		{quoin.MustAmount("1.01"), 20, 21},
		{far, 20, 21},
	} {
		if floor, ceil := g.Floor(c.a), g.Ceil(c.a); floor != c.floor || ceil != c.ceil {
			t.Errorf("%s lies between prices %d and %d, want %d and %d", c.a, floor, ceil, c.floor, c.ceil)
		}
	}
	if g.Len() != 20 || g.Price(20).String() != "1.00" {
		t.Errorf("the last of %d prices is %s, want the 20th, 1.00", g.Len(), g.Price(20))
	}
}

func TestGridsRefused(t *testing.T) {
	most := quoin.MustAmount("999999999.99999999")
	for _, c := range []struct{ step, limit quoin.Amount }{
		{quoin.Amount{}, quoin.MustAmount("1")},
		{quoin.MustAmount("-0.01"), quoin.MustAmount("1")},
		{quoin.MustAmount("0.05"), quoin.MustAmount("0.04")},
		{quoin.AmountOf(1, 8), most.Add(quoin.AmountOf(1, 8)).Add(quoin.AmountOf(1, 8))},
	} {
		g, err := quoin.NewGrid(c.step, c.limit)
		if problem, ok := err.(quoin.Problem); !ok || problem.Code != quoin.BadGrid || g.Len() != 0 {
			t.Errorf("steps of %s up to %s: %d prices, %v, want %s", c.step, c.limit, g.Len(), err, quoin.BadGrid)
		}
	}
	if g, err := quoin.NewGrid(quoin.AmountOf(1, 8), most.Add(quoin.AmountOf(1, 8))); err != nil || g.Len() != 1e17 {
		t.Errorf("10^17 prices: %d, %v", g.Len(), err)
	}
}

// Parts sum exactly, lie within a unit of their quotas, and the units left over
// go to the largest remainders, of equal ones to the first.
func TestSplitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 3).Draw(t, "places")
		n := rapid.Int64Range(-1e6, 1e6).Draw(t, "units")
		if rapid.Bool().Draw(t, "huge") {
			n *= 1e12
		}
		numbers := rapid.SliceOfN(rapid.Int64Range(0, 12), 1, 7).Draw(t, "weights")
		numbers[0]++
		weights := make([]quoin.Factor, len(numbers))
		total := new(big.Rat)
		scale := quoin.MustFactor(rapid.SampledFrom([]string{"1", "0.05", "1234567.891"}).Draw(t, "scale"))
		for i, w := range numbers {
			weights[i] = quoin.FactorOf(w).Times(scale)
			total.Add(total, whole(w))
		}
		a := quoin.AmountOf(n, places)
		parts, err := a.Split(places, weights...)
		if err != nil || len(parts) != len(weights) {
			t.Fatalf("%s by %v: %v, %v", a, weights, parts, err)
		}
		opposite, err := a.Neg().Split(places, weights...)
		if err != nil {
			t.Fatal(err)
		}
		sum := quoin.Amount{}
		unit := quoin.AmountOf(1, places)
		extra, rests := make([]int, len(parts)), make([]*big.Rat, len(parts))
		for i, part := range parts {
			sum = sum.Add(part)
			if !opposite[i].Equal(part.Neg()) {
				t.Fatalf("%s by %v: %v, but its negative: %v", a, weights, parts, opposite)
			}
			quota := times(new(big.Rat).Abs(whole(n)), over(whole(numbers[i]), total))
			down, rest := floored(quota)
			got := new(big.Rat).Abs(over(part.Rat(), unit.Rat()))
			more := minus(got, new(big.Rat).SetInt(down))
			if part.Sign()*a.Sign() < 0 || more.Sign() != 0 && more.Cmp(whole(1)) != 0 || more.Sign() > 0 && rest.Sign() == 0 {
				t.Fatalf("%s by %v: part %d is %s, its quota %s units", a, weights, i, part, quota.FloatString(3))
			}
			extra[i], rests[i] = more.Sign(), rest
		}
		if !sum.Equal(a) {
			t.Fatalf("%s by %v: %v sum to %s", a, weights, parts, sum)
		}
		for i := range parts {
			for j := range parts {
				if c := rests[i].Cmp(rests[j]); (c > 0 || c == 0 && i < j) && extra[i] < extra[j] {
					t.Fatalf("%s by %v: %v gives part %d a unit before part %d", a, weights, parts, j, i)
				}
			}
		}
	})
}

func TestSplitsRefused(t *testing.T) {
	factors := func(texts ...string) []quoin.Factor {
		var out []quoin.Factor
		for _, s := range texts {
			out = append(out, quoin.MustFactor(s))
		}
		return out
	}
	for what, c := range map[string]struct {
		a       string
		weights []quoin.Factor
	}{
		"no weights":        {"10.00", nil},
		"nothing but zeros": {"10.00", factors("0", "0.00")},
		"a negative weight": {"10.00", factors("2", "-1")},
		"half a cent":       {"10.005", factors("1", "1")},
	} {
		parts, err := quoin.MustAmount(c.a).Split(2, c.weights...)
		if problem, ok := err.(quoin.Problem); !ok || problem.Code != quoin.NotSplittable || parts != nil {
			t.Errorf("%s: %v, %v, want %s", what, parts, err, quoin.NotSplittable)
		}
	}
}

// What was divided splits once it is whole cents again.
func TestSplitAfterAQuotient(t *testing.T) {
	third := quoin.MustAmount("10.00").Over(quoin.FactorOf(3))
	if _, err := third.Split(2, quoin.FactorOf(1)); err == nil {
		t.Error("a third of 10.00 is no whole number of cents, and was split")
	}
	parts, err := third.Times(quoin.FactorOf(3)).Split(2, quoin.FactorOf(1), quoin.FactorOf(3))
	if err != nil || len(parts) != 2 || !parts[0].Equal(quoin.MustAmount("2.50")) || !parts[1].Equal(quoin.MustAmount("7.50")) {
		t.Errorf("3 × (10.00 ÷ 3) by 1 and 3: %v, %v, want 2.50 and 7.50", parts, err)
	}
	// More units than fit an int64.
	many := quoin.MustAmount("999999999999.99").Times(quoin.MustFactor("999999999999"))
	parts, err = many.Split(2, slices.Repeat([]quoin.Factor{quoin.FactorOf(1)}, 3)...)
	if err != nil || parts[0].Cmp(quoin.AmountOf(math.MaxInt64, 2)) <= 0 || !parts[0].Add(parts[1]).Add(parts[2]).Equal(many) {
		t.Errorf("%s in thirds: %v, %v", many, parts, err)
	}
}

// Weights that are 10²⁵ times as heavy, and by that beyond 64 bits, split the same.
func TestHeavyWeightsSplitTheSame(t *testing.T) {
	heavy := quoin.MustFactor("100000000000").Times(quoin.MustFactor("100000000000")).Times(quoin.MustFactor("1000"))
	rapid.Check(t, func(t *rapid.T) {
		a := quoin.AmountOf(rapid.Int64Range(-1e15, 1e15).Draw(t, "units"), 2)
		numbers := rapid.SliceOfN(rapid.Int64Range(0, 1e12), 1, 9).Draw(t, "weights")
		light, heavier := make([]quoin.Factor, len(numbers)), make([]quoin.Factor, len(numbers))
		for i, n := range numbers {
			light[i] = quoin.FactorOf(n).Over(quoin.FactorOf(8))
			heavier[i] = light[i].Times(heavy)
		}
		got, err := a.Split(2, light...)
		want, err2 := a.Split(2, heavier...)
		if fmt.Sprint(got, err) != fmt.Sprint(want, err2) {
			t.Fatalf("%s by %v: %v, %v, want %v, %v", a, light, got, err, want, err2)
		}
	})
}
