package source

import (
	"math/big"

	"example.com/quoin"
)

// The normal distribution on whole numbers of 10⁻³⁰: there are no floats here,
// and thirty places are more than a forecast has.

const places = 30

func unit() *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(places), nil) }

func fixed(f quoin.Factor) *big.Int {
	r := f.Rat()
	return new(big.Int).Quo(new(big.Int).Mul(r.Num(), unit()), r.Denom())
}

// factor returns a fixed number to 15 places; one too large for a factor, which
// no demand leads to, is zero.
func factor(x *big.Int) quoin.Factor {
	f, err := quoin.ParseFactor(new(big.Rat).SetFrac(x, unit()).FloatString(15))
	if err != nil {
		return quoin.Factor{}
	}
	return f
}

func mul(x, y *big.Int) *big.Int { return new(big.Int).Quo(new(big.Int).Mul(x, y), unit()) }

func quo(x, y *big.Int) *big.Int { return new(big.Int).Quo(new(big.Int).Mul(x, unit()), y) }

// exp returns e to the power of −x, for x of at least 0.
func exp(x *big.Int) *big.Int {
	sum, term := unit(), unit()
	for n := int64(1); term.Sign() > 0; n++ {
		term = new(big.Int).Quo(mul(term, x), big.NewInt(n))
		sum.Add(sum, term)
	}
	return quo(unit(), sum)
}

// normal returns the density at z and the probability of being at or below it:
// ½ + density × (z + z³ ÷ 3 + z⁵ ÷ 15 + z⁷ ÷ 105 + …). Beyond eight deviations
// it takes z for eight.
func normal(z *big.Int) (density, below *big.Int) {
	most := new(big.Int).Mul(unit(), big.NewInt(8))
	if z.CmpAbs(most) > 0 {
		z = new(big.Int).Mul(most, big.NewInt(int64(z.Sign())))
	}
	square := mul(z, z)
	// 1 ÷ √(2π)
	head, _ := new(big.Int).SetString("398942280401432677939946059934", 10)
	density = mul(head, exp(new(big.Int).Quo(square, big.NewInt(2))))
	sum, term := new(big.Int), new(big.Int).Set(z)
	for n := int64(3); term.Sign() != 0; n += 2 {
		sum.Add(sum, term)
		term = new(big.Int).Quo(mul(term, square), big.NewInt(n))
	}
	half := new(big.Int).Quo(unit(), big.NewInt(2))
	return density, half.Add(half, mul(density, sum))
}

// normalQuantile returns z with Φ(z) = p, to 15 places, by Newton's steps from
// 0, which rise to it from below where p is above a half: Φ is concave there.
func normalQuantile(p quoin.Rate) quoin.Factor {
	least := quoin.MustFactor("0.000001")
	one := quoin.FactorOf(1)
	x := p.Factor()
	switch {
	case x.Cmp(least) < 0:
		x = least
	case one.Sub(x).Cmp(least) < 0:
		x = one.Sub(least)
	}
	want, z := fixed(x), new(big.Int)
	enough := new(big.Int).Exp(big.NewInt(10), big.NewInt(places-20), nil)
	for range 100 {
		density, below := normal(z)
		step := quo(new(big.Int).Sub(want, below), density)
		z = new(big.Int).Add(z, step)
		if step.CmpAbs(enough) < 0 {
			break
		}
	}
	return factor(z)
}
