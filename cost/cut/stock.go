package cut

import "example.com/quoin"

// Stock is sticks of one length at a price each.
type Stock struct {
	Stick Stick        `json:"stick" need:"yes"`
	Price quoin.Amount `json:"price" need:"yes" range:"[0,"`
}

// Choice is what some rails cost out of one of several stocks.
type Choice struct {
	Index  int // of the stock
	Sticks Sticks
	Cost   quoin.Amount // price × sticks
}

// Cheapest returns the stock that all rails cost least out of, the first of
// those that cost the same; stocks whose sticks are too short are passed over.
// It errs as Stick.Out does for the last of them, where all are.
func Cheapest(stocks []Stock, rails ...Rail) (Choice, error) {
	best := Choice{Index: -1}
	failed := fault(quoin.EmptyList, "", "no stock", "at least one", "")
	for i, s := range stocks {
		sticks, err := s.Stick.Out(rails...)
		if err != nil {
			failed = err
			continue
		}
		cost := s.Price.Times(quoin.FactorOf(sticks.Sticks))
		if best.Index < 0 || cost.Cmp(best.Cost) < 0 {
			best = Choice{i, sticks, cost}
		}
	}
	if best.Index < 0 {
		return Choice{}, failed
	}
	return best, nil
}
