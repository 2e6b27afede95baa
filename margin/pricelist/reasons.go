package pricelist

import (
	"bytes"
	"encoding/json"

	"example.com/quoin"
)

// Reasons is the steps that a figure comes from, computed when they are asked
// for.
type Reasons struct{ steps func() []quoin.Step }

// because is the reasons that are put on a trail.
func because(explain func(*quoin.Trail)) Reasons {
	return Reasons{func() []quoin.Step {
		t := quoin.NewTrail(24)
		explain(t)
		return t.Steps()
	}}
}

// Steps returns the steps; none of the zero value.
func (r Reasons) Steps() []quoin.Step {
	if r.steps == nil {
		return []quoin.Step{}
	}
	return r.steps()
}

// IsZero reports whether there are none to be asked for.
func (r Reasons) IsZero() bool { return r.steps == nil }

// MarshalJSON writes the steps.
func (r Reasons) MarshalJSON() ([]byte, error) { return json.Marshal(r.Steps()) }

// Equal reports whether both have the same steps.
func (r Reasons) Equal(q Reasons) bool { return sameJSON(r, q) }

func sameJSON(a, b json.Marshaler) bool {
	x, err := a.MarshalJSON()
	y, err2 := b.MarshalJSON()
	return err == nil && err2 == nil && bytes.Equal(x, y)
}
