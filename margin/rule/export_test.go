package rule

import "math/big"

// Fraction is ⌊i × a ÷ b⌋, at most n, and ⌈i × a ÷ b⌉, at least 1 and at most n + 1.
func Fraction(a, b *big.Int, i, n int64) (floor, ceil int64) {
	f := newFraction(a, b)
	return f.floor(i, n), f.ceil(i, n)
}
