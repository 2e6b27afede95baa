package rule

import "example.com/quoin"

// Pattern is a short form of a set of prices: those between any of the bounds that leave one of
// the endings when divided by a number. Prices that end in 0.99 are the ending 0.99 of the
// number 1.
type Pattern struct {
	// Bounds, each a first and a last price.
	Between [][2]quoin.Amount `json:"between" range:"[0,"`
	// What prices are divided by.
	Every quoin.Amount `json:"every"`
	// What may be left.
	EndsIn []quoin.Amount `json:"ends_in"`
}

// Pattern returns the short form of the set. A set without endings has the step of the grid as
// the number to divide by, and 0 as its ending.
func (s Set) Pattern() Pattern {
	p := Pattern{Every: s.grid.Step(), EndsIn: []quoin.Amount{{}}}
	if s.comb != nil {
		p.Every = s.grid.Price(s.comb.period)
		p.EndsIn = p.EndsIn[:0]
		for _, t := range s.comb.teeth {
			p.EndsIn = append(p.EndsIn, s.grid.Price(t))
		}
	}
	for _, r := range s.runs {
		p.Between = append(p.Between, [2]quoin.Amount{s.grid.Price(r.first), s.grid.Price(r.last)})
	}
	return p
}

// RunsAtMost returns an upper bound on the number of runs, without going through them.
func (s Set) RunsAtMost() int64 {
	if s.comb == nil {
		return int64(len(s.runs))
	}
	var sum int64
	for _, r := range s.runs {
		whole := (r.last - r.first) / s.comb.period
		sum += (whole + 2) * int64(len(s.comb.teeth))
		if sum < 0 || whole > 1<<40 {
			return 1 << 62
		}
	}
	return sum
}
