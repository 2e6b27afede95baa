package source

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// Stretch is volumes of good prints at which the same source costs least.
type Stretch struct {
	From   int64  `json:"from"`
	To     int64  `json:"to"`
	Source string `json:"source"` // id of a quote, or home
	// First and Last are what the prints cost together at both ends: the cash
	// needed.
	First quoin.Amount `json:"first"`
	Last  quoin.Amount `json:"last"`
	// Surplus is how many more than needed are made at the beginning.
	Surplus int64 `json:"surplus,omitzero"`
}

// AtHome is the source that is no quote.
const AtHome = "home"

const (
	mostVolume = 1_000_000
	mostSteps  = 1_000
)

// TooManySteps is the code of quotes whose prices change too often to compare.
const TooManySteps quoin.Code = "too_many_steps"

// Compare returns the source that costs least for every volume from 1 to most,
// home before quotes and earlier before later ones where they cost the same.
// Between the steps of all quotes every source costs a line, fixed + each × n, or
// the same as a larger quantity that costs less; where two lines cross, the better
// one changes. It errs, with a Problem, as
// buy.Scale.Check does, where most is not 1 to 1,000,000, or where multiples make
// more than 1,000 steps.
func Compare(home Home, quotes []Quote, most int64) ([]Stretch, error) {
	if most < 1 || most > mostVolume {
		return nil, quoin.Problem{Code: TooManySteps, Severity: quoin.Fault, Found: quoin.FactorOf(most).String() + " prints", Wanted: "1 to 1000000"}
	}
	c := comparison{home: home, quotes: quotes, most: most}
	steps, err := c.steps()
	if err != nil {
		return nil, err
	}
	for _, q := range quotes {
		c.covers = append(c.covers, q.Scale.Cover())
	}
	var out []Stretch
	for i, from := range steps[:len(steps)-1] {
		for _, part := range c.parts(from, steps[i+1]-1) {
			out = c.extend(out, part[0], part[1])
		}
	}
	return out, nil
}

type comparison struct {
	home   Home
	quotes []Quote
	covers []buy.Cover // of the quotes
	most   int64
}

func (c comparison) cost(source int, n int64) quoin.Amount {
	if source < 0 {
		return c.home.Cost(n)
	}
	return c.quotes[source].of(c.covers[source].Quantity(n))
}

// steps returns where any quote begins a new line, 1 first and most + 1 last:
// at the turns of its scale, behind each multiple, and where a larger quantity
// begins to cost less.
func (c comparison) steps() ([]int64, error) {
	at := []int64{1, c.most + 1}
	for _, q := range c.quotes {
		if err := q.Scale.Check(); err != nil {
			return nil, err
		}
		m := max(q.Scale.Multiple, 1)
		if m > 1 && c.most/m+int64(len(at)) > mostSteps {
			return nil, quoin.Problem{Code: TooManySteps, Severity: quoin.Fault, Path: "scale.multiple", Found: quoin.FactorOf(m).String(), Wanted: "a larger multiple, or fewer prints to compare"}
		}
		for n := m; m > 1 && n <= c.most; n += m {
			at = append(at, n+1)
		}
		at = append(at, q.Scale.Minimum+1)
		at = append(at, q.Scale.Turns()...)
		for _, d := range q.Scale.Dominated() {
			at = append(at, d.From, d.To+1)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	return slices.DeleteFunc(at, func(n int64) bool { return n < 1 || n > c.most+1 }), nil
}

// parts cuts a line of volumes where two sources cross.
func (c comparison) parts(from, to int64) [][2]int64 {
	at := []int64{from, to + 1}
	if from < to {
		for i := -1; i < len(c.quotes); i++ {
			for j := i + 1; j < len(c.quotes); j++ {
				at = append(at, c.crossing(i, j, from, to)...)
			}
		}
		slices.Sort(at)
		at = slices.Compact(at)
	}
	out := make([][2]int64, len(at)-1)
	for i := range out {
		out[i] = [2]int64{at[i], at[i+1] - 1}
	}
	return out
}

// crossing returns the volumes on both sides of where two lines cross.
func (c comparison) crossing(i, j int, from, to int64) []int64 {
	gap := c.cost(i, from).Sub(c.cost(j, from))
	closes := gap.Sub(c.cost(i, from+1).Sub(c.cost(j, from+1)))
	if closes.IsZero() || gap.Sign()*closes.Sign() < 0 {
		return nil
	}
	after := gap.Ratio(closes).Round(0, quoin.Down).Rat().Num()
	if !after.IsInt64() || after.Int64() > to-from {
		return nil
	}
	n := from + after.Int64()
	return slices.DeleteFunc([]int64{n, n + 1}, func(n int64) bool { return n <= from || n > to })
}

// extend adds volumes from one to another, which have one best source.
func (c comparison) extend(out []Stretch, from, to int64) []Stretch {
	best := -1
	for j := range c.quotes {
		if c.cost(j, from).Cmp(c.cost(best, from)) < 0 {
			best = j
		}
	}
	s := Stretch{From: from, To: to, Source: AtHome, First: c.cost(best, from), Last: c.cost(best, to)}
	if best >= 0 {
		s.Source, s.Surplus = c.quotes[best].ID, c.covers[best].Quantity(from)-from
	}
	if n := len(out); n > 0 && out[n-1].Source == s.Source {
		out[n-1].To, out[n-1].Last = s.To, s.Last
		return out
	}
	return append(out, s)
}
