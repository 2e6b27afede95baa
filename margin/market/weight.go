package market

import (
	"cmp"
	"slices"
	"strings"

	"example.com/quoin"
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

// who is a seller. One without a name is of its venue only.
type who struct{ venue, seller string }

func (r Record) who() who {
	if r.Seller == "" {
		return who{venue: r.Venue}
	}
	return who{seller: r.Seller}
}

// shares counts what weights come from: sellers of each venue, records of each
// seller at each venue.
type shares struct {
	records []Record
	sellers map[string]int64
	of      map[[2]string]int64
}

func sharesOf(records []Record, sales []sale) shares {
	s := shares{records, make(map[string]int64), make(map[[2]string]int64)}
	for _, x := range sales {
		r := records[x.record]
		at := [2]string{r.Venue, r.Seller}
		if s.of[at] == 0 {
			s.sellers[r.Venue]++
		}
		s.of[at]++
	}
	return s
}

// parts is what the weight of a record is one part of: venues × sellers of its
// venue × records of its seller there.
func (s shares) parts(record int) int64 {
	r := s.records[record]
	return int64(len(s.sellers)) * s.sellers[r.Venue] * s.of[[2]string{r.Venue, r.Seller}]
}

// weight is that of so many records of one seller at one venue. It is one
// quotient, so that a seller whose records all double keeps the very same
// weights.
func (s shares) weight(record int, records int64) quoin.Factor {
	return quoin.FactorOf(records).Over(quoin.FactorOf(s.parts(record)))
}

// effective is Kish's effective sample size, (Σ weight)² ÷ Σ weight², with
// sellers as its units, since records of one seller do not speak for themselves
// (Kish, Survey Sampling, 1965, section 11.7; from memory). With each seller as
// heavy as the other it is the number of sellers.
func (s shares) effective() float64 {
	weights := make(map[who]float64)
	for _, at := range s.places() {
		r := Record{Venue: at[0], Seller: at[1]}
		weights[r.who()] += 1 / float64(int64(len(s.sellers))*s.sellers[at[0]])
	}
	var all []float64
	for _, w := range weights {
		all = append(all, w)
	}
	slices.Sort(all)
	var sum, squares float64
	for _, w := range all {
		sum += w
		squares += w * w
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

// places is each seller at each venue, in order.
func (s shares) places() [][2]string {
	var all [][2]string
	for at := range s.of {
		all = append(all, at)
	}
	slices.SortFunc(all, func(a, b [2]string) int {
		return cmp.Or(strings.Compare(a[0], b[0]), strings.Compare(a[1], b[1]))
	})
	return all
}

// points weighs sales. Those of one seller at one venue and one price are one
// point.
func (s shares) points(sales []sale) []point {
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

func (s shares) samePlace(a, b sale) int {
	x, y := s.records[a.record], s.records[b.record]
	return cmp.Or(strings.Compare(x.Venue, y.Venue), strings.Compare(x.Seller, y.Seller))
}
