package decimal

import "strings"

// Written reads what String and Digits write, of at most so many bytes: an optional
// minus, digits, and a point with digits. False where s is anything else.
func Written(s string, most int) (Decimal, bool) {
	if len(s) > most {
		return Decimal{}, false
	}
	body, neg := strings.CutPrefix(s, "-")
	before, after, ok := parts(body)
	if !ok {
		return Decimal{}, false
	}
	return read(strings.TrimLeft(before, "0"), after, neg), true
}

// Digits writes x with every digit that it has, also one that remembers a quotient.
func (x Decimal) Digits() string {
	x.inexact = false
	return x.String()
}

// AsCut returns x as one that remembers a quotient; false for more digits than such a
// number has.
func (x Decimal) AsCut() (Decimal, bool) {
	x.inexact, x.least = true, 0
	return x, x.big == nil
}

// Shift returns x × 10^places, digit by digit the same.
func (x Decimal) Shift(places int) Decimal {
	x.exp += int32(places)
	return x
}

// Span is how many digits x takes as it is written with all of them, about.
func (x Decimal) Span() int {
	if x.big != nil {
		return int(max(x.exp, -x.exp)) + x.big.BitLen()/3
	}
	return int(max(x.exp, -x.exp)) + mostDigits
}
