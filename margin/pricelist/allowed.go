package pricelist

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
)

// Allowed is the prices of a product that all rules allow. In the JSON of an answer it is
// its runs of neighbouring prices, each as first and last, and the answer says by which
// steps they go; by itself it is an object that says it all.
type Allowed struct {
	rule.Set
	places   int
	inAnswer bool              // while its answer is written
	listed   [][2]quoin.Amount // while that is read
}

// IsZero reports whether nothing is said of what is allowed.
func (a Allowed) IsZero() bool { return a.Grid().Len() == 0 && a.listed == nil }

// Equal reports whether both are the same prices.
func (a Allowed) Equal(b Allowed) bool { return a.Set.Equal(b.Set) }

// mostListed bounds the runs that an answer lists; Set.Runs yields them all. A shop with
// endings, and no limit of its own, has a run for each price.
const mostListed = 100

// alone is allowed prices by themselves: a pattern, and the grid that it is of.
type alone struct {
	Step  quoin.Amount `json:"price_step,omitzero"`
	Limit quoin.Amount `json:"price_limit,omitzero"`
	rule.Pattern
}

// MarshalJSON writes the prices as an object: the pattern that they are, with the step and
// the limit of all prices. In the JSON of an answer it lists the runs, the first hundred
// where there are more: then Priced.Pattern says them all.
func (a Allowed) MarshalJSON() ([]byte, error) {
	if a.inAnswer {
		return a.runs()
	}
	g := a.Grid()
	return json.Marshal(alone{a.money(g.Step()), a.money(g.Price(g.Len())), a.Pattern()})
}

func (a Allowed) money(p quoin.Amount) quoin.Amount {
	return p.Round(max(a.places, p.Places()), quoin.HalfUp)
}

func (a Allowed) runs() ([]byte, error) {
	out := []byte{'['}
	n := 0
	for first, last := range a.Runs() {
		if n++; n > mostListed {
			break
		}
		if n > 1 {
			out = append(out, ',')
		}
		run, err := json.Marshal([2]quoin.Amount{first.Round(a.places, quoin.HalfUp), last.Round(a.places, quoin.HalfUp)})
		if err != nil {
			return nil, err
		}
		out = append(out, run...)
	}
	return append(out, ']'), nil
}

// UnmarshalJSON reads what MarshalJSON writes of allowed prices by themselves. The error is
// a Problem.
func (a *Allowed) UnmarshalJSON(data []byte) error {
	var of alone
	if err := form.ReadStored(data, &of, nil); err != nil {
		return err
	}
	if of.Step.IsZero() && of.Limit.IsZero() && len(of.Between) == 0 {
		*a = Allowed{}
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
	*a = Allowed{Set: set, places: of.Step.Places()}
	return nil
}
