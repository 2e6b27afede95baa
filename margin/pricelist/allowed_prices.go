package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
)

// AllowedPrices are the prices of a product that all rules allow. In the JSON of an answer they
// are runs of neighbouring prices, each as its first and its last price; the answer has the
// price step. Their own JSON is an object that holds everything.
type AllowedPrices struct {
	rule.Set
	places int
	listed [][2]quoin.Amount // while its answer is read
}

// IsZero reports whether nothing is known about the allowed prices.
func (a AllowedPrices) IsZero() bool { return a.Grid().Len() == 0 && a.listed == nil }

// Equal reports whether both are the same prices.
func (a AllowedPrices) Equal(b AllowedPrices) bool { return a.Set.Equal(b.Set) }

// mostListed bounds the runs that an answer lists; Set.Runs yields them all. A shop with
// endings, and no limit of its own, has a run for each price.
const mostListed = 100

// alone is allowed prices by themselves: a pattern, and the grid that it is of.
type alone struct {
	Step  quoin.Amount `json:"price_step,omitzero"`
	Limit quoin.Amount `json:"price_limit,omitzero"`
	rule.Pattern
}

// MarshalJSON writes the prices as an object: their pattern, with the step and the limit of all
// prices. In the JSON of an answer they are runs, at most a hundred. If there are more, the
// pattern beside them describes all.
func (a AllowedPrices) MarshalJSON() ([]byte, error) { return a.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (a AllowedPrices) AppendJSON(b []byte) ([]byte, error) {
	g := a.Grid()
	return form.Append(b, &alone{a.money(g.Step()), a.money(g.Price(g.Len())), a.Pattern()}, nil)
}

func (a AllowedPrices) money(p quoin.Amount) quoin.Amount {
	return p.Round(max(a.places, p.Places()), quoin.HalfUp)
}

// runs are the first of its runs, as an answer lists them.
func (a AllowedPrices) runs() [][2]quoin.Amount {
	out := [][2]quoin.Amount{}
	for first, last := range a.Runs() {
		if len(out) == mostListed {
			break
		}
		out = append(out, [2]quoin.Amount{first.Round(a.places, quoin.HalfUp), last.Round(a.places, quoin.HalfUp)})
	}
	return out
}

// UnmarshalJSON reads what MarshalJSON writes. The error is a Problem.
func (a *AllowedPrices) UnmarshalJSON(data []byte) error {
	var of alone
	if err := form.ReadStored(data, &of, nil); err != nil {
		return err
	}
	if of.Step.IsZero() && of.Limit.IsZero() && len(of.Between) == 0 {
		*a = AllowedPrices{}
		return nil
	}
	g, err := quoin.NewGrid(of.Step, of.Limit)
	if err != nil {
		return err
	}
	set, err := of.Set(g)
	if err != nil {
		return err
	}
	*a = AllowedPrices{Set: set, places: of.Step.Places()}
	return nil
}
