package market

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// sale is a record that counts, by its number, with its price on the basis.
type sale struct {
	record int
	price  quoin.Amount
}

// point is a price with its weight: the records of one seller at one venue and price.
type point struct {
	value, weight quoin.Factor
}

// who is a seller, wherever. One without a name is of its venue only.
func who(at comparables.Place) comparables.Place {
	if at.Seller != "" {
		at.Venue = ""
	}
	return at
}

// shares is what the weights of records come from.
type shares struct {
	records []comparables.Record
	comparables.Weights
}

func sharesOf(records []comparables.Record, sales []sale) *shares {
	s := &shares{records: records}
	for _, x := range sales {
		s.Add(&records[x.record])
	}
	return s
}

// parts is what the weight of a record is one part of: venues × sellers of its
// venue × records of its seller there.
func (s *shares) parts(record int) int64 {
	return int64(len(s.Sellers)) * s.Parts(&s.records[record])
}

// weight is that of so many records of one seller at one venue. It is one
// quotient, so that a seller whose records all double keeps the very same
// weights.
func (s *shares) weight(record int, records int64) quoin.Factor {
	return quoin.FactorOf(records).Over(quoin.FactorOf(s.parts(record)))
}

// effective is Kish's effective sample size, (Σ weight)² ÷ Σ weight², with
// sellers as its units, since records of one seller do not speak for themselves
// (Kish, Survey Sampling, 1965, section 11.7; from memory). With each seller as
// heavy as the other it is the number of sellers.
func (s *shares) effective() float64 {
	weights := make(map[comparables.Place]float64)
	for _, at := range slices.SortedFunc(maps.Keys(s.Records), byPlace) {
		weights[who(at)] += 1 / float64(int64(len(s.Sellers))*s.Sellers[at.Venue])
	}
	var sum, squares float64
	for _, w := range slices.Sorted(maps.Values(weights)) {
		sum += w
		squares += w * w
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

func byPlace(a, b comparables.Place) int {
	return cmp.Or(strings.Compare(a.Venue, b.Venue), strings.Compare(a.Seller, b.Seller))
}

// points weighs sales. Those of one seller at one venue and one price are one
// point.
func (s *shares) points(sales []sale) []point {
	sorted := slices.SortedFunc(slices.Values(sales), func(a, b sale) int {
		return cmp.Or(s.samePlace(a, b), a.price.Cmp(b.price))
	})
	var out []point
	for i := 0; i < len(sorted); {
		j := i + 1
		for j < len(sorted) && s.samePlace(sorted[i], sorted[j]) == 0 && sorted[i].price.Equal(sorted[j].price) {
			j++
		}
		out = append(out, point{number(sorted[i].price), s.weight(sorted[i].record, int64(j-i))})
		i = j
	}
	return out
}

func (s *shares) samePlace(a, b sale) int {
	x, y := &s.records[a.record], &s.records[b.record]
	return byPlace(comparables.Place{Venue: x.Venue, Seller: x.Seller}, comparables.Place{Venue: y.Venue, Seller: y.Seller})
}
