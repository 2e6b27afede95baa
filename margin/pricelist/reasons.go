package pricelist

import (
	"bytes"
	"encoding/json"

	"example.com/quoin"
)

// Reasons is the steps that a figure comes from, computed when they are asked
// for.
type Reasons struct{ explain func(*quoin.Trail) }

// Steps returns the steps; none of the zero value.
func (r Reasons) Steps() []quoin.Step {
	t := quoin.NewTrail(24)
	if r.explain != nil {
		r.explain(t)
	}
	return t.Steps()
}

// MarshalJSON writes the steps.
func (r Reasons) MarshalJSON() ([]byte, error) { return json.Marshal(r.Steps()) }

// Equal reports whether both have the same steps.
func (r Reasons) Equal(q Reasons) bool { return sameJSON(r, q) }

func sameJSON(a, b json.Marshaler) bool {
	x, err := a.MarshalJSON()
	y, err2 := b.MarshalJSON()
	return err == nil && err2 == nil && bytes.Equal(x, y)
}
