package edition

import "example.com/quoin"

// ExpectedProceeds is what the prints that are still to be sold are expected to bring.
type ExpectedProceeds struct {
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

// Expected adds up what is still to be sold: Σ count × price, Σ count × kept(price) and Σ count
// ÷ pace. Kept returns what is left of a print sold at a price, after fees, tax and cost; nil
// means all of it. Sums are exact, averages and months are quotients. Nothing is rounded.
func Expected(steps []PricedStep, kept func(price quoin.Amount) quoin.Amount) ExpectedProceeds {
	var t ExpectedProceeds
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
func left(s PricedStep, kept func(quoin.Amount) quoin.Amount) quoin.Amount {
	if kept == nil {
		return s.Price
	}
	return kept(s.Price)
}
