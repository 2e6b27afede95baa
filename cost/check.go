package cost

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns all that is wrong with the supply by itself, at once: a price that was left
// out, numbers out of range, a discount of more than all it is taken off. The error is
// quoin.Problems, with paths as in a document.
func (s Supply) Check() error {
	k := form.Check(s)
	if len(k.Problems) == 0 && s.Offer == nil && s.Stock == nil {
		_, err := s.UnitCost()
		k.AddAll(nil, err)
	}
	return k.All().Err()
}

// UnitCosts returns the landed unit cost of every supply by its id. It errs with
// quoin.Problems, all at once: what Check finds in each supply, under supplies[i], an id
// that comes twice, and an offer or a stock, whose price package buy works out.
func UnitCosts(supplies []Supply) (map[string]UnitCost, error) {
	var k form.Collector
	costs, first := make(map[string]UnitCost, len(supplies)), make(map[string]int, len(supplies))
	for i, s := range supplies {
		at := (*form.Path)(nil).Field("supplies").At(i)
		k.AddAll(at, s.Check())
		if j, twice := first[s.ID]; twice && s.ID != "" {
			k.Add(at.Field("id"), quoin.Problem{Code: quoin.DuplicateID, Found: prose.Quoted(s.ID) + " again", Wanted: fmt.Sprintf("an id other than that of supplies[%d]", j)})
		} else {
			first[s.ID] = i
		}
		if k.Under(at) {
			continue
		}
		u, err := s.UnitCost()
		k.AddAll(at, err)
		costs[s.ID] = u
	}
	if err := k.All().Err(); err != nil {
		return nil, err
	}
	return costs, nil
}
