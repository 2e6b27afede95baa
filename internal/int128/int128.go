// Package int128 computes with whole numbers of 128 bits, without allocating.
package int128

import "math/bits"

// Uint is a whole number of 128 bits, from 0 on. What takes it in two's complement has
// signed ones: Plus, Minus and == are the same for both.
type Uint struct{ Hi, Lo uint64 }

// Plus returns the lower 128 bits of a + b.
func (a Uint) Plus(b Uint) Uint {
	lo, carry := bits.Add64(a.Lo, b.Lo, 0)
	hi, _ := bits.Add64(a.Hi, b.Hi, carry)
	return Uint{hi, lo}
}

// Minus returns the lower 128 bits of a − b.
func (a Uint) Minus(b Uint) Uint {
	lo, borrow := bits.Sub64(a.Lo, b.Lo, 0)
	hi, _ := bits.Sub64(a.Hi, b.Hi, borrow)
	return Uint{hi, lo}
}

// Less reports whether a is below b.
func (a Uint) Less(b Uint) bool { return a.Hi < b.Hi || a.Hi == b.Hi && a.Lo < b.Lo }

// Times returns the lower 128 bits of a × m, and what is beyond.
func (a Uint) Times(m uint64) (Uint, uint64) {
	carry, lo := bits.Mul64(a.Lo, m)
	over, hi := bits.Mul64(a.Hi, m)
	hi, c := bits.Add64(hi, carry, 0)
	return Uint{hi, lo}, over + c
}

// Over returns a ÷ d and the rest, for d above 0.
func (a Uint) Over(d uint64) (q Uint, rest uint64) {
	if a.Hi == 0 {
		return Uint{0, a.Lo / d}, a.Lo % d
	}
	q.Hi, rest = a.Hi/d, a.Hi%d
	q.Lo, rest = bits.Div64(rest, a.Lo, d)
	return q, rest
}

// Product returns a × b, which is high × 2^128 + low.
func Product(a, b Uint) (high, low Uint) {
	h0, p0 := bits.Mul64(a.Lo, b.Lo)
	h1, l1 := bits.Mul64(a.Lo, b.Hi)
	h2, l2 := bits.Mul64(a.Hi, b.Lo)
	h3, l3 := bits.Mul64(a.Hi, b.Hi)
	p1, c1 := bits.Add64(h0, l1, 0)
	p1, c2 := bits.Add64(p1, l2, 0)
	p2, c3 := bits.Add64(h1, h2, c1)
	p2, c4 := bits.Add64(p2, l3, c2)
	return Uint{h3 + c3 + c4, p2}, Uint{p1, p0}
}

// Log2 returns the first places of the logarithm to base 2 of m ÷ 2^63, which is from 1 to
// 2: each is 1 where the square of what is left is 2 or more.
func Log2(m uint64, places int) (log int64) {
	for range places {
		hi, lo := bits.Mul64(m, m)
		log <<= 1
		if hi>>63 == 1 {
			log, m = log|1, hi
		} else {
			m = hi<<1 | lo>>63
		}
	}
	return log
}
