package picture

import "example.com/quoin"

// scale puts amounts on a length.
type scale struct {
	from, to    quoin.Amount
	first, last int
}

// at is where an amount lies, to the nearest tenth; amounts beyond the ends lie beyond them.
func (s scale) at(a quoin.Amount) int {
	span := s.to.Sub(s.from)
	if span.Sign() <= 0 {
		return s.first
	}
	n, _ := a.Sub(s.from).Ratio(span).Times(quoin.FactorOf(int64(s.last-s.first))).Round(0, quoin.HalfUp).Units(0)
	return s.first + int(n)
}

// within is at, kept between the ends.
func (s scale) within(a quoin.Amount) int {
	if s.first > s.last {
		return min(max(s.at(a), s.last), s.first)
	}
	return min(max(s.at(a), s.first), s.last)
}

// holds reports whether an amount lies between the ends.
func (s scale) holds(a quoin.Amount) bool { return a.Cmp(s.from) >= 0 && a.Cmp(s.to) <= 0 }

// tick is an amount that is written on an axis.
type tick struct {
	at    int
	label string
}

// ticks are round amounts between the ends, at most so many: multiples of 1, 2 or 5 times a power
// of ten.
func (s scale) ticks(most int, currency quoin.Currency) []tick {
	step, span := quoin.AmountOf(1, currency.Digits()), s.to.Sub(s.from)
	grow := [3]quoin.Factor{quoin.FactorOf(2), quoin.MustFactor("2.5"), quoin.FactorOf(2)}
	for n := 0; step.Times(quoin.FactorOf(int64(most-1))).Cmp(span) < 0; n++ {
		step = step.Times(grow[n%3])
	}
	places := currency.Digits()
	if step.Round(0, quoin.Down).Equal(step) {
		places = 0
	}
	var out []tick
	up := quoin.Up
	if s.from.Sign() < 0 { // where Up is away from zero
		up = quoin.Down
	}
	n, _ := s.from.Ratio(step).Round(0, up).Units(0)
	for a := step.Times(quoin.FactorOf(n)); a.Cmp(s.to) <= 0 && len(out) <= most; a = a.Add(step) {
		out = append(out, tick{s.at(a), a.Round(places, quoin.HalfUp).String()})
	}
	return out
}

// spread widens the ends to hold an amount.
func (s *scale) spread(amounts ...quoin.Amount) {
	for _, a := range amounts {
		if a.Cmp(s.from) < 0 {
			s.from = a
		}
		if a.Cmp(s.to) > 0 {
			s.to = a
		}
	}
}
