package edition

import "example.com/quoin"

// Takings is what the prints still to be sold are expected to bring.
type Takings struct {
	Count int64        // how many they are
	Gross quoin.Amount // the prices paid for them
	Kept  quoin.Amount // what is left of these
	// Average and AverageKept are the price of a print, and what is left of it,
	// on average over the steps, weighted by count; none where no print is left.
	Average     quoin.Optional[quoin.Amount]
	AverageKept quoin.Optional[quoin.Amount]
	// Months is how long they take to sell; none where a step with some left has
	// no pace.
	Months quoin.Optional[quoin.Factor]
}

// Expected adds up what is still to be sold: Σ count × price, Σ count ×
// kept(price) and Σ count ÷ pace. Kept says what is left of a print sold at a
// price, after fees, tax and cost; without it, all of the price is. Sums are
// exact, averages and months quotients; nothing is rounded.
func Expected(steps []Priced, kept func(price quoin.Amount) quoin.Amount) Takings {
	var t Takings
	var months quoin.Factor
	paced := true
	for _, s := range steps {
		count := quoin.FactorOf(s.Count)
		t.Count += s.Count
		t.Gross = t.Gross.Add(s.Price.Times(count))
		t.Kept = t.Kept.Add(left(s, kept).Times(count))
		m, known := s.months(s.Count)
		months, paced = months.Add(m), paced && known
	}
	if t.Count > 0 {
		t.Average = quoin.Some(t.Gross.Over(quoin.FactorOf(t.Count)))
		t.AverageKept = quoin.Some(t.Kept.Over(quoin.FactorOf(t.Count)))
	}
	if paced {
		t.Months = quoin.Some(months)
	}
	return t
}

// left is what is left of a print sold at the step.
func left(s Priced, kept func(quoin.Amount) quoin.Amount) quoin.Amount {
	if kept == nil {
		return s.Price
	}
	return kept(s.Price)
}

// Cover is how far the prints still to be sold go towards a fixed cost.
type Cover struct {
	// Count is how many have to sell, in the order of the steps; all of them
	// where they do not cover it. Of is how many of these sell at each step.
	Count int64
	Of    []int64
	Kept  quoin.Amount // what is left of these
	// Over is what that is more than the cost; below zero, what is missing.
	Over quoin.Amount
	// Months is how long they take to sell; none where a step that they sell at
	// has no pace.
	Months quoin.Optional[quoin.Factor]
}

// Covers returns how many prints have to sell, in the order of the steps, until
// what is left of them reaches a fixed cost, such as the scan, the screens or
// proofing; false where all that are left do not. It counts from what is sold
// now, so the cost is what is not covered yet; the steps of an edition that is
// Unsold say it from the first print on. Kept is as for Expected. Nothing is
// rounded but the count, which is up to a whole print.
func Covers(fixed quoin.Amount, steps []Priced, kept func(price quoin.Amount) quoin.Amount) (Cover, bool) {
	c := Cover{Of: make([]int64, len(steps)), Over: fixed.Neg()}
	var months quoin.Factor
	paced := true
	for i, s := range steps {
		if c.Over.Sign() >= 0 {
			break
		}
		each := left(s, kept)
		n := enough(c.Over.Neg(), each, s.Count)
		c.Of[i], c.Count = n, c.Count+n
		c.Kept = c.Kept.Add(each.Times(quoin.FactorOf(n)))
		c.Over = c.Kept.Sub(fixed)
		m, known := s.months(n)
		months, paced = months.Add(m), paced && known
	}
	if paced {
		c.Months = quoin.Some(months)
	}
	return c, c.Over.Sign() >= 0
}

// enough returns the least number of prints that bring what is missing, or all
// of them where they do not. It halves rather than divides: the answer is then
// that of the comparison, and no quotient is rounded.
func enough(missing, each quoin.Amount, count int64) int64 {
	if each.Sign() <= 0 {
		return count
	}
	low, high := int64(0), count
	for low < high {
		middle := low + (high-low)/2
		if each.Times(quoin.FactorOf(middle)).Cmp(missing) >= 0 {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}
