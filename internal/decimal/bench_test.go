package decimal

import "testing"

// Benchmarks put what is computed in 128 bits beside apd, for numbers such as unit
// costs that remember a quotient.
func BenchmarkSums(b *testing.B) {
	third, rate, price := New(7740, -2).Quo(New(27, 0)), New(1087, -3), New(2450, -2)
	for _, c := range []struct {
		name       string
		limbs, apd func() Decimal
	}{
		{"sum", func() Decimal { return third.Add(price) }, func() Decimal { return addBig(&third, &price, false) }},
		{"short sum", func() Decimal { return rate.Add(price) }, func() Decimal { return addBig(&rate, &price, false) }},
		{"product", func() Decimal { return third.Mul(rate) }, func() Decimal { return mulBig(&third, &rate) }},
		{"long product", func() Decimal { return third.Mul(third) }, func() Decimal { return mulBig(&third, &third) }},
		{"quotient", func() Decimal { return price.Quo(rate) }, func() Decimal { return quoBig(&price, &rate) }},
		{"even quotient", func() Decimal { return price.Quo(New(5, -1)) }, func() Decimal { half := New(5, -1); return quoBig(&price, &half) }},
		{"rounded", func() Decimal { return third.Round(2, HalfUp) }, func() Decimal { s := quantizeBig(&third, 12, HalfEven); return quantizeBig(&s, 2, HalfUp) }},
	} {
		b.Run(c.name+"/limbs", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.limbs()
			}
		})
		b.Run(c.name+"/apd", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.apd()
			}
		})
	}
}
