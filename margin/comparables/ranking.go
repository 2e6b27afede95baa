package comparables

import (
	"cmp"
	"slices"

	"example.com/quoin"
)

// Choice says which records count, and how.
type Choice struct {
	// MinSold is how many must have been sold for a record to count.
	MinSold int64
	// BySeller lets each seller of a venue weigh the same in total there, and the seller's
	// records equally; else all records of a venue weigh the same.
	BySeller bool
	// Basis is what prices are brought to; nil leaves them as they are.
	Basis *Basis
	// Quantiles says which positions records have.
	Quantiles QuantileType
}

// Counts is how many records of a list a Choice leaves.
type Counts struct {
	// Counting is how many records count, Venue the venue of the first of them, and Venues
	// how many venues there are.
	Counting int
	Venue    string
	Venues   int
	// Unsold is how many records did not sell enough, LeftOut how many others cannot be
	// brought to the basis.
	Unsold, LeftOut int
}

// Ranking is the records that count, from the cheapest up. A List makes it. Only one goroutine
// at a time may use it.
type Ranking struct {
	Counts

	list    []Record
	price   func(*Record) (quoin.Amount, bool)
	keys    []int64 // logarithms of prices; nil where order is sorted by prices
	order   []int
	settled [][2]int // stretches of the order that are sorted by prices
	weights Weights
	ends    bool                   // half of the mean weight lies free at both ends
	before  []quoin.Factor         // by place in the order: the weight before it; nil until a price is asked for
	known   map[int64]quoin.Factor // 1 ÷ a number, where they are many
	places  []quoin.Factor         // positions, by place in the order, that were asked for
}

// certain reports whether a price with a logarithm is above zero however it is computed:
// from 2^−30, of which decimals see 12 places, to 2^90, which no power on the way passes.
func certain(key int64) bool { return key > -30<<logPlaces && key < 90<<logPlaces }

// Rank finds the records that count. It computes prices only for records that a quantile falls
// on, and for those so near to them that logarithms cannot say which is cheaper.
func (l *List) Rank(c Choice) *Ranking {
	r := &Ranking{list: l.records, price: c.Basis.bringer(l.of), weights: Weights{Together: !c.BySeller}, ends: c.Quantiles == Type6, order: make([]int, 0, len(l.records))}
	r.keys = l.keys(c.Basis)
	for i := range r.list {
		one := &r.list[i]
		if one.Sold < c.MinSold {
			r.Unsold++
			continue
		}
		counts := r.keys != nil && certain(r.keys[i])
		if !counts {
			_, counts = r.price(one)
		}
		if !counts {
			r.LeftOut++
			continue
		}
		r.count(i)
	}
	return r
}

func (r *Ranking) count(i int) {
	if r.Counting == 0 {
		r.Venue = r.list[i].Venue
	}
	r.order = append(r.order, i)
	r.weights.Add(&r.list[i])
	r.Counting, r.Venues = len(r.order), len(r.weights.Sellers)
}

// Quantile returns the price below which a share q of the records lies, as they are, or false
// if there are none. Each venue has the same weight, and its records share it equally; see
// ValueAt. Records with equal prices keep their order. With one venue this is Type5.
func Quantile(records []Record, q quoin.Rate) (quoin.Amount, bool) { return Type5.Of(records, q) }

// Of returns Quantile by a type. Several venues are weighed by Type6 so: a record stands at
// (weight before it + half its own + half the mean weight of a record) ÷ (all weight + the mean
// weight).
func (t QuantileType) Of(records []Record, q quoin.Rate) (quoin.Amount, bool) {
	r := &Ranking{list: records, price: (*Basis)(nil).bringer(quoin.Size{}), weights: Weights{Together: true}, ends: t == Type6}
	for i := range records {
		r.count(i)
	}
	return r.PriceAt(q)
}

// PriceAt returns the price at a share of the weight, or false if no record counts.
func (r *Ranking) PriceAt(q quoin.Rate) (quoin.Amount, bool) {
	if len(r.order) == 0 {
		return quoin.Amount{}, false
	}
	r.sorted()
	want, n := q.Factor(), len(r.order)
	for at := reach(n, want, r.position); r.settle(at-1) || r.settle(at); {
		at = reach(n, want, r.position)
	}
	return ValueAt(n, want, r.position, r.priceAt), true
}

// sorted puts the records in order and sums up their weights, once.
func (r *Ranking) sorted() {
	n := len(r.order)
	if r.before != nil || n == 0 {
		return
	}
	if n > fewKeys {
		r.known = make(map[int64]quoin.Factor)
	}
	r.before, r.places = make([]quoin.Factor, n+1), make([]quoin.Factor, n)
	if r.keys == nil {
		r.settled = [][2]int{{0, n}}
		r.sort(0, n)
	} else {
		slices.SortFunc(r.order, func(i, j int) int { return cmp.Or(cmp.Compare(r.keys[i], r.keys[j]), i-j) })
	}
	r.sum(0, n)
}

// sort sorts a stretch of the order by prices, equal ones as they come.
func (r *Ranking) sort(from, end int) {
	type priced struct {
		at    int
		price quoin.Amount
	}
	of := make([]priced, end-from)
	for n := range of {
		of[n] = priced{r.order[from+n], r.priceAt(from + n)}
	}
	slices.SortFunc(of, func(a, b priced) int { return cmp.Or(a.price.Cmp(b.price), a.at-b.at) })
	for n := range of {
		r.order[from+n] = of[n].at
	}
}

// sum sums up the weights of a stretch.
func (r *Ranking) sum(from, end int) {
	for n := from; n < end; n++ {
		r.before[n+1] = r.before[n].Add(r.weight(n))
	}
}

// weight is that of the record at a place in the order, of venues that weigh 1 each.
func (r *Ranking) weight(n int) quoin.Factor {
	parts := r.weights.Parts(&r.list[r.order[n]])
	if own, ok := r.known[parts]; ok {
		return own
	}
	own := quoin.FactorOf(1).Over(quoin.FactorOf(parts))
	if r.known != nil {
		r.known[parts] = own
	}
	return own
}

// position returns the position of the record at a place in the order. A search asks for the
// same few again and again.
func (r *Ranking) position(n int) quoin.Factor {
	if !r.places[n].IsGiven() {
		r.places[n] = r.positionOf(n)
	}
	return r.places[n]
}

func (r *Ranking) positionOf(n int) quoin.Factor {
	half, all := r.weight(n).Over(quoin.FactorOf(2)), quoin.FactorOf(int64(len(r.weights.Sellers)))
	if r.ends {
		mean := all.Over(quoin.FactorOf(int64(len(r.order))))
		half, all = half.Add(mean.Over(quoin.FactorOf(2))), all.Add(mean)
	}
	return r.before[n].Add(half).Over(all)
}

func (r *Ranking) priceAt(n int) quoin.Amount {
	price, _ := r.price(&r.list[r.order[n]])
	return price
}

// settle sorts by prices what logarithms do not tell apart from the record at a place, and
// reports whether that was still to be done.
func (r *Ranking) settle(n int) bool {
	if n < 0 || n >= len(r.order) || slices.ContainsFunc(r.settled, func(s [2]int) bool { return s[0] <= n && n < s[1] }) {
		return false
	}
	from, end := n, n+1
	for from > 0 && r.near(from-1) {
		from--
	}
	for end < len(r.order) && r.near(end-1) {
		end++
	}
	r.settled = append(r.settled, [2]int{from, end})
	if end-from > 1 {
		r.sort(from, end)
		r.sum(from, end-1)
		clear(r.places[from:end])
	}
	return true
}

// near reports whether logarithms do not tell the record at a place from the next one:
// they are off by less than 2^−42, and prices are compared to 12 places, which is less
// than 2^−39.
func (r *Ranking) near(n int) bool {
	key := r.keys[r.order[n]]
	places := min(max(10, 14-key>>logPlaces), logPlaces)
	return r.keys[r.order[n+1]]-key < 1<<places
}
