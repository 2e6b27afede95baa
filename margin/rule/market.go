package rule

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// Comparable is a price at which a print like a product is offered elsewhere,
// and how many were sold at it. What it says beyond that, a market rule uses where
// its options ask for it; Date, Edition and Signed are for the reader.
type Comparable struct {
	Product string `json:"product" need:"yes"`
	Venue   string `json:"venue" need:"yes"`
	// Seller is who sells it there. Those of a venue without one count as those of
	// a single seller.
	Seller string       `json:"seller,omitempty"`
	Price  quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// Date is when it was sold, or seen.
	Date buy.Date `json:"date,omitzero"`
	// Size is that of the print without mat and frame.
	Size quoin.Size `json:"size,omitzero"`
	Sold int64      `json:"sold,omitzero" range:"[0,"`
	// Tax is the rate of tax that the price holds, 0 where it holds none. Postage
	// and frame are given as the buyer sees them, with the same tax.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Postage is what sending it costs, PostageOnTop how much of that the buyer
	// pays beside the price: nothing where postage is in the price, all of it where
	// it is on top, or something between.
	Postage      quoin.Amount `json:"postage,omitzero" range:"[0,"`
	PostageOnTop quoin.Amount `json:"postage_on_top,omitzero" range:"[0,"`
	// Edition is how many there are of a limited edition, 0 where it is open.
	Edition int64 `json:"edition,omitzero" range:"[0,"`
	Signed  bool  `json:"signed,omitzero"`
	// Framed says that a frame is sold with it, FrameWorth what that is worth.
	Framed     bool                         `json:"framed,omitzero"`
	FrameWorth quoin.Optional[quoin.Amount] `json:"frame_worth,omitzero" range:"[0,"`
}

// Market allows prices between two quantiles of the comparables that count; it is
// silent about a product of which too few do.
type Market struct {
	From quoin.Rate `json:"from" need:"yes" range:"[0,1]"`
	To   quoin.Rate `json:"to" need:"yes" range:"[0,1]"`
	// MinSold is how many must have been sold for a comparable to count; none
	// given means 1.
	MinSold quoin.Optional[int64] `json:"min_sold,omitzero" range:"[0,"`
	// MinSales and MinVenues are below how many comparables that count, and from
	// how many venues, the rule is silent; none given means 1. Five from two are
	// common practice.
	MinSales  quoin.Optional[int64] `json:"min_sales,omitzero" range:"[1,"`
	MinVenues quoin.Optional[int64] `json:"min_venues,omitzero" range:"[1,"`
	// BySeller lets each seller of a venue weigh the same in total there, and the
	// seller's records equally.
	BySeller bool `json:"by_seller,omitzero"`
	// Basis is what prices are brought to before they are compared; none leaves
	// them as they are.
	Basis *Basis `json:"basis,omitempty"`
}

// String returns market.
func (Market) String() string { return "market" }

// Range is RangeOf for comparables of a product whose size is not known.
func (k Market) Range(comparables []Comparable) (from, to quoin.Amount, ok bool) {
	return k.RangeOf(Item{Comparables: comparables})
}

// RangeOf returns the prices at the rule's quantiles of what counts of an item's
// comparables; false where that is too little.
func (k Market) RangeOf(it Item) (from, to quoin.Amount, ok bool) {
	counting, _, _ := k.Counting(it)
	if !k.enough(counting) {
		return from, to, false
	}
	weigh := byVenue
	if k.BySeller {
		weigh = bySeller
	}
	from, ok = quantile(counting, k.From, weigh)
	to, _ = quantile(counting, k.To, weigh)
	return from, to, ok
}

// Counting returns the comparables of an item that count, with their prices on the
// rule's basis; how many sold too little to count; and how many of the others
// cannot be brought to the basis, and do not count either.
func (k Market) Counting(it Item) (counting []Comparable, unsold, leftOut int) {
	bring := k.Basis.bringer(it.Size)
	for _, c := range it.Comparables {
		if c.Sold < k.MinSold.Or(1) {
			unsold++
			continue
		}
		price, ok := bring(c)
		if !ok {
			leftOut++
			continue
		}
		c.Price = price
		counting = append(counting, c)
	}
	return counting, unsold, leftOut
}

func (k Market) enough(counting []Comparable) bool {
	venues := make(map[string]bool)
	for _, c := range counting {
		venues[c.Venue] = true
	}
	return int64(len(counting)) >= k.MinSales.Or(1) && int64(len(venues)) >= k.MinVenues.Or(1)
}

func (k Market) allowed(it Item, _ []Offer) (Set, error) {
	from, to, ok := k.RangeOf(it)
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
	return quantile(comparables, q, byVenue)
}

func quantile(comparables []Comparable, q quoin.Rate, weigh func([]Comparable) weights) (quoin.Amount, bool) {
	if len(comparables) == 0 {
		return quoin.Amount{}, false
	}
	sorted := slices.Clone(comparables)
	slices.SortStableFunc(sorted, func(a, b Comparable) int { return a.Price.Cmp(b.Price) })
	at := weigh(sorted).positions(sorted)
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

// weights is how many sellers each venue has, and how many records each seller
// there: a record weighs 1 ÷ (the one × the other), so that each venue weighs 1.
type weights struct {
	sellers map[string]int64
	records map[[2]string]int64
	of      func(Comparable) [2]string // venue and seller
}

// byVenue takes all records of a venue for those of one seller.
func byVenue(comparables []Comparable) weights {
	return weigh(comparables, func(c Comparable) [2]string { return [2]string{c.Venue} })
}

func bySeller(comparables []Comparable) weights {
	return weigh(comparables, func(c Comparable) [2]string { return [2]string{c.Venue, c.Seller} })
}

func weigh(comparables []Comparable, of func(Comparable) [2]string) weights {
	w := weights{make(map[string]int64), make(map[[2]string]int64), of}
	for _, c := range comparables {
		if w.records[of(c)] == 0 {
			w.sellers[c.Venue]++
		}
		w.records[of(c)]++
	}
	return w
}

func (w weights) weight(c Comparable) quoin.Factor {
	return quoin.FactorOf(1).Over(quoin.FactorOf(w.sellers[c.Venue] * w.records[w.of(c)]))
}

// positions returns the position of each record of a sorted list.
func (w weights) positions(sorted []Comparable) []quoin.Factor {
	all, two := quoin.FactorOf(int64(len(w.sellers))), quoin.FactorOf(2)
	var before quoin.Factor
	out := make([]quoin.Factor, len(sorted))
	for i, c := range sorted {
		own := w.weight(c)
		out[i] = before.Add(own.Over(two)).Over(all)
		before = before.Add(own)
	}
	return out
}
