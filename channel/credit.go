package channel

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Credit is selling on terms of payment. The invoice is paid later, sometimes early for a
// discount, sometimes never.
type Credit struct {
	// When the net amount is due.
	Days int64 `json:"days,omitzero" range:"[1,1000]"`
	// What money costs in a year.
	Interest quoin.Rate `json:"interest,omitzero" was:"money" range:"[0,1]"`
	// Discount for paying early; below 1.
	Early quoin.Rate `json:"early,omitzero" range:"[0,1)"`
	// Which figure of an early payment is rounded to money: what is due (also where it is not
	// given), or the discount. The other is what is left. 10% of 1725.05 is 172.50 off and 1552.55
	// due, or 172.51 off and 1552.54 due.
	EarlyRounded RoundedFigure `json:"early_rounded,omitempty"`
	// By when it is given, at most days.
	EarlyDays int64 `json:"early_days,omitzero" range:"[1,1000]"`
	// Share of orders that take it; all of them where it is not given.
	Taken quoin.Optional[quoin.Rate] `json:"taken,omitzero" range:"[0,1]"`
	// Share of invoices that are never paid.
	Bad quoin.Rate `json:"bad,omitzero" range:"[0,1]"`
}

// RoundedFigure says which figure of a discount is rounded to money; the other is what is left.
type RoundedFigure string

const (
	RoundedDue      RoundedFigure = "due"      // what is to be paid; also when empty
	RoundedDiscount RoundedFigure = "discount" // what is taken off
)

// UnmarshalText reads due or discount.
func (f *RoundedFigure) UnmarshalText(text []byte) error {
	return form.SetWord(f, text, RoundedDue, RoundedDiscount)
}

// rounding is that of the discount: where what is due is rounded half up, half a cent more is due.
func (f RoundedFigure) rounding() quoin.Rounding {
	if f == RoundedDiscount {
		return quoin.HalfUp
	}
	return quoin.HalfDown
}

// Waits returns for how many days money is waited for on average: taken × early days + (1 −
// taken) × days. Half within 10 days and half within 30 is 20.
func (c Credit) Waits() quoin.Factor {
	net := quoin.FactorOf(c.Days)
	if c.Early.IsZero() {
		return net
	}
	taken := c.Taken.Or(whole)
	return quoin.FactorOf(c.EarlyDays).Times(taken.Factor()).Add(net.Times(taken.Complement()))
}

// Carries returns what waiting costs, as a share of the invoice: interest × days waited ÷ 365.
// 20 days at 7.3% cost 0.4%.
func (c Credit) Carries() quoin.Rate { return carrying(c.Interest, c.Waits()) }

func carrying(money quoin.Rate, days quoin.Factor) quoin.Rate {
	return money.Factor().Times(days).Over(quoin.FactorOf(365)).Rate()
}

// EarlyCost returns what an early-payment discount costs in a year of so many days, without
// compounding: discount ÷ (1 − discount) × year ÷ (days − early days). 2% within 10 of 30 days
// is 36.73% on 360 days and 37.24% on 365 (OpenStax, Principles of Finance, 19.2). It returns
// false if the discount buys no days.
func (c Credit) EarlyCost(year int64) (quoin.Rate, bool) {
	days := c.Days - c.EarlyDays
	if days <= 0 || c.Early.Sign() <= 0 || c.Early.Cmp(whole) >= 0 {
		return quoin.Rate{}, false
	}
	each := c.Early.Factor().Over(c.Early.Complement())
	return each.Times(quoin.FactorOf(year)).Over(quoin.FactorOf(days)).Rate(), true
}

// EarlyYield is EarlyCost with compounding: (1 + discount ÷ (1 − discount)) ^ (year ÷ (days −
// early days)) − 1. 2% within 10 of 30 days is 44.59% on 365 days. It is right to at least 20
// places. It returns false if EarlyCost does, and for a year of less than one day.
func (c Credit) EarlyYield(year int64) (quoin.Rate, bool) {
	if _, ok := c.EarlyCost(year); !ok || year < 1 {
		return quoin.Rate{}, false
	}
	days := c.Days - c.EarlyDays
	grows := quoin.FactorOf(1).Over(c.Early.Complement())
	return power(grows, year, days).Sub(quoin.FactorOf(1)).Rate(), true
}

// power is x, at least 1, to the power of n ÷ of: whole powers by squaring, then
// the binary digits of the rest by square roots. Products are cut to the digits
// of a quotient.
func power(x quoin.Factor, n, of int64) quoin.Factor {
	out, square := quoin.FactorOf(1), x
	for whole := n / of; whole > 0; whole /= 2 {
		if whole%2 == 1 {
			out = cut(out, square)
		}
		square = cut(square, square)
	}
	rest := n % of
	for digits := 0; rest > 0 && digits < 120; digits++ {
		x = root(x)
		if rest *= 2; rest >= of {
			out, rest = cut(out, x), rest-of
		}
	}
	return out
}

func cut(x, y quoin.Factor) quoin.Factor { return x.Over(quoin.FactorOf(1).Over(y)) }

// root is the square root of x, at least 1, by Newton's method: from above, each
// step goes down.
func root(x quoin.Factor) quoin.Factor {
	y := x
	for range 100 {
		next := y.Add(x.Over(y)).Over(quoin.FactorOf(2))
		if y.Sub(next).Round(32, quoin.HalfEven).Sign() <= 0 {
			return next
		}
		y = next
	}
	return y
}
