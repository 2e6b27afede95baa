package rule

import (
	"example.com/quoin"
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
	Date quoin.Date `json:"date,omitzero"`
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
	c := compare(it, k)
	return c.from, c.to, c.ok
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

// compare makes a comparison of the comparables of an item.
func compare(it Item, k Market) comparison { return (&marketKeys{of: &it}).compare(k) }

func (k Market) enough(counting, venues int) bool {
	return int64(counting) >= k.MinSales.Or(1) && int64(venues) >= k.MinVenues.Or(1)
}

func (k Market) allowed(it Item, _ []Offer) (Set, error) {
	return compare(it, k).allowed(it.Grid), nil
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
	r := ranking{bring: func(i int) quoin.Amount { return comparables[i].Price }, list: comparables}
	for i := range comparables {
		r.order = append(r.order, i)
	}
	r.sort(0, len(r.order))
	r.settled = [][2]int{{0, len(r.order)}}
	r.weigh(weigh(comparables))
	return r.quantile(q), true
}

// weights is how many sellers each venue has, and how many records each seller
// there: a record weighs 1 ÷ (the one × the other), so that each venue weighs 1.
type weights struct {
	sellers map[string]int64
	records map[[2]string]int64
	of      func(*Comparable) [2]string // venue and seller
	known   map[int64]quoin.Factor      // 1 ÷ a number, where they are many
}

// byVenue takes all records of a venue for those of one seller.
func byVenue(comparables []Comparable) weights { return weigh(comparables, false) }

func weigh(comparables []Comparable, sellers bool) weights {
	w := newWeights(sellers)
	for i := range comparables {
		w.add(&comparables[i])
	}
	return w
}

func newWeights(sellers bool) weights {
	of := func(c *Comparable) [2]string { return [2]string{c.Venue} }
	if sellers {
		of = func(c *Comparable) [2]string { return [2]string{c.Venue, c.Seller} }
	}
	return weights{make(map[string]int64), make(map[[2]string]int64), of, nil}
}

func (w weights) add(c *Comparable) {
	seller := w.of(c)
	if w.records[seller] == 0 {
		w.sellers[c.Venue]++
	}
	w.records[seller]++
}

func (w weights) weight(c *Comparable) quoin.Factor {
	n := w.sellers[c.Venue] * w.records[w.of(c)]
	if own, ok := w.known[n]; ok {
		return own
	}
	own := quoin.FactorOf(1).Over(quoin.FactorOf(n))
	if w.known != nil {
		w.known[n] = own
	}
	return own
}
