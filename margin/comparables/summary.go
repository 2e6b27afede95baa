package comparables

import (
	"sort"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// QuantileType says at which share of the weight a record of n is taken to stand, in the
// numbering of Hyndman and Fan, "Sample quantiles in statistical packages", The American
// Statistician 50 (1996) 361–365. The zero value is Type5.
type QuantileType string

const (
	// Type5 puts the k-th of n records of one venue at (k − ½) ÷ n, in the middle of its own
	// weight. It is Hazen's.
	Type5 QuantileType = "type_5"
	// Type6 puts it at k ÷ (n + 1), as many textbooks do: half of the mean weight lies free below
	// the first record and above the last.
	Type6 QuantileType = "type_6"
)

// UnmarshalText reads type_5 or type_6.
func (t *QuantileType) UnmarshalText(text []byte) error { return form.SetWord(t, text, Type5, Type6) }

// Codes of why a record does not count.
const (
	AskedOnly    quoin.Code = "asked_only"              // none known to be sold
	SoldTooFew   quoin.Code = "sold_too_few"            // some sold, and fewer than MinSold
	FrameUnknown quoin.Code = "frame_worth_unknown"     // framed, and what the frame is worth is not known
	NothingLeft  quoin.Code = "nothing_left_of_price"   // postage and frame are all of the price, or more
	SizeUnknown  quoin.Code = "comparable_without_size" // prices are brought to a size, and it or the product has none
)

// LeftOut is how many records do not count for one reason.
type LeftOut struct {
	// Why they do not count.
	Code quoin.Code `json:"code"`
	// How many there are.
	Count int64 `json:"count"`
}

// LeftOut counts the records that do not count, by reason: asked only, sold too few, the worth
// of a frame unknown, no size, nothing left of the price. Reasons of none are not listed.
func (l *List) LeftOut(c Choice) []LeftOut {
	order := [...]quoin.Code{AskedOnly, SoldTooFew, FrameUnknown, SizeUnknown, NothingLeft}
	var counts [len(order)]int64
	price := c.Basis.bringer(l.of)
	for i := range l.records {
		r := &l.records[i]
		why := AskedOnly
		switch {
		case r.Sold < c.MinSold && r.Sold > 0:
			why = SoldTooFew
		case r.Sold >= c.MinSold:
			if _, ok := price(r); ok {
				continue
			}
			why = c.Basis.lacks(r, l.of)
		}
		for k, code := range order {
			if code == why {
				counts[k]++
			}
		}
	}
	var out []LeftOut
	for k, n := range counts {
		if n > 0 {
			out = append(out, LeftOut{order[k], n})
		}
	}
	return out
}

// Seen is what one record sells for.
type Seen struct {
	// Where it is offered.
	Venue string `json:"venue"`
	// Its price: on the basis where it can be brought to it, else as it was noted.
	Price quoin.Amount `json:"price" range:"(0,"`
	// Whether it counts.
	Counts bool `json:"counts,omitzero"`
}

// Seen returns what each record sells for, in their order, and whether the choice counts it. Size
// is that of the product, or zero if it is unknown.
func (c Choice) Seen(records []Record, size quoin.Size) []Seen {
	out, price := make([]Seen, len(records)), c.Basis.bringer(size)
	for i := range records {
		r := &records[i]
		out[i] = Seen{Venue: r.Venue, Price: r.Price}
		if brought, ok := price(r); ok {
			out[i].Price, out[i].Counts = brought, r.Sold >= c.MinSold
		}
	}
	return out
}

// lacks is why a record cannot be brought to the basis.
func (b *Basis) lacks(r *Record, size quoin.Size) quoin.Code {
	_, bare := r.Bare()
	switch {
	case r.Framed && r.FrameWorth.IsZero():
		return FrameUnknown
	case bare && !b.Exponent.IsZero() && (r.Size.IsZero() || size.IsZero()):
		return SizeUnknown
	}
	return NothingLeft
}

// PeopleSelling is how many sellers the records that count have: those with a name once,
// wherever they sell, and those of a venue without one as one.
func (r *Ranking) PeopleSelling() (n int, name string) {
	all := make(map[Place]bool)
	for _, i := range r.order {
		at := Place{Seller: r.list[i].Seller}
		if at.Seller == "" {
			at.Venue = r.list[i].Venue
		}
		all[at], name = true, at.Seller
	}
	return len(all), name
}

// Ends returns the lowest and the highest price, and the one beside each; false if fewer than
// three records count.
func (r *Ranking) Ends() (low, nextLow, nextHigh, high quoin.Amount, ok bool) {
	n := len(r.order)
	if n < 3 {
		return low, nextLow, nextHigh, high, false
	}
	r.sorted()
	for _, at := range []int{0, 1, n - 2, n - 1} {
		r.settle(at)
	}
	return r.priceAt(0), r.priceAt(1), r.priceAt(n - 2), r.priceAt(n - 1), true
}

// Below returns the share of the weight at lower prices and half of that at the same price; 0
// if no record counts.
func (r *Ranking) Below(price quoin.Amount) quoin.Rate {
	n := len(r.order)
	if n == 0 {
		return quoin.Rate{}
	}
	r.sorted()
	find := func(beyond int) int {
		return sort.Search(n, func(i int) bool { return r.priceAt(i).Cmp(price) >= beyond })
	}
	from, end := find(0), find(1)
	for r.settle(from-1) || r.settle(from) || r.settle(end-1) || r.settle(end) {
		from, end = find(0), find(1)
	}
	at := r.before[from].Add(r.before[max(from, end)]).Over(quoin.FactorOf(2))
	return at.Over(quoin.FactorOf(int64(len(r.weights.Sellers)))).Rate()
}
