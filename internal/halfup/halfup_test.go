package halfup_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/internal/halfup"
)

func TestRatios(t *testing.T) { rapid.Check(t, ratios) }
func FuzzRatios(f *testing.F) { f.Fuzz(rapid.MakeFuzz(ratios)) }

// ratios: up to the bound a ratio is what dividing whole numbers of any size gives, also beside
// the multiples of d, where rounding turns.
func ratios(t *rapid.T) {
	number := func(name string, least uint64) uint64 {
		bits := rapid.IntRange(0, 63).Draw(t, "bits of "+name)
		return max(least, rapid.Uint64Range(0, 1<<bits).Draw(t, name))
	}
	n, d, plus := number("n", 0), number("d", 1), number("plus", 0)
	if rapid.Bool().Draw(t, "half") {
		plus = d / 2
	}
	r, ok := halfup.RatioOf(n, d, plus)
	if !ok {
		return
	}
	upTo := r.UpTo()
	x := min(upTo, number("x", 0))
	for _, x := range []uint64{0, x, upTo - min(upTo, x), upTo, min(upTo, beside(n, d, plus, x))} {
		exact := new(big.Int).Mul(whole(x), whole(n))
		exact.Add(exact, whole(plus)).Quo(exact, whole(d))
		if got := r.Of(x); exact.Cmp(whole(got)) != 0 || got > 1<<61 {
			t.Fatalf("(%d × %d + %d) ÷ %d is %d, want %s", x, n, plus, d, got, exact)
		}
	}
}

// beside returns the highest number with which the multiple of d that x reaches is not passed.
func beside(n, d, plus, x uint64) uint64 {
	up := new(big.Int).Mul(whole(x), whole(n))
	up.Add(up, whole(plus)).Quo(up, whole(d))
	up.Add(up, whole(1)).Mul(up, whole(d)).Sub(up, whole(plus)).Sub(up, whole(1))
	if up.Quo(up, whole(max(n, 1))); !up.IsUint64() {
		return x
	}
	return up.Uint64()
}

func whole(n uint64) *big.Int { return new(big.Int).SetUint64(n) }

// Of the zero value nothing comes.
func TestZeroRatio(t *testing.T) {
	var r halfup.Ratio
	if got := r.Of(12_345); got != 0 {
		t.Errorf("%d", got)
	}
}
