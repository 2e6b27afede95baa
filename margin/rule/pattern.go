package rule

import (
	"math/big"

	"example.com/quoin"
)

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
		p.EndsIn = each(s.comb.teeth, s.grid.Price)
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

// Set returns the prices of a grid that the pattern describes. It is the inverse of
// Set.Pattern. The error is a Problem, if it is not a pattern of that grid: bounds that are not
// on the grid, not in order, or not prices of the pattern; endings that are not in order or not
// below the number they are remainders of.
func (p Pattern) Set(g quoin.Grid) (Set, error) {
	of, ok := p.comb(g.Step())
	s := Set{grid: g, comb: of}
	for _, ends := range p.Between {
		r := run{onGrid(g, ends[0]), onGrid(g, ends[1])}
		ok = ok && r.first > 0 && r.last >= r.first && of.has(r.first) && of.has(r.last)
		if n := len(s.runs); n > 0 {
			ok = ok && r.first > s.runs[n-1].last+1
		}
		s.runs = append(s.runs, r)
	}
	if !ok {
		return Set{}, quoin.Problem{
			Code: quoin.BadGrid, Severity: quoin.Fault, Found: "prices that are no pattern of " + g.String(),
			Wanted: "bounds in order, and endings in order and below every, all of that grid",
		}
	}
	return s, nil
}

// comb is the pattern that endings make; false where they make none.
func (p Pattern) comb(step quoin.Amount) (*comb, bool) {
	if step.IsZero() || len(p.EndsIn) == 0 {
		return nil, false
	}
	period, ok := steps(p.Every, step)
	ok = ok && period > 0
	teeth := make([]int64, len(p.EndsIn))
	for i, e := range p.EndsIn {
		var whole bool
		teeth[i], whole = steps(e, step)
		ok = ok && whole && teeth[i] >= 0 && teeth[i] < period && (i == 0 || teeth[i] > teeth[i-1])
	}
	if !ok {
		return nil, false
	}
	return combOf(period, teeth), true
}

// steps is how many steps an amount is; false where it is no whole number of them.
func steps(a, step quoin.Amount) (int64, bool) {
	n := new(big.Rat).Quo(a.Rat(), step.Rat())
	return n.Num().Int64(), n.IsInt() && n.Num().IsInt64()
}

// onGrid is the index of a price, 0 where it is none of the grid.
func onGrid(g quoin.Grid, p quoin.Amount) int64 {
	if i := g.Ceil(p); i <= g.Len() && g.Price(i).Equal(p) {
		return i
	}
	return 0
}
