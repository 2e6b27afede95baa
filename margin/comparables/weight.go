package comparables

import (
	"sort"

	"example.com/quoin"
)

// Place is a seller at a venue.
type Place struct{ Venue, Seller string }

// Weights counts the sellers of each venue, and the records of each seller there, so that
// each venue weighs the same in total, within it each seller, and within the seller each
// record.
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

// Parts returns what the weight of a record is one part of, where its venue weighs 1:
// sellers of the venue × records of its seller there.
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

// ValueAt returns the value at a share of the weight, of n values with rising positions, at
// least one: between positions it is interpolated, outside them it is the value at the end.
// The position of a value is (weight before it + half its own) ÷ all.
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
