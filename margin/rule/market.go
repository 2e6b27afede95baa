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
	// Below how many comparables that count the rule is silent; 1 where it is not given. Five,
	// from two venues, are common practice.
	MinSales quoin.Optional[int64] `json:"min_sales,omitzero" range:"[1,"`
	// Below how many venues with comparables that count the rule is silent; 1 where it is not
	// given.
	MinVenues quoin.Optional[int64] `json:"min_venues,omitzero" range:"[1,"`
	// Whether each seller of a venue weighs the same in total there; else each comparable does.
	BySeller bool `json:"by_seller,omitzero"`
	// What prices are brought to before they are compared; without one they are compared as they
	// are.
	Basis *comparables.Basis `json:"basis,omitempty"`
}

// String returns market.
func (Market) String() string { return "market" }

func (Market) about() subject { return items }

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
	r := of.Rank(comparables.Choice{MinSold: k.MinSold.Or(1), BySeller: k.BySeller, Basis: k.Basis})
	c := comparison{Counts: r.Counts}
	if int64(c.Counting) >= k.MinSales.Or(1) && int64(c.Venues) >= k.MinVenues.Or(1) {
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
