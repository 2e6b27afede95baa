package int128_test

import (
	"math"
	"math/big"
	"math/bits"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/internal/int128"
)

func whole(limbs ...uint64) *big.Int { // the lowest first
	n := new(big.Int)
	for i := len(limbs) - 1; i >= 0; i-- {
		n.Lsh(n, 64).Add(n, new(big.Int).SetUint64(limbs[i]))
	}
	return n
}

func of(a int128.Uint) *big.Int { return whole(a.Lo, a.Hi) }

// limb draws the ends of 64 bits often.
func limb(t *rapid.T, name string) uint64 {
	return rapid.OneOf(rapid.SampledFrom([]uint64{0, 1, math.MaxUint64, 1 << 63}), rapid.Uint64()).Draw(t, name)
}

// All sums are those of math/big.
func TestSums(t *testing.T) {
	beyond, small := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := int128.Uint{Hi: limb(t, "hi"), Lo: limb(t, "lo")}, int128.Uint{Hi: limb(t, "hi"), Lo: limb(t, "lo")}
		m := max(limb(t, "m"), 1)
		lower := func(n *big.Int) *big.Int { return n.And(n, whole(math.MaxUint64, math.MaxUint64)) }
		same := func(what string, got, want *big.Int) {
			if got.Cmp(want) != 0 {
				t.Fatalf("%s of %x and %x, %x: %x, want %x", what, a, b, m, got, want)
			}
		}
		same("sum", of(a.Plus(b)), lower(new(big.Int).Add(of(a), of(b))))
		same("difference", of(a.Minus(b)), lower(new(big.Int).Sub(of(a), of(b))))
		low, over := a.Times(m)
		same("multiple", whole(low.Lo, low.Hi, over), new(big.Int).Mul(of(a), whole(m)))
		h, l := int128.Product(a, b)
		same("product", whole(l.Lo, l.Hi, h.Lo, h.Hi), new(big.Int).Mul(of(a), of(b)))
		q, rest := a.Over(m)
		wantQ, wantRest := new(big.Int).QuoRem(of(a), whole(m), new(big.Int))
		same("quotient", of(q), wantQ)
		same("rest", whole(rest), wantRest)
		if a.Less(b) != (of(a).Cmp(of(b)) < 0) {
			t.Fatalf("%x below %x: %t", a, b, a.Less(b))
		}
		if over > 0 {
			beyond++
		}
		if a.Hi == 0 {
			small++
		}
	})
	if beyond == 0 || small == 0 {
		t.Errorf("%d beyond 128 bits, %d of 64", beyond, small)
	}
}

// The logarithm of 3 to base 2 is 1.58496250072115618145…; of 1 it is 0.
func TestLog2(t *testing.T) {
	three := uint64(3) << bits.LeadingZeros64(3) // 1.5 × 2^63
	if got := float64(int128.Log2(three, 40)) / (1 << 40); math.Abs(got-0.58496250072115618) > 1e-12 {
		t.Errorf("log2 of 1.5 is %v", got)
	}
	if got := int128.Log2(1<<63, 52); got != 0 {
		t.Errorf("log2 of 1 is %d", got)
	}
}

// All carries at once: (2^128 − 1)² is 2^256 − 2^129 + 1.
func TestLargestProduct(t *testing.T) {
	all := int128.Uint{Hi: math.MaxUint64, Lo: math.MaxUint64}
	high, low := int128.Product(all, all)
	if high != (int128.Uint{Hi: math.MaxUint64, Lo: math.MaxUint64 - 1}) || low != (int128.Uint{Lo: 1}) {
		t.Errorf("%x, %x", high, low)
	}
	// (2^128 − 1) × (2^64 − 1) is 2^192 − 2^128 − 2^64 + 1.
	if low, over := all.Times(math.MaxUint64); over != math.MaxUint64-1 || low != (int128.Uint{Hi: math.MaxUint64, Lo: 1}) {
		t.Errorf("%x, %x", over, low)
	}
	if got := all.Plus(int128.Uint{Lo: 1}); got != (int128.Uint{}) {
		t.Errorf("one more than all is %x", got)
	}
	if got := (int128.Uint{}).Minus(int128.Uint{Lo: 1}); got != all {
		t.Errorf("one less than nothing is %x", got)
	}
}

// Numbers are ordered by their higher halves, and where those are the same by the lower ones.
func TestOrder(t *testing.T) {
	rising := []int128.Uint{{}, {Lo: 1}, {Lo: math.MaxUint64}, {Hi: 1}, {Hi: 1, Lo: 1}, {Hi: 2}, {Hi: math.MaxUint64}, {Hi: math.MaxUint64, Lo: math.MaxUint64}}
	for i, a := range rising {
		for j, b := range rising {
			if a.Less(b) != (i < j) {
				t.Errorf("%x is below %x: %t", a, b, a.Less(b))
			}
		}
	}
}

// Each place of a logarithm by its definition: whether the square of what is left, cut to 63 places
// behind the point, is 2 or more.
func TestPlacesOfLog2(t *testing.T) {
	two := new(big.Int).Lsh(big.NewInt(1), 64)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range 300 {
		m := 1<<63 | r.Uint64()
		if ends := []uint64{1 << 63, 1<<63 + 1, 3 << 62, math.MaxUint64}; i < len(ends) {
			m = ends[i]
		}
		left, want := new(big.Int).SetUint64(m), int64(0)
		for range 62 {
			left.Rsh(left.Mul(left, left), 63)
			if want <<= 1; left.Cmp(two) >= 0 {
				want++
				left.Rsh(left, 1)
			}
		}
		if got := int128.Log2(m, 62); got != want {
			t.Errorf("%x: %x, want %x", m, got, want)
		}
	}
}
