package cost

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Yearly is a supply of which only a year is known: what was spent on it, and what was printed with
// it. 380.00 over 900 prints are 0.4222 a print; 380.00 over 66 m2 are 5.7576 a square metre. It
// holds all that the supply was used for in the year: prints, spoiled prints, cleaning, upkeep.
type Yearly struct {
	// What was spent in the year, in the seller's currency.
	Spent      quoin.Amount              `json:"spent" need:"yes" range:"[0,"`
	SpentRange quoin.Range[quoin.Amount] `json:"spent_range,omitzero" dear:"high"`
	// What was printed with it in the year, counted in prints or as an area: "900 prints", "66 m2".
	Printed      quoin.Quantity              `json:"printed" need:"yes" range:"(0,"`
	PrintedRange quoin.Range[quoin.Quantity] `json:"printed_range,omitzero" dear:"low"`
}

// StepArea is the code of the step that computes an area: width × height, in m2.
const StepArea quoin.StepCode = "area"

// HoldsUpkeep is the code of an ink line of a supply whose year holds the upkeep already.
const HoldsUpkeep quoin.Code = "year_holds_upkeep"

// area is the area of a size of the print, in square metres.
func (l BillLine) area(s Supply, sizes Sizes) (DerivedQuantity, error) {
	size := sizes.Of(l.Area)
	if size.IsZero() {
		return DerivedQuantity{}, quoin.Problems{{
			Code: UnknownSize, Severity: quoin.Fault, Path: "area", Found: "a product that does not give its " + string(l.Area), Wanted: "that size of the product",
		}}
	}
	area, err := size.Area().In("m2")
	return DerivedQuantity{Quantity: area, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
		from := sizes.At.Field(string(l.Area))
		width, _ := size.Width().In("mm")
		height, _ := size.Height().In("mm")
		return t.Quotient(StepArea, at, t.Given("width", from, width.Figure()), t.Given("height", from, height.Figure()), quoin.FactorOf(1_000_000).Named("mm2 in 1 m2"))
	}}, err
}

// String writes what is given of the year.
func (y Yearly) String() string { return form.String(y) }
