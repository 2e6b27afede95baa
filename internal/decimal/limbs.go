package decimal

import "math/bits"

// limbs is a whole number of 128 bits, 38 digits and a bit.
type limbs struct{ hi, lo uint64 }

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
	out[0] = limbs{0, 1}
	for i := 1; i < len(out); i++ {
		out[i], _ = out[i-1].times(10)
	}
	return out
}

func (a limbs) isZero() bool { return a.hi|a.lo == 0 }

func (a limbs) cmp(b limbs) int {
	switch {
	case a == b:
		return 0
	case a.hi < b.hi || a.hi == b.hi && a.lo < b.lo:
		return -1
	}
	return 1
}

// plus returns a + b and what is carried beyond 128 bits.
func (a limbs) plus(b limbs) (limbs, uint64) {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, carry := bits.Add64(a.hi, b.hi, carry)
	return limbs{hi, lo}, carry
}

// minus returns a − b for a not below b.
func (a limbs) minus(b limbs) limbs {
	lo, borrow := bits.Sub64(a.lo, b.lo, 0)
	hi, _ := bits.Sub64(a.hi, b.hi, borrow)
	return limbs{hi, lo}
}

// times returns a × m and what is beyond 128 bits.
func (a limbs) times(m uint64) (limbs, uint64) {
	carry, lo := bits.Mul64(a.lo, m)
	over, hi := bits.Mul64(a.hi, m)
	hi, c := bits.Add64(hi, carry, 0)
	return limbs{hi, lo}, over + c
}

// raised returns a × 10^places; false where that is beyond 128 bits.
func (a limbs) raised(places int) (limbs, bool) {
	if a.isZero() || places == 0 {
		return a, true
	}
	if places > mostDigits {
		return limbs{}, false
	}
	for places > 0 {
		n := min(places, 19)
		var over uint64
		if a, over = a.times(tens[n]); over != 0 {
			return limbs{}, false
		}
		places -= n
	}
	return a, true
}

// over returns a ÷ d and the rest.
func (a limbs) over(d uint64) (limbs, uint64) {
	if a.hi == 0 {
		return limbs{0, a.lo / d}, a.lo % d
	}
	hi, rest := a.hi/d, a.hi%d
	lo, rest := bits.Div64(rest, a.lo, d)
	return limbs{hi, lo}, rest
}

// digits returns how many digits a has; 0 where it is 0.
func (a limbs) digits() int {
	n := bits.Len64(a.hi) + 64
	if a.hi == 0 {
		n = bits.Len64(a.lo)
	}
	least := n * 1233 >> 12 // n × log10 2, cut: one too low where a is above that power
	if a.cmp(wideTens[least]) < 0 {
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
func (a limbs) lowered(places int) (limbs, tail) {
	if places > mostDigits { // where a is less than half
		return limbs{}, nothing.with(!a.isZero())
	}
	var low uint64
	if places > 19 {
		a, low = a.over(tens[19])
		places -= 19
	}
	q, rest := a.over(tens[places])
	return q, tailOf(rest, tens[places]).with(low != 0)
}

// rounded is a number whose tail was cut off, which may go up.
func (a limbs) rounded(t tail, mode Mode) limbs {
	up := false
	switch mode {
	case HalfUp:
		up = t >= half
	case HalfEven:
		up = t == above || t == half && a.lo&1 == 1
	case Up:
		up = t != nothing
	}
	if up {
		a, _ = a.plus(limbs{0, 1})
	}
	return a
}

// trimmed drops up to most zeros behind, and returns how many.
func (a limbs) trimmed(most int) (limbs, int) {
	dropped := 0
	for _, n := range [...]int{16, 8, 4, 2, 1} {
		for dropped+n <= most && a.lo&(1<<n-1) == 0 && !a.isZero() { // 2^n divides 10^n
			q, rest := a.over(tens[n])
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

func product(a, b limbs) (p long) {
	h, l := bits.Mul64(a.lo, b.lo)
	p[0], p[1] = l, h
	var c uint64
	h, l = bits.Mul64(a.lo, b.hi)
	p[1], c = bits.Add64(p[1], l, 0)
	p[2] = h + c
	h, l = bits.Mul64(a.hi, b.lo)
	p[1], c = bits.Add64(p[1], l, 0)
	p[2], c = bits.Add64(p[2], h, c)
	p[3] = c
	h, l = bits.Mul64(a.hi, b.hi)
	p[2], c = bits.Add64(p[2], l, 0)
	p[3] += h + c
	return p
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

// long is a × 10^places, which fits.
func (a limbs) long(places int) long {
	p := long{a.lo, a.hi}
	for places > 0 {
		n := min(places, 19)
		p.times(tens[n])
		places -= n
	}
	return p
}

// split returns p ÷ d and the rest, where the quotient is below 2^128.
func (p long) split(d limbs) (q, rest limbs) {
	if d.hi == 0 {
		r := p.over(d.lo)
		return limbs{p[1], p[0]}, limbs{0, r}
	}
	shift := bits.LeadingZeros64(d.hi)
	if shift > 0 {
		d = limbs{d.hi<<shift | d.lo>>(64-shift), d.lo << shift}
		for i := len(p) - 1; i > 0; i-- {
			p[i] = p[i]<<shift | p[i-1]>>(64-shift)
		}
		p[0] <<= shift
	}
	q.hi, rest = digit(limbs{p[3], p[2]}, p[1], d)
	q.lo, rest = digit(rest, p[0], d)
	if shift > 0 {
		rest = limbs{rest.hi >> shift, rest.hi<<(64-shift) | rest.lo>>shift}
	}
	return q, rest
}

// digit is one digit of long division in base 2^64: of a × 2^64 + low by d, whose
// highest bit is set and which is above a. Of a divisor of two limbs the estimate from
// the first is right after at most two corrections (Knuth, The Art of Computer
// Programming 2, 4.3.1, algorithm D).
func digit(a limbs, low uint64, d limbs) (q uint64, rest limbs) {
	var r, over uint64
	if a.hi >= d.hi {
		q = ^uint64(0)
		r, over = bits.Add64(a.lo, d.hi, 0)
	} else {
		q, r = bits.Div64(a.hi, a.lo, d.hi)
	}
	for over == 0 {
		if hi, lo := bits.Mul64(q, d.lo); hi < r || hi == r && lo <= low {
			break
		}
		q--
		r, over = bits.Add64(r, d.hi, 0)
	}
	// a × 2^64 + low − q × d fits two limbs, so that higher ones cancel out.
	hi, lo := bits.Mul64(q, d.lo)
	hi += q * d.hi
	lo, borrow := bits.Sub64(low, lo, 0)
	hi, _ = bits.Sub64(a.lo, hi, borrow)
	return q, limbs{hi, lo}
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
	a := limbs{p[1], p[0]}
	more := a.digits() - quotientDigits
	if more > 0 {
		was := t != nothing
		a, t = a.lowered(more)
		t, places = t.with(was), places+more
	}
	a = a.rounded(t, HalfEven)
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
