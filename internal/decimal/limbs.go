package decimal

import (
	"math/bits"

	"example.com/quoin/internal/int128"
)

// limbs is a whole number of 128 bits, 38 digits and a bit.
type limbs = int128.Uint

// mostDigits is the greatest power of ten in 128 bits.
const mostDigits = 38

// tens and wideTens are powers of ten.
var (
	tens     = powers()
	wideTens = widePowers()
)

func powers() (out [20]uint64) {
	out[0] = 1
	for i := 1; i < len(out); i++ {
		out[i] = 10 * out[i-1]
	}
	return out
}

func widePowers() (out [mostDigits + 1]limbs) {
	out[0] = limbs{Lo: 1}
	for i := 1; i < len(out); i++ {
		out[i], _ = out[i-1].Times(10)
	}
	return out
}

func none(a limbs) bool { return a.Hi|a.Lo == 0 }

func compare(a, b limbs) int {
	switch {
	case a == b:
		return 0
	case a.Less(b):
		return -1
	}
	return 1
}

// raised returns a × 10^places; false where that is beyond 128 bits.
func raised(a limbs, places int) (limbs, bool) {
	if none(a) || places == 0 {
		return a, true
	}
	for places > 0 { // which ends where it is too much
		n := min(places, 19)
		var over uint64
		if a, over = a.Times(tens[n]); over != 0 {
			return limbs{}, false
		}
		places -= n
	}
	return a, true
}

// length is how many digits a has; 0 where it is 0.
func length(a limbs) int {
	n := bits.Len64(a.Hi) + 64
	if a.Hi == 0 {
		n = bits.Len64(a.Lo)
	}
	least := n * 1233 >> 12 // n × log10 2, cut: one too low where a is above that power
	if a.Less(wideTens[least]) {
		return least
	}
	return least + 1
}

// tail is what was cut off a number: nothing, or less than, just or more than half a
// unit of the last digit left.
type tail uint8

const (
	nothing tail = iota
	below
	half
	above
)

// with is a tail behind which there is more.
func (t tail) with(more bool) tail {
	switch {
	case !more:
		return t
	case t == nothing:
		return below
	case t == half:
		return above
	}
	return t
}

// tailOf is the tail of rest ÷ of, for an even number or 1.
func tailOf(rest, of uint64) tail {
	switch {
	case rest == 0:
		return nothing
	case rest < of/2:
		return below
	case rest == of/2:
		return half
	}
	return above
}

// lowered returns a ÷ 10^places, cut, and its tail.
func lowered(a limbs, places int) (limbs, tail) {
	if places > mostDigits { // where a is less than half
		return limbs{}, nothing.with(!none(a))
	}
	var low uint64
	if places > 19 {
		a, low = a.Over(tens[19])
		places -= 19
	}
	q, rest := a.Over(tens[places])
	return q, tailOf(rest, tens[places]).with(low != 0)
}

// rounded is a number whose tail was cut off, which may go up.
func rounded(a limbs, t tail, mode Mode) limbs {
	up := false
	switch mode {
	case HalfUp:
		up = t >= half
	case HalfEven:
		up = t == above || t == half && a.Lo&1 == 1
	case HalfDown:
		up = t == above
	case Up:
		up = t != nothing
	}
	if up {
		a = a.Plus(limbs{Lo: 1})
	}
	return a
}

// trimmed drops up to most zeros behind, and returns how many.
func trimmed(a limbs, most int) (limbs, int) {
	dropped := 0
	for _, n := range [...]int{16, 8, 4, 2, 1} {
		for dropped+n <= most && a.Lo&(1<<n-1) == 0 && !none(a) { // 2^n divides 10^n
			q, rest := a.Over(tens[n])
			if rest != 0 {
				break
			}
			a, dropped = q, dropped+n
		}
	}
	return a, dropped
}

// long is a whole number of 256 bits, the lowest limb first.
type long [4]uint64

func product(a, b limbs) long {
	high, low := int128.Product(a, b)
	return long{low.Lo, low.Hi, high.Lo, high.Hi}
}

// times multiplies by m; what is beyond 256 bits is lost.
func (p *long) times(m uint64) {
	var carry uint64
	for i := range p {
		hi, lo := bits.Mul64(p[i], m)
		var c uint64
		p[i], c = bits.Add64(lo, carry, 0)
		carry = hi + c
	}
}

// over divides by d, and returns the rest.
func (p *long) over(d uint64) (rest uint64) {
	for i := len(p) - 1; i >= 0; i-- {
		p[i], rest = bits.Div64(rest, p[i], d)
	}
	return rest
}

// longOf is a × 10^places, which fits.
func longOf(a limbs, places int) long {
	p := long{a.Lo, a.Hi}
	for places > 0 {
		n := min(places, 19)
		p.times(tens[n])
		places -= n
	}
	return p
}

// split returns p ÷ d and the rest, where the quotient is below 2^128.
func (p long) split(d limbs) (q, rest limbs) {
	if d.Hi == 0 {
		r := p.over(d.Lo)
		return limbs{Hi: p[1], Lo: p[0]}, limbs{Lo: r}
	}
	shift := bits.LeadingZeros64(d.Hi) // where it is 0, what is shifted by 64 is 0 too
	d = limbs{Hi: d.Hi<<shift | d.Lo>>(64-shift), Lo: d.Lo << shift}
	for i := len(p) - 1; i > 0; i-- {
		p[i] = p[i]<<shift | p[i-1]>>(64-shift)
	}
	p[0] <<= shift
	q.Hi, rest = digit(limbs{Hi: p[3], Lo: p[2]}, p[1], d)
	q.Lo, rest = digit(rest, p[0], d)
	rest = limbs{Hi: rest.Hi >> shift, Lo: rest.Hi<<(64-shift) | rest.Lo>>shift}
	return q, rest
}

// digit is one digit of long division in base 2^64: of a × 2^64 + low by d, whose
// highest bit is set and which is above a. Of a divisor of two limbs the estimate from
// the first is right after at most two corrections (Knuth, The Art of Computer
// Programming 2, 4.3.1, algorithm D).
func digit(a limbs, low uint64, d limbs) (q uint64, rest limbs) {
	var r, over uint64
	if a.Hi >= d.Hi {
		q = ^uint64(0)
		r, over = bits.Add64(a.Lo, d.Hi, 0)
	} else {
		q, r = bits.Div64(a.Hi, a.Lo, d.Hi)
	}
	for over == 0 {
		if hi, lo := bits.Mul64(q, d.Lo); hi < r || hi == r && lo <= low {
			break
		}
		q--
		r, over = bits.Add64(r, d.Hi, 0)
	}
	// a × 2^64 + low − q × d fits two limbs, so that higher ones cancel out.
	hi, lo := bits.Mul64(q, d.Lo)
	hi += q * d.Hi
	lo, borrow := bits.Sub64(low, lo, 0)
	hi, _ = bits.Sub64(a.Lo, hi, borrow)
	return q, limbs{Hi: hi, Lo: lo}
}

// cut brings a number of more than 128 bits to 34 digits, half to even, and returns
// how many were dropped.
func (p long) cut() (limbs, int) {
	places, t := 0, nothing
	for p[3]|p[2] != 0 {
		// Whole chunks are dropped as long as 34 digits are sure to be left.
		n := min(19, max(1, (p.bits()-114)*1233>>12))
		rest := p.over(tens[n])
		t = tailOf(rest, tens[n]).with(t != nothing)
		places += n
	}
	// At least 2^113 is left, which has 35 digits.
	a, was := limbs{Hi: p[1], Lo: p[0]}, t != nothing
	more := length(a) - quotientDigits
	a, t = lowered(a, more)
	t, places = t.with(was), places+more
	a = rounded(a, t, HalfEven)
	if a == wideTens[quotientDigits] {
		return wideTens[quotientDigits-1], places + 1
	}
	return a, places
}

func (p long) bits() int {
	for i := len(p) - 1; i >= 0; i-- {
		if p[i] != 0 {
			return 64*i + bits.Len64(p[i])
		}
	}
	return 0
}
