package source

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/internal/form"
)

// Stretch is a run of volumes, in good prints, at which the same source is cheapest.
type Stretch struct {
	// The first of them.
	From int64 `json:"from"`
	// The last of them.
	To int64 `json:"to"`
	// Id of a quote, or home.
	Source string `json:"source"`
	// What the prints cost together at the first: the cash needed.
	First quoin.Amount `json:"first"`
	// What they cost at the last.
	Last quoin.Amount `json:"last"`
	// How many more than needed are made at the first; not there where none are.
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

// Compare returns the cheapest source for every volume from 1 to most. If two cost the same,
// home comes before quotes, and an earlier quote before a later one. Between the steps of all
// quotes, every source costs a line, fixed + each × n, or the same as a larger quantity that is
// cheaper. The cheapest source changes where two lines cross. So not every volume is tried.
//
// The error is Problems, with paths that begin with quotes or most: what buy.Scale.Check finds,
// a most that is not 1 to 1,000,000, or multiples that make more than 1,000 steps.
func Compare(home RunAtHome, quotes []Quote, most int64) ([]Stretch, error) {
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
		out = c.between(out, from, steps[i+1]-1)
	}
	return out, nil
}

type comparison struct {
	home   RunAtHome
	quotes []Quote
	covers []buy.Cover // of the quotes
	most   int64
}

func (c comparison) cost(source int, n int64) quoin.Amount {
	if source < 0 {
		return c.home.Cost(n)
	}
	q, cover := c.quotes[source], c.covers[source]
	return cover.Cost(cover.Quantity(n)).Add(q.Setup).Add(q.Proof)
}

// steps returns where any quote begins a new line, 1 first and most + 1 last:
// at the turns of its scale, behind each multiple, and where a larger quantity
// begins to cost less.
func (c comparison) steps() ([]int64, error) {
	var k form.Collector
	if c.most < 1 || c.most > mostVolume {
		k.Add(form.In("most"), quoin.Problem{Code: quoin.OutOfRange, Found: quoin.FactorOf(c.most).String(), Wanted: "a value of at least 1 and at most 1000000"})
	}
	at := []int64{1, c.most + 1}
	for i, q := range c.quotes {
		scale := form.In("quotes").At(i).Field("scale")
		if k.AddAll(scale, q.Scale.Check()); len(k.Problems) > 0 {
			continue
		}
		m := max(q.Scale.Multiple, 1)
		if m > 1 && c.most/m+int64(len(at)) > mostSteps {
			k.Add(scale.Field("multiple"), quoin.Problem{Code: TooManySteps, Found: quoin.FactorOf(m).String(), Wanted: "a larger multiple, or fewer prints to compare"})
			break
		}
		for n := m; m > 1 && n <= c.most; n += m {
			at = append(at, n+1)
		}
		at = append(at, q.Scale.Turns()...) // the first of which is the minimum
		for _, d := range q.Scale.Dominated() {
			at = append(at, d.From, d.To+1)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	return slices.DeleteFunc(at, func(n int64) bool { return n < 1 || n > c.most+1 }), k.All().Err()
}

// line is what a source costs at a volume, and each print more.
type line struct{ at, each quoin.Amount }

// between adds the stretches of volumes between which every source costs a line: the
// best one, up to where another becomes better than it first.
func (c comparison) between(out []Stretch, from, to int64) []Stretch {
	lines := make([]line, len(c.quotes)+1) // home first
	for j := range lines {
		lines[j].at = c.cost(j-1, from)
		if from < to {
			lines[j].each = c.cost(j-1, from+1).Sub(lines[j].at)
		}
	}
	for at := from; at <= to; {
		best := 0
		for j := range lines {
			if lines[j].after(at-from).Cmp(lines[best].after(at-from)) < 0 {
				best = j
			}
		}
		end := to
		for j := range lines {
			if n, ok := lines[j].passes(lines[best], at-from, j < best); ok {
				end = min(end, from+n-1)
			}
		}
		out = c.extend(out, best-1, at, end)
		at = end + 1
	}
	return out
}

// after is what so many prints more come to.
func (l line) after(n int64) quoin.Amount { return l.at.Add(l.each.Times(quoin.FactorOf(n))) }

// passes returns after how many prints, more than now, a line first costs less than
// the best one, or as much where that is enough; false where it does at none that
// matters.
func (l line) passes(best line, now int64, asMuch bool) (int64, bool) {
	closes := best.each.Sub(l.each)
	if closes.Sign() <= 0 {
		return 0, false
	}
	n := l.at.Sub(best.at).Ratio(closes).Round(0, quoin.Down).Rat().Num()
	if !n.IsInt64() || n.Int64() > mostVolume {
		return 0, false
	}
	after := max(n.Int64(), now+1)
	if costs := l.after(after).Cmp(best.after(after)); costs > 0 || costs == 0 && !asMuch {
		after++
	}
	return after, true
}

// extend adds volumes from one to another, of which one source is the best.
func (c comparison) extend(out []Stretch, best int, from, to int64) []Stretch {
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
