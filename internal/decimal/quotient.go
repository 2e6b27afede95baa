package decimal

// Quo returns x ÷ y to 34 significant digits, half to even. A quotient that
// comes out even is exact and loses its trailing zeros. It panics if y is 0,
// as integer division does.
func (x Decimal) Quo(y Decimal) Decimal {
	if y.isZero() {
		panic("decimal: division by zero")
	}
	if y.isOne() {
		x.made = true
		return x
	}
	if x.big != nil || y.big != nil || x.exp-y.exp > farthest || x.exp-y.exp < -farthest {
		return quoBig(&x, &y)
	}
	z := Decimal{inexact: x.inexact || y.inexact, made: true}
	if x.n.isZero() {
		return z
	}
	if x.n.hi|y.n.hi == 0 && x.n.lo%y.n.lo == 0 {
		q, dropped := limbs{0, x.n.lo / y.n.lo}.trimmed(quotientDigits)
		z.n, z.exp, z.neg = q, x.exp-y.exp+int32(dropped), x.neg != y.neg
		return z
	}
	// Raised so far, the quotient has 34 digits or more.
	raise := max(0, quotientDigits+y.n.digits()-x.n.digits())
	q, rest := x.n.long(raise).split(y.n)
	t := portion(rest, y.n)
	exp := int(x.exp) - int(y.exp) - raise
	if more := q.digits() - quotientDigits; more > 0 {
		behind := t != nothing
		q, t = q.lowered(more)
		t = t.with(behind)
		exp += more
	}
	q, dropped := q.rounded(t, HalfEven).trimmed(quotientDigits)
	z.n, z.exp, z.neg = q, int32(exp+dropped), x.neg != y.neg
	z.inexact = z.inexact || t != nothing
	return z
}

// portion is the tail that rest ÷ of is.
func portion(rest, of limbs) tail {
	if rest.isZero() {
		return nothing
	}
	switch left := of.minus(rest); rest.cmp(left) {
	case -1:
		return below
	case 0:
		return half
	}
	return above
}

// isOne reports whether x is 1, exactly and written so.
func (x *Decimal) isOne() bool {
	return x.n == limbs{0, 1} && x.exp == 0 && x.big == nil && !x.neg && !x.inexact
}
