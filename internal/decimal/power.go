package decimal

import "github.com/cockroachdb/apd/v3"

const (
	mostPower = 10   // the greatest exponent of Pow
	mostTens  = 1000 // how many powers of ten a base of Pow may be away from 1
)

// Pow returns x^y for x > 0 and y from −10 to 10, and 0 for all other x and y, as
// it does for x beyond 10^±1000, where no document gets. Whether x is above 0, and
// y whole, is judged on 12 places where they remember a quotient.
//
// A whole y multiplies: from 0 up the power is a product of x's, exact where x is,
// and below 0 it is 1 ÷ that product, a quotient. All other powers carry 34
// significant digits, half to even, and remember that they do, even those that
// come out even, such as 4^0.5.
func (x Decimal) Pow(y Decimal) Decimal {
	most, whole := New(mostPower, 0), y.Snap()
	if x.Sign() <= 0 || whole.Cmp(most) > 0 || whole.Cmp(most.Neg()) < 0 || x.far() {
		return New(0, 0)
	}
	if n, ok := whole.Units(0); ok {
		return x.power(n)
	}
	if n, ok := whole.Mul(New(2, 0)).Units(0); ok {
		half := x.power(n)
		return rooted(func(z *apd.Decimal) (apd.Condition, error) { return quotient.Sqrt(z, half.apd()) })
	}
	if out, ok := pow2(x, y); ok {
		return out
	}
	return rooted(func(z *apd.Decimal) (apd.Condition, error) { return quotient.Pow(z, x.apd(), y.apd()) })
}

// far reports whether x is out of the reach of Pow.
func (x *Decimal) far() bool {
	d := x.apd()
	tens := d.NumDigits() + int64(d.Exponent)
	return tens > mostTens || tens < -mostTens
}

// power is x^n, for an x above 0.
func (x Decimal) power(n int64) Decimal {
	out := New(1, 0)
	for range max(n, -n) {
		out = out.Mul(x)
	}
	if n < 0 {
		return New(1, 0).Quo(out)
	}
	return out
}

// rooted is a power that is no product, 0 where apd has none. Square roots have a
// way of their own there, which takes a twentieth of the time.
func rooted(compute func(z *apd.Decimal) (apd.Condition, error)) Decimal {
	var z, short apd.Decimal
	cond, err := compute(&z)
	if err != nil || z.Form != apd.Finite {
		return New(0, 0)
	}
	short.Reduce(&z)
	return done(&short, cond, nil, true, 0)
}
