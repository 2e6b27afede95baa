// Package halfup multiplies whole numbers by a ratio and rounds half up, without dividing. It
// serves the plans of channels and sales, which round many times at every price.
package halfup

import "math/bits"

// Ratio is (x × n + plus) ÷ d, rounded down, for every whole x up to a bound. With half of d
// as plus it rounds half up. The zero value is 0 for every x.
type Ratio struct {
	each, start uint64 // whole numbers: for one of x, and for none
	part, rest  uint64 // the same beyond whole numbers, × 2^64 and rounded up
	upTo        uint64
}

// most is what a Ratio gives at most, so that callers may add up a few of them in 64 bits.
const most = 1 << 61

// RatioOf returns n ÷ d with plus. D has to be above 0. It returns false where n ÷ d or plus ÷ d
// is 2^61 or more.
func RatioOf(n, d, plus uint64) (r Ratio, ok bool) {
	r.each, r.part = scaled(n, d)
	r.start, r.rest = scaled(plus, d)
	if r.each >= most || r.start >= most {
		return Ratio{}, false
	}
	// Part and rest are each less than 1 too high. Their sum may be too high by less than
	// 1 ÷ d × 2^64, since x × n + plus is never nearer than that below a multiple of d.
	near := ^uint64(0) / d
	r.upTo = min(near-1, (most-r.start-1)/(r.each+1))
	return r, true
}

// UpTo returns the highest x for which the ratio is right and at most 2^61.
func (r *Ratio) UpTo() uint64 { return r.upTo }

// scaled returns n ÷ d as a whole number and the rest × 2^64, rounded up.
func scaled(n, d uint64) (whole, part uint64) {
	part, odd := bits.Div64(n%d, 0, d)
	if odd > 0 {
		part++
	}
	return n / d, part
}

// Of returns the ratio of x, which has to be within the bound.
func (r *Ratio) Of(x uint64) uint64 {
	hi, lo := bits.Mul64(x, r.part)
	_, carry := bits.Add64(lo, r.rest, 0)
	return x*r.each + r.start + hi + carry
}
