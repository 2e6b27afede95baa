package decimal

import (
	"math/big"
	"strconv"
	"strings"
)

// MaxText is the longest text that is looked at when a number is read, unless it may
// have more digits than that.
const MaxText = 64

// MostDigits is how many digits a number may have before the point, and behind it,
// where it is read back: so many each, and it is still computed with exactly.
const MostDigits = 1000

// Fault says why a text is not an acceptable number.
type Fault uint8

// The faults of Parse, in the order they are looked for.
const (
	OK         Fault = iota
	TooLong          // more bytes than Longest
	NotANumber       // not digits with at most one point
	TooLarge         // too many digits before the point
	TooFine          // too many digits after the point
)

// Parse reads a plain decimal: an optional minus, digits, and a point with
// digits. An exponent, as JSON numbers may have, is read only where allowed.
// The size of the result is known, and refused, before any of it is built.
func Parse(s string, whole, places int, exponent bool) (Decimal, Fault) {
	if len(s) > Longest(whole, places) {
		return Decimal{}, TooLong
	}
	body, neg := strings.CutPrefix(s, "-")
	var exp int
	if exponent {
		body, exp = cutExponent(body, max(whole, places)+len(s))
	}
	before, after, ok := parts(body)
	if !ok {
		return Decimal{}, NotANumber
	}
	before, after = shift(before, after, exp)
	if len(before) > whole {
		return Decimal{}, TooLarge
	}
	if len(after) > places {
		return Decimal{}, TooFine
	}
	return read(before, after, neg), OK
}

// parts are the digits before the point and after it; false where anything else stands there.
func parts(body string) (before, after string, ok bool) {
	before, after, point := strings.Cut(body, ".")
	return before, after, before != "" && (after != "" || !point) && digits(before) && digits(after)
}

// Longest is how many bytes of text a number may have.
func Longest(whole, places int) int { return max(MaxText, len("-.")+whole+places) }

// read is the number with digits before and after the point.
func read(before, after string, neg bool) Decimal {
	if len(before)+len(after) > mostDigits {
		n, _ := new(big.Int).SetString(before+after, 10)
		if neg {
			n.Neg(n)
		}
		return FromBig(n, -int32(len(after)))
	}
	x := Decimal{exp: -int32(len(after)), made: true, least: digitsOf(-int32(len(after)))}
	for _, part := range [...]string{before, after} {
		for i := range len(part) {
			x.n, _ = x.n.Times(10)
			x.n = x.n.Plus(limbs{Lo: uint64(part[i] - '0')})
		}
	}
	x.neg = neg && !none(x.n)
	return x
}

// shift moves the point by exp, which is bounded, and drops the zeros in front.
// Zeros behind stay as written unless the point moved: 17.50 remains 17.50.
func shift(before, after string, exp int) (string, string) {
	if exp == 0 {
		return strings.TrimLeft(before, "0"), after
	}
	point := len(before) + exp
	digits := strings.Repeat("0", max(-point, 0)) + before + after + strings.Repeat("0", max(exp-len(after), 0))
	point = max(point, 0)
	return strings.TrimLeft(digits[:point], "0"), strings.TrimRight(digits[point:], "0")
}

// cutExponent cuts an exponent off, which is kept within what is past every bound. A text
// with anything else behind its e is returned whole: it is no number.
func cutExponent(s string, past int) (string, int) {
	i := strings.IndexAny(s, "eE")
	if i < 0 {
		return s, 0
	}
	e, neg := strings.CutPrefix(s[i+1:], "-")
	if !neg {
		e = strings.TrimPrefix(e, "+")
	}
	if e == "" || !digits(e) {
		return s, 0
	}
	n := 0
	for _, c := range e {
		n = min(n*10+int(c-'0'), past)
	}
	if neg {
		n = -n
	}
	return s[:i], n
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// String writes x without an exponent: with as many digits after the point as it was read,
// built or rounded with, zeros too, and more only where they are not zeros. Sums keep the
// most that is so written of any part; products and quotients keep that of their first
// number. A number that remembers a quotient is written as it is compared, to 12 places.
func (x Decimal) String() string {
	var room [2*mostDigits + 3]byte
	return string(x.Append(room[:0]))
}

// Append writes x behind out, as String does.
func (x Decimal) Append(out []byte) []byte {
	x = x.asWritten()
	if x.neg {
		out = append(out, '-')
	}
	from := len(out)
	if x.big != nil {
		out = x.big.Append(out, 10)
	} else {
		out = appendLimbs(out, x.n)
	}
	switch {
	case x.exp >= 0 && x.isZero():
		return out
	case x.exp >= 0:
		return zeros(out, int(x.exp))
	}
	places := int(-x.exp)
	digits := len(out) - from
	// Digits that all stand behind the point move behind "0." and zeros.
	if missing := places + 1 - digits; missing > 0 {
		out = zeros(out, missing)
		copy(out[from+missing:], out[from:from+digits])
		for i := range missing {
			out[from+i] = '0'
		}
	}
	out = append(out, 0)
	point := len(out) - 1 - places
	copy(out[point+1:], out[point:])
	out[point] = '.'
	return out
}

// asWritten is x with the digits that are written.
func (x Decimal) asWritten() Decimal {
	least := x.least
	if !x.inexact && x.exp == -int32(least) {
		return x
	}
	x = x.Snap().Trim()
	if int32(least) > max(-x.exp, 0) {
		x = x.quantize(int32(least), Down)
	}
	return x
}

func zeros(out []byte, n int) []byte {
	for range n {
		out = append(out, '0')
	}
	return out
}

func appendLimbs(out []byte, a limbs) []byte {
	if a.Hi == 0 {
		return strconv.AppendUint(out, a.Lo, 10)
	}
	high, low := a.Over(tens[19])
	out = appendLimbs(out, high)
	for i := 18; i >= 0; i-- {
		out = append(out, byte('0'+low/tens[i]%10))
	}
	return out
}
