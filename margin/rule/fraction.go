package rule

import (
	"math/big"
	"math/bits"

	"example.com/quoin"
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

// multiplier is a factor as a fraction; nil where it is not given.
func multiplier(f quoin.Optional[quoin.Factor]) *fraction {
	v, given := f.Get()
	if !given {
		return nil
	}
	r := v.Rat()
	return newFraction(r.Num(), r.Denom())
}

// inverse is b ÷ a, for a above zero; else nil.
func (f *fraction) inverse() *fraction {
	if f == nil || f.a.Sign() <= 0 {
		return nil
	}
	return newFraction(f.b, f.a)
}

// floor returns ⌊i × a ÷ b⌋, at most n, for i from 0.
func (f *fraction) floor(i, n int64) int64 {
	if f.d != 0 {
		q, _, fits := f.divided(i)
		if !fits || q > uint64(n) {
			return n
		}
		return int64(q)
	}
	p := big.NewInt(i)
	p.Mul(p, f.a).Quo(p, f.b)
	if !p.IsInt64() {
		return n
	}
	return min(p.Int64(), n)
}

// ceil returns ⌈i × a ÷ b⌉, at least 1 and at most n + 1, for i from 0.
func (f *fraction) ceil(i, n int64) int64 {
	if f.d != 0 {
		q, rest, fits := f.divided(i)
		if !fits || q > uint64(n) {
			return n + 1
		}
		if rest > 0 {
			q++
		}
		return max(int64(q), 1)
	}
	p := big.NewInt(i)
	p.Mul(p, f.a).Add(p, f.b).Sub(p, big.NewInt(1)).Quo(p, f.b)
	if !p.IsInt64() {
		return n + 1
	}
	return min(max(p.Int64(), 1), n+1)
}

// divided returns i × n ÷ d and what is left over; false where that does not fit in 64
// bits.
func (f *fraction) divided(i int64) (q, rest uint64, fits bool) {
	d := uint64(f.d)
	hi, lo := bits.Mul64(uint64(i), uint64(f.n))
	if hi == 0 {
		return lo / d, lo % d, true
	}
	if hi >= d {
		return 0, 0, false
	}
	q, rest = bits.Div64(hi, lo, d)
	return q, rest, true
}
