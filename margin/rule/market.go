package rule

import (
	"slices"

	"example.com/quoin"
)

// Comparable is a price at which a print like a product is offered elsewhere,
// and how many were sold at it.
type Comparable struct {
	Product string       `json:"product" need:"yes"`
	Venue   string       `json:"venue" need:"yes"`
	Price   quoin.Amount `json:"price" need:"yes" range:"[0,"`
	Sold    int64        `json:"sold,omitzero" range:"[0,"`
}

// Market allows prices between two quantiles of the comparables that sold; it
// is silent about a product without any.
type Market struct {
	From quoin.Rate `json:"from" need:"yes" range:"[0,1]"`
	To   quoin.Rate `json:"to" need:"yes" range:"[0,1]"`
	// MinSold is how many must have been sold for a comparable to count; none
	// given means 1.
	MinSold quoin.Optional[int64] `json:"min_sold,omitzero" range:"[0,"`
}

// String returns market.
func (Market) String() string { return "market" }

// Range returns the prices at the rule's quantiles; false where no comparable
// counts.
func (k Market) Range(comparables []Comparable) (from, to quoin.Amount, ok bool) {
	counted := slices.DeleteFunc(slices.Clone(comparables), func(c Comparable) bool {
		return c.Sold < k.MinSold.Or(1)
	})
	from, ok = Quantile(counted, k.From)
	to, _ = Quantile(counted, k.To)
	return from, to, ok
}

func (k Market) allowed(it Item, _ []Offer) (Set, error) {
	from, to, ok := k.Range(it.Comparables)
	if !ok {
		return All(it.Grid), nil
	}
	return Between(it.Grid, from, to), nil
}

// Quantile returns the price below which a share q of comparables lies; false
// where there are none. Each venue weighs the same in total and its records
// equally. Sorted by price, equal ones as they come, a record's position is
// (weight before it + half its own) ÷ all; between positions the price is
// interpolated, outside them it is the end record's. With one venue this is
// type 5 of Hyndman and Fan, "Sample quantiles in statistical packages", The
// American Statistician 50 (1996) 361–365, which is Hazen's.
func Quantile(comparables []Comparable, q quoin.Rate) (quoin.Amount, bool) {
	if len(comparables) == 0 {
		return quoin.Amount{}, false
	}
	sorted := slices.Clone(comparables)
	slices.SortStableFunc(sorted, func(a, b Comparable) int { return a.Price.Cmp(b.Price) })
	at := positions(sorted)
	want := q.Factor()
	i := 0
	for i < len(at) && at[i].Cmp(want) < 0 {
		i++
	}
	if i == 0 {
		return sorted[0].Price, true
	}
	if i == len(at) {
		return sorted[i-1].Price, true
	}
	low, high := sorted[i-1].Price, sorted[i].Price
	along := want.Sub(at[i-1]).Over(at[i].Sub(at[i-1]))
	return low.Add(high.Sub(low).Times(along)), true
}

// positions returns the position of each record of a sorted list.
func positions(sorted []Comparable) []quoin.Factor {
	venues := make(map[string]int64)
	for _, c := range sorted {
		venues[c.Venue]++
	}
	all, two := quoin.FactorOf(int64(len(venues))), quoin.FactorOf(2)
	var before quoin.Factor
	out := make([]quoin.Factor, len(sorted))
	for i, c := range sorted {
		own := quoin.FactorOf(1).Over(quoin.FactorOf(venues[c.Venue]))
		out[i] = before.Add(own.Over(two)).Over(all)
		before = before.Add(own)
	}
	return out
}
