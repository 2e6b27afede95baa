package rule

import (
	"math/big"
	"math/bits"
)

// fraction multiplies indexes by a ÷ b: exactly, since the prices of one grid
// stand to each other as their indexes do.
type fraction struct {
	a, b *big.Int
	n, d int64 // the same where both fit in 64 bits; else d is 0
}

func newFraction(a, b *big.Int) *fraction {
	f := &fraction{a: a, b: b}
	if a.IsInt64() && b.IsInt64() {
		f.n, f.d = a.Int64(), b.Int64()
	}
	return f
}

// floor returns ⌊i × a ÷ b⌋, at most n, for i from 0.
func (f *fraction) floor(i, n int64) int64 {
	q, _ := f.times(i, n)
	return min(q, n)
}

// ceil returns ⌈i × a ÷ b⌉, at least 1 and at most n + 1, for i from 0.
func (f *fraction) ceil(i, n int64) int64 {
	q, rest := f.times(i, n)
	if rest {
		q++
	}
	return min(max(q, 1), n+1)
}

// times returns ⌊i × a ÷ b⌋, at most n + 1, and whether something is left over.
func (f *fraction) times(i, n int64) (q int64, rest bool) {
	hi, lo := bits.Mul64(uint64(i), uint64(f.n))
	if hi >= uint64(f.d) {
		return f.long(i, n)
	}
	whole, over := bits.Div64(hi, lo, uint64(f.d))
	return int64(min(whole, uint64(n)+1)), over > 0 && whole <= uint64(n)
}

// long is times of long numbers.
func (f *fraction) long(i, n int64) (q int64, rest bool) {
	p, over := new(big.Int), new(big.Int)
	p.QuoRem(p.Mul(big.NewInt(i), f.a), f.b, over)
	if !p.IsInt64() || p.Int64() > n {
		return n + 1, false
	}
	return p.Int64(), over.Sign() > 0
}
