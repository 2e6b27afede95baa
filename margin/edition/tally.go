package edition

import (
	"fmt"
	"slices"

	"example.com/quoin/internal/prose"
)

// Numbering is how the prints of one numbering stand, and its proofs.
type Numbering struct {
	// Id of the product that it is of; not given where it runs over all.
	Product string `json:"product,omitempty"`
	// The numbered prints.
	Numbers Tally `json:"numbers"`
	// The artist's proofs; not given where there are none.
	Proofs Tally `json:"proofs,omitzero"`
}

// Tally is how many prints of a numbering, or of its proofs, are in which state. Sold,
// reserved, destroyed, kept and free add up to how many there are.
type Tally struct {
	// How many there are.
	Of int64 `json:"of"`
	// How many are sold.
	Sold int64 `json:"sold"`
	// How many are promised.
	Reserved int64 `json:"reserved,omitzero"`
	// How many are spoiled or lost.
	Destroyed int64 `json:"destroyed,omitzero"`
	// How many are kept back.
	Kept int64 `json:"kept,omitzero"`
	// How many are free.
	Free int64 `json:"free"`
	// Which are free, in rising order, each run as first and last; not given where some are sold
	// and no ledger says which.
	FreeNumbers []Span `json:"free_numbers,omitempty"`
}

// ToSell returns how many are still to be sold: those free and those reserved.
func (t Tally) ToSell() int64 { return t.Free + t.Reserved }

// Last returns how many will be sold in the end: those sold and those still to be sold.
func (t Tally) Last() int64 { return t.Sold + t.ToSell() }

// Span is a run of numbers, both ends included.
type Span struct{ From, To int64 }

// String returns "21–50", or "7" for a single number.
func (s Span) String() string {
	if s.From == s.To {
		return fmt.Sprint(s.From)
	}
	return fmt.Sprintf("%d–%d", s.From, s.To)
}

// MarshalText returns String.
func (s Span) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Unsold returns the tally of a numbering that nothing has happened to yet, to plan the whole
// edition.
func (e Edition) Unsold() Tally {
	return Tally{Of: e.size(), Free: e.size(), FreeNumbers: gaps(nil, e.size())}
}

// NumberingOf returns the numbering of a product: its own, or the one for all products. It
// returns false if there is none.
func NumberingOf(numberings []Numbering, product string) (Numbering, bool) {
	i := slices.IndexFunc(numberings, func(n Numbering) bool { return n.Product == product || n.Product == "" })
	if i < 0 {
		return Numbering{}, false
	}
	return numberings[i], true
}

// gaps returns which of the numbers 1 to of are not taken. It sorts taken.
func gaps(taken []int64, of int64) []Span {
	var out []Span
	slices.Sort(taken)
	next := int64(1)
	for _, n := range taken {
		if n > next {
			out = append(out, Span{next, n - 1})
		}
		next = n + 1
	}
	if next <= of {
		out = append(out, Span{next, of})
	}
	return out
}

// count adds one in a state to the tally.
func (t *Tally) count(s State) {
	switch s {
	case Sold:
		t.Sold++
	case Reserved:
		t.Reserved++
	case Destroyed:
		t.Destroyed++
	case Kept:
		t.Kept++
	}
}

// close works out what is free, where so many of 1 to Of are taken.
func (t *Tally) close(taken []int64) {
	t.Free = t.Of - int64(len(taken))
	t.FreeNumbers = gaps(taken, t.Of)
}

// ofProduct names a product in a Problem, where there is one.
func ofProduct(product string) string {
	if product == "" {
		return ""
	}
	return " of " + prose.Quoted(product)
}
