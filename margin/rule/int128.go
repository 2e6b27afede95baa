package rule

import (
	"math"
	"math/bits"

	"example.com/quoin/internal/int128"
)

// i128 is a whole number of 128 bits, in two's complement.
type i128 = int128.Uint

func wideOf(n int64) i128 { return i128{Hi: uint64(n >> 63), Lo: uint64(n)} }

func negative(x i128) bool { return int64(x.Hi) < 0 }

func minus(x i128) i128 { return i128{}.Minus(x) }

// product returns x × y.
func product(x, y int64) i128 {
	hi, lo := bits.Mul64(uint64(max(x, -x)), uint64(max(y, -y)))
	if (x < 0) != (y < 0) {
		return minus(i128{Hi: hi, Lo: lo})
	}
	return i128{Hi: hi, Lo: lo}
}

// narrow returns x in 64 bits, or the end of them that it is beyond.
func narrow(x i128) int64 {
	switch n := int64(x.Lo); {
	case int64(x.Hi) == n>>63:
		return n
	case negative(x):
		return math.MinInt64
	}
	return math.MaxInt64
}

// along returns n × x ÷ y for y above zero, at most n + 1 and 0 where x is below
// zero: not below the quotient when it goes up, not above it when it goes down.
func along(x i128, n int64, y i128, how direction) int64 {
	if negative(x) {
		return 0
	}
	a, b := x.Lo, y.Lo
	if high := max(x.Hi, y.Hi); high > 0 {
		shift := bits.Len64(high) + 1
		a, b = shifted(x, shift), shifted(y, shift)
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
type direction int

const (
	up direction = iota
	down
)

// shifted returns the lower 64 bits of x ÷ 2^by, cut, for by from 1 to 64.
func shifted(x i128, by int) uint64 { return x.Hi<<(64-by) | x.Lo>>by }

// under reports whether x is below y.
func under(x, y i128) bool { return negative(x.Minus(y)) }

// endless is more than any sum of products comes to.
func endless() i128 { return i128{Hi: 1 << 62} }

// fits is how often y, which is above zero, fits in x, or a little less often.
func fits(x, y i128) int64 {
	if negative(x) {
		return 0
	}
	a, b := x.Lo, y.Lo
	if high := max(x.Hi, y.Hi); high > 0 {
		shift := bits.Len64(high)
		a, b = shifted(x, shift), shifted(y, shift)+1
	}
	return int64(min(a/b, mostFits))
}

const mostFits = 1 << 60
