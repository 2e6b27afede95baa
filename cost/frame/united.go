package frame

import (
	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// UnitedInch is the unit of what is bought by the united inch.
const UnitedInch quoin.Unit = "united_in"

// United is a size counted in united inches: width + height.
type United struct {
	Size quoin.Size `json:"size,omitzero" need:"yes" or:"of"`
	// Of names a size of the product in place of Size.
	Of cut.Part `json:"of,omitempty"`
	// WholeUp says that parts of an inch count as whole ones.
	WholeUp bool `json:"whole_up,omitzero"`
}

// Inches returns width + height in united inches, rounded up to a whole number if WholeUp is
// set. 280 x 360 mm are 25.2, and 26 with WholeUp. The error is Problems, without a size.
func (u United) Inches() (quoin.Quantity, error) {
	if u.Size.IsZero() {
		return quoin.Quantity{}, quoin.Problems{{Code: quoin.MissingField, Severity: quoin.Fault, Path: "size", Found: "nothing", Wanted: "the field size or of"}}
	}
	sum := mm(u.Size.Width()).Add(mm(u.Size.Height())).Over(quoin.MustFactor("25.4"))
	if u.WholeUp {
		sum = sum.Round(0, quoin.Up)
	}
	return UnitedInch.Times(sum), nil
}
