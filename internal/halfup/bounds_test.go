package halfup_test

import (
	"math"
	"math/big"
	"testing"

	"example.com/quoin/internal/halfup"
)

// All small ratios, with what is added, of all small numbers.
func TestSmallRatios(t *testing.T) {
	for n := range uint64(13) {
		for d := uint64(1); d <= 12; d++ {
			for plus := range uint64(13) {
				r, ok := halfup.RatioOf(n, d, plus)
				if !ok {
					t.Fatalf("no ratio of %d ÷ %d + %d", n, d, plus)
				}
				for x := range uint64(40) {
					if got := r.Of(x); got != (x*n+plus)/d {
						t.Errorf("(%d × %d + %d) ÷ %d is %d", x, n, plus, d, got)
					}
				}
			}
		}
	}
}

// Up to where a ratio goes: below 2^61, and below 2^64 ÷ d, where the last bit would be off.
func TestBounds(t *testing.T) {
	const most = 1 << 61
	for _, c := range []struct {
		n, d, plus, upTo uint64
		ok               bool
	}{
		{1, 1, 0, most/2 - 1, true},              // (2^61 − 1) ÷ 2
		{1, 1, 2, most/2 - 2, true},              // (2^61 − 3) ÷ 2
		{9, 1, 0, 230_584_300_921_369_395, true}, // (2^61 − 1) ÷ 10
		{1, 3, 1, most - 1, true},                // 2^64 ÷ 3 is more
		{most - 1, 1, 0, 0, true},
		{most, 1, 0, 0, false},
		{most - 1, 1, most - 1, 0, true},
		{1, 1, most, 0, false},
		{1, 1, most - 1, 0, true},
		{most, 2, most, most/(most/2+1) - 1, true}, // 2^60 for each of two, and 2^60 to begin with: one
		{1, 1 << 61, 0, 6, true},                   // 2^64 − 1 goes into it 7 times
		{1, 1 << 62, 0, 2, true},
		{1, 1 << 63, 0, 0, true},
		{math.MaxUint64, math.MaxUint64, 0, 0, true},
	} {
		r, ok := halfup.RatioOf(c.n, c.d, c.plus)
		if ok != c.ok || r.UpTo() != c.upTo {
			t.Errorf("%d ÷ %d + %d goes up to %d, %t, want %d, %t", c.n, c.d, c.plus, r.UpTo(), ok, c.upTo, c.ok)
		}
		if want := c.plus / c.d; ok && r.Of(0) != want {
			t.Errorf("of 0 come %d, want %d", r.Of(0), want)
		}
	}
}

// Where both parts are rounded up by nearly one, and the sum is one short of a multiple, there is
// nothing to spare: x × n + plus ≡ −1 (mod d), n × 2^64 ≡ 1 (mod d).
func TestNothingToSpare(t *testing.T) {
	two64 := new(big.Int).Lsh(big.NewInt(1), 64)
	checked := 0
	for _, d := range []uint64{1<<62 + 1, 1<<62 + 3, 1<<61 + 1, 1<<61 + 7, 1<<63 - 1, 1<<60 + 33, 1<<61 - 1, 1<<62 - 1} {
		n := new(big.Int).ModInverse(two64, whole(d)).Uint64()
		x := math.MaxUint64/d - 1
		// plus = −1 − x × n (mod d)
		sum := new(big.Int).Mul(whole(x), whole(n))
		sum.Add(sum, whole(1)).Neg(sum).Mod(sum, whole(d))
		plus := sum.Uint64()
		r, ok := halfup.RatioOf(n, d, plus)
		if !ok || r.UpTo() != x {
			t.Fatalf("%d ÷ %d + %d goes up to %d, %t, want %d", n, d, plus, r.UpTo(), ok, x)
		}
		for x := range x + 1 {
			exact := new(big.Int).Mul(whole(x), whole(n))
			exact.Add(exact, whole(plus)).Quo(exact, whole(d))
			if got := r.Of(x); exact.Cmp(whole(got)) != 0 {
				t.Errorf("(%d × %d + %d) ÷ %d is %d, want %s", x, n, plus, d, got, exact)
			}
			checked++
		}
	}
	if checked < 20 {
		t.Errorf("%d checked", checked)
	}
}
