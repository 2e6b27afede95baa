package machine

import "example.com/quoin"

// payment returns what a month has to bring: (price − resale) × i ÷ (1 − v) +
// resale × i, where i is a twelfth of the yearly interest and v = (1 + i)^−n
// (the capital recovery factor of engineering economy).
func (m Machine) payment() quoin.Amount {
	i := m.Interest.Factor().Over(quoin.FactorOf(12))
	v := discount(i, m.LifeMonths)
	return m.Price.Sub(m.Resale).Times(i).Over(quoin.FactorOf(1).Sub(v)).Add(m.Resale.Times(i))
}

// discount returns (1 + i)^−n by squaring. All products are written as
// quotients by the inverse, u = 1 ÷ v beside v, which keeps them to 34 digits.
func discount(i quoin.Factor, n int64) quoin.Factor {
	one := quoin.FactorOf(1)
	u := one.Add(i)
	v, out := one.Over(u), one
	for ; n > 0; n /= 2 {
		if n%2 == 1 {
			out = out.Over(u)
		}
		u, v = u.Over(v), v.Over(u)
	}
	return out
}
