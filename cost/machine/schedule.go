package machine

import "example.com/quoin"

// Schedule is how a machine is written down in the books by a declining
// balance: each period by a multiple of the straight-line rate on what is left.
// It is for books, not for prices; what may be written down, and how, is a
// matter of the law of the place.
type Schedule struct {
	Price    quoin.Amount
	Resale   quoin.Amount // what it is never written down below
	Multiple quoin.Factor // 2 for double declining
	Periods  int64
	// HalfFirst gives the first period half a period's write-down, and adds a
	// last one of half a period (the half-year convention).
	HalfFirst bool
	// Level goes over to spreading what is left evenly as soon as that writes
	// down more.
	Level bool
	// Places is the places of money each period is rounded to, halves away from
	// zero, the rest going on from the rounded balance; none means no rounding.
	Places quoin.Optional[int64]
}

// Written returns what each period writes down.
func (s Schedule) Written() []quoin.Amount {
	var out []quoin.Amount
	left := s.Price.Sub(s.Resale)
	balance := s.Price
	halves, gone := 2*max(s.Periods, 0), int64(0)
	for gone < halves {
		now := int64(2)
		if s.HalfFirst && gone == 0 {
			now = 1
		}
		down := s.down(balance, left, now, halves-gone)
		out = append(out, down)
		balance, left = balance.Sub(down), left.Sub(down)
		gone += now
	}
	return out
}

// down is what a period of so many halves writes down, of those that are left
// of the life.
func (s Schedule) down(balance, left quoin.Amount, now, remaining int64) quoin.Amount {
	declining := balance.Times(s.Multiple).Times(quoin.FactorOf(now)).Over(quoin.FactorOf(2 * s.Periods))
	even := left.Times(quoin.FactorOf(now)).Over(quoin.FactorOf(remaining))
	if s.Level && (even.Cmp(declining) > 0 || now >= remaining) {
		declining = even
	}
	if s.HalfFirst && now > remaining {
		declining = left // the last half period takes the rest
	}
	if places, given := s.Places.Get(); given {
		declining = declining.Round(int(places), quoin.HalfUp)
	}
	if declining.Cmp(left) > 0 {
		declining = left
	}
	return declining
}
