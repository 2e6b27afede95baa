package rule

import (
	"math"
	"math/bits"
)

// wide is a whole number of 128 bits, in two's complement.
type wide struct {
	hi int64
	lo uint64
}

func wideOf(n int64) wide { return wide{n >> 63, uint64(n)} }

// product returns x × y.
func product(x, y int64) wide {
	hi, lo := bits.Mul64(uint64(max(x, -x)), uint64(max(y, -y)))
	z := wide{int64(hi), lo}
	if (x < 0) != (y < 0) {
		return z.negative()
	}
	return z
}

func (x wide) plus(y wide) wide {
	lo, carry := bits.Add64(x.lo, y.lo, 0)
	return wide{x.hi + y.hi + int64(carry), lo}
}

func (x wide) minus(y wide) wide {
	lo, borrow := bits.Sub64(x.lo, y.lo, 0)
	return wide{x.hi - y.hi - int64(borrow), lo}
}

func (x wide) negative() wide { return wide{}.minus(x) }

// narrow returns x in 64 bits, or the end of them that it is beyond.
func (x wide) narrow() int64 {
	switch n := int64(x.lo); {
	case x.hi == n>>63:
		return n
	case x.hi < 0:
		return math.MinInt64
	}
	return math.MaxInt64
}

// along returns n × x ÷ y for y above zero, at most n + 1 and 0 where x is below
// zero: not below the quotient when it goes up, not above it when it goes down.
func (x wide) along(n int64, y wide, how direction) int64 {
	if x.hi < 0 {
		return 0
	}
	a, b := x.lo, y.lo
	if high := max(x.hi, y.hi); high > 0 {
		shift := bits.Len64(uint64(high)) + 1
		a, b = x.shifted(shift), y.shifted(shift)
		if how == up {
			a++
		} else {
			b++
		}
	}
	hi, lo := bits.Mul64(a, uint64(n))
	if hi >= b {
		return n + 1
	}
	q, rest := bits.Div64(hi, lo, b)
	if how == up && rest > 0 && q <= uint64(n) {
		q++
	}
	return int64(min(q, uint64(n)+1))
}

// direction is where what does not come out even is rounded to.
type direction bool

const (
	down direction = false
	up   direction = true
)

// shifted returns the lower 64 bits of x ÷ 2^by, cut, for by from 1 to 64.
func (x wide) shifted(by int) uint64 { return uint64(x.hi)<<(64-by) | x.lo>>by }

// under reports whether x is below y.
func (x wide) under(y wide) bool { return x.minus(y).hi < 0 }

// endless is more than any sum of products comes to.
func endless() wide { return wide{hi: 1 << 62} }

// fits is how often y, which is above zero, fits in x, or a little less often.
func (x wide) fits(y wide) int64 {
	if x.hi < 0 {
		return 0
	}
	a, b := x.lo, y.lo
	if high := max(x.hi, y.hi); high > 0 {
		shift := bits.Len64(uint64(high))
		a, b = x.shifted(shift), y.shifted(shift)+1
	}
	return int64(min(a/b, mostFits))
}

const mostFits = 1 << 60
