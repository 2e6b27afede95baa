package comparables

import (
	"sort"

	"example.com/quoin"
)

// Place is a seller at a venue.
type Place struct{ Venue, Seller string }

// Weights counts the sellers of each venue, and the records of each seller there. So each venue
// has the same weight in total, in it each seller, and of the seller each record.
type Weights struct {
	// Together takes the sellers of a venue for one.
	Together bool
	// Sellers is how many there are, by venue.
	Sellers map[string]int64
	// Records is how many there are of each seller at each venue.
	Records map[Place]int64
}

func (w *Weights) place(r *Record) Place {
	if w.Together {
		return Place{Venue: r.Venue}
	}
	return Place{r.Venue, r.Seller}
}

// Add counts a record.
func (w *Weights) Add(r *Record) {
	if w.Records == nil {
		w.Sellers, w.Records = make(map[string]int64), make(map[Place]int64)
	}
	at := w.place(r)
	if w.Records[at] == 0 {
		w.Sellers[r.Venue]++
	}
	w.Records[at]++
}

// Parts returns the number of parts that the weight of the venue is divided into for this
// record: sellers of the venue × records of its seller there. The record weighs 1 ÷ parts.
func (w *Weights) Parts(r *Record) int64 { return w.Sellers[r.Venue] * w.Records[w.place(r)] }

// measured is a value that can be interpolated.
type measured[V any] interface {
	Add(V) V
	Sub(V) V
	Times(quoin.Factor) V
}

// reach returns the first of n rising positions that is not below a share, n where all are.
func reach(n int, share quoin.Factor, position func(int) quoin.Factor) int {
	return sort.Search(n, func(i int) bool { return position(i).Cmp(share) >= 0 })
}

// ValueAt returns the value at a share of the weight. There are n values, at least one, with
// rising positions. The position of a value is (weight before it + half its own) ÷ all. Between
// positions values are interpolated; outside them the value at the end holds.
func ValueAt[V measured[V]](n int, share quoin.Factor, position func(int) quoin.Factor, value func(int) V) V {
	i := reach(n, share, position)
	if i == 0 {
		return value(0)
	}
	if i == n {
		return value(n - 1)
	}
	low, high, at := value(i-1), value(i), position(i-1)
	return low.Add(high.Sub(low).Times(share.Sub(at).Over(position(i).Sub(at))))
}
