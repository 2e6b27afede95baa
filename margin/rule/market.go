package rule

import (
	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Market allows prices between two quantiles of the comparables that count. It allows every
// price of a product with too few of them.
type Market struct {
	// The lower quantile.
	FromQuantile quoin.Rate `json:"from_quantile" was:"from" need:"yes" range:"[0,1]"`
	// The upper quantile.
	ToQuantile quoin.Rate `json:"to_quantile" was:"to" need:"yes" range:"[0,1]"`
	// How many must have been sold for a comparable to count; 1 where it is not given.
	MinSold quoin.Optional[int64] `json:"min_sold,omitzero" range:"[0,"`
	// Below how many comparables that count the rule is silent; 5 where it is not given, which is
	// common practice.
	MinSales quoin.Optional[int64] `json:"min_sales,omitzero" range:"[1,"`
	// Below how many venues with comparables that count the rule is silent; 2 where it is not
	// given, which is common practice.
	MinVenues quoin.Optional[int64] `json:"min_venues,omitzero" range:"[1,"`
	// Whether each seller of a venue weighs the same in total there; else each comparable does.
	BySeller bool `json:"by_seller,omitzero"`
	// At which share of the weight each comparable stands; type_5 where it is not given.
	Quantiles comparables.QuantileType `json:"quantiles,omitempty"`
	// What prices are brought to before they are compared; without one they are compared as they
	// are.
	Basis *comparables.Basis `json:"basis,omitempty"`
}

// String returns market.
func (Market) String() string { return "market" }

func (Market) about() subject { return items }

// Choice says which comparables count for the rule, and how.
func (k Market) Choice() comparables.Choice {
	return comparables.Choice{MinSold: k.MinSold.Or(1), BySeller: k.BySeller, Basis: k.Basis, Quantiles: k.Quantiles}
}

// Needs returns how many comparables have to count, and from how many venues, for the rule to
// speak: five from two where it does not say. That is common practice, as in margin/market.
func (k Market) Needs() (sales, venues int64) { return k.MinSales.Or(5), k.MinVenues.Or(2) }

// Enough reports whether so many comparables let the rule speak.
func (k Market) Enough(c comparables.Counts) bool {
	sales, venues := k.Needs()
	return int64(c.Counting) >= sales && int64(c.Venues) >= venues
}

// RangeOf returns the prices at the rule's two quantiles, of the comparables of an item that
// count. It returns false if too few count.
func (k Market) RangeOf(it Item) (from, to quoin.Amount, ok bool) {
	c := k.compare(comparables.NewList(it.Comparables, it.Size))
	return c.from, c.to, c.ok
}

func (k Market) asks(it Item, _ []Offer) asker {
	return k.compare(comparables.NewList(it.Comparables, it.Size)).limits()
}

// comparison is what a market rule makes of the comparables of an item.
type comparison struct {
	comparables.Counts
	from, to quoin.Amount
	ok       bool // enough of them count
}

func (k Market) compare(of *comparables.List) comparison {
	r := of.Rank(k.Choice())
	c := comparison{Counts: r.Counts}
	if k.Enough(c.Counts) {
		c.from, c.ok = r.PriceAt(k.FromQuantile)
		c.to, _ = r.PriceAt(k.ToQuantile)
	}
	return c
}

// limits are the two prices; none where too few count.
func (c comparison) limits() limits {
	if !c.ok {
		return nil
	}
	return limits{{AtLeast, c.from, ""}, {AtMost, c.to, ""}}
}

// comparisons are comparisons that are known, by rule and item, and what they are made from.
type comparisons struct {
	lists map[int]*comparables.List
	known map[[2]int]comparison
}

// compare is the comparison of a rule and an item with comparables.
func (c *comparisons) compare(rule int, k Market, item int, it *Item) comparison {
	at := [2]int{rule, item}
	if known, ok := c.known[at]; ok {
		return known
	}
	if c.known == nil {
		c.lists, c.known = make(map[int]*comparables.List), make(map[[2]int]comparison)
	}
	list, ok := c.lists[item]
	if !ok {
		list = comparables.NewList(it.Comparables, it.Size)
		c.lists[item] = list
	}
	c.known[at] = k.compare(list)
	return c.known[at]
}
