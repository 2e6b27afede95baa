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
	z := Decimal{inexact: x.inexact || y.inexact, made: true, least: x.least}
	if none(x.n) {
		return z
	}
	if x.n.Hi|y.n.Hi == 0 && x.n.Lo%y.n.Lo == 0 {
		q, dropped := trimmed(limbs{Lo: x.n.Lo / y.n.Lo}, quotientDigits)
		z.n, z.exp, z.neg = q, x.exp-y.exp+int32(dropped), x.neg != y.neg
		return z
	}
	// Raised so far, the quotient has 34 digits or more.
	raise := max(0, quotientDigits+length(y.n)-length(x.n))
	q, rest := longOf(x.n, raise).split(y.n)
	t := portion(rest, y.n)
	exp := int(x.exp) - int(y.exp) - raise
	if more := length(q) - quotientDigits; more > 0 {
		behind := t != nothing
		q, t = lowered(q, more)
		t = t.with(behind)
		exp += more
	}
	q, dropped := trimmed(rounded(q, t, HalfEven), quotientDigits)
	z.n, z.exp, z.neg = q, int32(exp+dropped), x.neg != y.neg
	z.inexact = z.inexact || t != nothing
	return z
}

// portion is the tail that rest ÷ of is.
func portion(rest, of limbs) tail {
	if none(rest) {
		return nothing
	}
	switch left := of.Minus(rest); compare(rest, left) {
	case -1:
		return below
	case 0:
		return half
	}
	return above
}

// isOne reports whether x is 1, exactly and written so.
func (x *Decimal) isOne() bool {
	return x.n == limbs{Lo: 1} && x.exp == 0 && x.big == nil && !x.neg && !x.inexact
}
