package decimal

import (
	"math/big"

	"github.com/cockroachdb/apd/v3"

	"example.com/quoin/internal/int128"
)

// powerBits is how many binary places powers are computed with. 34 digits are 113 of
// them, and less than 60 are lost on the way.
const powerBits = 256

// mostDoublings is how many times the result may be doubled or halved from 1.
const mostDoublings = 1000

// pow2 is x^y for x above 0, as 2 to the power of y × log2(x); false where that is far
// from 1. It takes a thirtieth of the time that apd takes.
func pow2(x, y Decimal) (Decimal, bool) {
	of, to := x.Rat(), y.Rat()
	log := log2(of.Num(), of.Denom())
	log.Mul(log, to.Num())
	log.Div(log, to.Denom()) // downward, below 0 too
	whole := new(big.Int).Rsh(log, powerBits)
	if whole.CmpAbs(big.NewInt(mostDoublings)) > 0 {
		return Decimal{}, false
	}
	n := int(whole.Int64())
	part := exp2(log.Sub(log, whole.Lsh(whole, powerBits)))
	// As many tens as leave 36 digits before the point, or a few more or less.
	tens := 36 - n*30103/100000
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(tens, -tens))), nil)
	if tens >= 0 {
		part.Mul(part, scale)
	} else {
		part.Quo(part.Lsh(part, 4*mostDoublings), scale)
		n -= 4 * mostDoublings
	}
	return rooted(func(z *apd.Decimal) (apd.Condition, error) {
		return quotient.Round(z, apd.NewWithBigInt(new(apd.BigInt).SetMathBigInt(moved(part, n-powerBits)), int32(-tens)))
	}), true
}

// moved is x × 2^n, cut.
func moved(x *big.Int, n int) *big.Int {
	if n < 0 {
		return x.Rsh(x, uint(-n))
	}
	return x.Lsh(x, uint(n))
}

// log2 is the logarithm to base 2 of a ÷ b, × 2^powerBits: of 52 places that are found one
// by one, and Halley's correction, which has three times as many.
func log2(a, b *big.Int) *big.Int {
	n := a.BitLen() - b.BitLen()
	m := moved(new(big.Int).Set(a), powerBits+64-n)
	m.Quo(m, b).Rsh(m, 64) // from a half to 2
	if m.BitLen() <= powerBits {
		m, n = m.Lsh(m, 1), n-1
	}
	log := new(big.Int).Lsh(big.NewInt(int128.Log2(new(big.Int).Rsh(m, powerBits-63).Uint64(), 52)), powerBits-52)
	near := exp2(log)
	over := new(big.Int).Sub(m, near)
	over.Lsh(over, powerBits+1).Quo(over, m.Add(m, near))
	over.Lsh(over, powerBits).Quo(over, logOf2())
	return log.Add(log.Add(log, over), new(big.Int).Lsh(big.NewInt(int64(n)), powerBits))
}

// exp2 is 2 to the power of x ÷ 2^powerBits, from 0 to 1, × 2^powerBits: the series of
// x × ln 2 halved so often that few terms are left, squared as often.
func exp2(x *big.Int) *big.Int {
	const halvings = 20
	one := new(big.Int).Lsh(big.NewInt(1), powerBits)
	x = new(big.Int).Mul(x, logOf2())
	x.Rsh(x, powerBits+halvings)
	sum, term := new(big.Int).Set(one), one
	for i := int64(1); term.Sign() > 0; i++ {
		term = term.Mul(term, x)
		term.Rsh(term, powerBits).Quo(term, big.NewInt(i))
		sum.Add(sum, term)
	}
	for range halvings {
		sum.Mul(sum, sum).Rsh(sum, powerBits)
	}
	return sum
}

// logOf2 is the natural logarithm of 2, × 2^powerBits.
func logOf2() *big.Int {
	n, _ := new(big.Int).SetString("b17217f7d1cf79abc9e3b39803f2f6af40f343267298b62d8a0d175b8baafa2b", 16)
	return n
}
