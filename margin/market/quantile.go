package market

import (
	"cmp"
	"slices"
	"sort"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/margin/comparables"
	"gonum.org/v1/gonum/mathext"
)

// cloud is points in order: by value, equal ones by weight, so that the order
// they came in changes nothing.
type cloud struct {
	points []point
	at     []quoin.Factor // the position of each: (weight before + half its own) ÷ all
	upTo   []quoin.Factor // the share of all at or below each value
	below  []quoin.Factor // the share of all below each value
}

func cloudOf(points []point) cloud {
	sorted := slices.SortedFunc(slices.Values(points), func(a, b point) int {
		return cmp.Or(a.value.Cmp(b.value), a.weight.Cmp(b.weight))
	})
	n := len(sorted)
	c := cloud{sorted, make([]quoin.Factor, n), make([]quoin.Factor, n), make([]quoin.Factor, n)}
	var all, before quoin.Factor
	for _, p := range sorted {
		all = all.Add(p.weight)
	}
	two := quoin.FactorOf(2)
	for i := 0; i < n; {
		j, below := i, before
		for ; j < n && sorted[j].value.Equal(sorted[i].value); j++ {
			c.at[j] = before.Add(sorted[j].weight.Over(two)).Over(all)
			before = before.Add(sorted[j].weight)
		}
		for ; i < j; i++ {
			c.below[i], c.upTo[i] = below.Over(all), before.Over(all)
		}
	}
	return c
}

// quantile is the value at a share of the weight. There is at least one point.
func (c cloud) quantile(share quoin.Factor) quoin.Factor {
	position := func(i int) quoin.Factor { return c.at[i] }
	return comparables.ValueAt(len(c.at), share, position, func(i int) quoin.Factor { return c.points[i].value })
}

func (c cloud) median() quoin.Factor { return c.quantile(half()) }

// rank is the share of the weight below a value and half of that at it.
func (c cloud) rank(value quoin.Factor) quoin.Factor {
	n := len(c.points)
	from := sort.Search(n, func(i int) bool { return c.points[i].value.Cmp(value) >= 0 })
	if from == n {
		return quoin.FactorOf(1)
	}
	if c.points[from].value.Equal(value) {
		return c.below[from].Add(c.upTo[from]).Over(quoin.FactorOf(2))
	}
	return c.below[from]
}

// bounds is between which values the quantile at a share of all there are lies,
// with a confidence, if as many as effective were drawn from them: from the
// greatest value that it is surely not below, to the least that it is surely not
// above, each but for half of what the confidence leaves. Of n equal weights
// these are order statistics: the one that r − 1 lie below is at most the
// quantile at p with the probability that at least r of n fall below that,
// I_p(r, n − r + 1). Here r − 1 is n × the weight below, whole or not. An end
// that the data do not bound is not given.
func (c cloud) bounds(share, confidence, effective float64) (low, high quoin.Optional[quoin.Factor]) {
	need, ok := estimate.Six(0.5 + confidence/2).Get()
	if !ok || effective < 1 {
		return low, high
	}
	surely := func(share, beyond float64) bool {
		rest := min(max(beyond*effective, 0), effective)
		if rest == effective {
			return false
		}
		p, ok := estimate.Six(mathext.RegIncBeta(rest+1, effective-rest, share)).Get()
		return ok && p.Cmp(need) >= 0
	}
	n := len(c.points)
	// The more lies below a value, the less sure it is below the quantile.
	end := sort.Search(n, func(i int) bool { return !surely(share, estimate.Float(c.below[i])) })
	if end > 0 {
		low = quoin.Some(c.points[end-1].value)
	}
	from := sort.Search(n, func(i int) bool { return surely(1-share, 1-estimate.Float(c.upTo[i])) })
	if from < n {
		high = quoin.Some(c.points[from].value)
	}
	return low, high
}
