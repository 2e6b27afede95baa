package cost

import (
	"encoding/json"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// BillLine is one line of a bill of materials: a supply and how much of it.
type BillLine struct {
	// Id of the supply.
	Supply string `json:"supply" need:"yes"`
	// How much of it, in a unit that converts to the one it is bought in.
	Quantity      quoin.Quantity              `json:"quantity,omitzero" need:"yes" range:"[0," or:"cut ink moulding width_plus_height area"`
	QuantityRange quoin.Range[quoin.Quantity] `json:"quantity_range,omitzero" dear:"high"`
	// In place of quantity: what is cut out of a sheet or a roll.
	Cut *cut.Cut `json:"cut,omitempty"`
	// In place of quantity: the ink of an image.
	Ink *ink.Use `json:"ink,omitempty"`
	// In place of quantity: the moulding around a glass.
	Moulding *frame.Moulding `json:"moulding,omitempty"`
	// In place of quantity: a size in united inches.
	WidthPlusHeight *frame.United `json:"width_plus_height,omitempty" was:"united"`
	// In place of quantity: the area of this size of the product, in square metres.
	Area cut.Part `json:"area,omitempty"`
	// Id of the stage at which the supply enters, and is lost with; where it is not given, the
	// supply is used once for each good piece.
	Stage string `json:"stage,omitempty"`
	// What the line is counted by: each print (also where it is not given), each order, each
	// print run, each batch of a run, each design, listing or period.
	Per Driver `json:"per,omitempty"`
	// How many prints share the line: the size of the batch, or the prints that a design, a
	// listing or a period is expected to sell.
	SharedBy      quoin.Factor              `json:"shared_by,omitzero" was:"over" range:"(0,"`
	SharedByRange quoin.Range[quoin.Factor] `json:"shared_by_range,omitzero" was:"over_range" dear:"low"`
}

// Bill is a bill of materials: the lines of a product, or of a packing list.
type Bill []BillLine

// Charge is what one line costs for one good item, or for one order: unit cost × number × times
// ÷ over. A scan of 12.00 that 100 prints share is 12.00 × 1 × 1 ÷ 100 = 0.12.
type Charge struct {
	Line   *BillLine // on the bill; none is a line of nothing, for each item
	Unit   UnitCost
	Number quoin.Factor // the line's quantity in the supply's unit
	Times  quoin.Factor // how often it is used: starts of its stage, batches of a run, else 1
	Over   quoin.Factor // the prints that share it, 1 for lines per item and order
	Amount quoin.Amount
}

// Starts returns how many pieces enter a stage for one good piece at the end. It returns false
// for an unknown stage. The method waste.Route.Starts is one.
type Starts func(stage string) (quoin.Factor, bool)

// Of returns the charges of lines that are working time of this kind.
func (l Labour) Of(charges []Charge) []Charge {
	var out []Charge
	for _, c := range charges {
		if c.Unit.Labour == l {
			out = append(out, c)
		}
	}
	return out
}

// Charges returns what each line costs, in order. A line with a stage is multiplied by the
// starts of that stage. A line per run is divided by the good prints of the run. Nothing is
// rounded.
//
// The error is Problems, all at once, with paths that begin with lines: an unknown supply or
// stage, a quantity of another dimension, or a line without what it is counted by.
func (b Bill) Charges(costs map[string]UnitCost, starts Starts, run Run) ([]Charge, error) {
	out := make([]Charge, len(b))
	var k form.Collector
	for i := range b {
		c, found := b[i].charge(costs, starts, run)
		if len(found) > 0 {
			k.AddAll(form.In("lines").At(i), found)
		}
		out[i] = c
	}
	if err := k.All().Err(); err != nil {
		return nil, err
	}
	return out, nil
}

func (l *BillLine) charge(costs map[string]UnitCost, starts Starts, run Run) (Charge, quoin.Problems) {
	var found quoin.Problems
	n, known := quoin.FactorOf(1), true
	if l.Stage != "" {
		if known = starts != nil; known {
			n, known = starts(l.Stage)
		}
	}
	if !known {
		found = append(found, unknown("stage", l.Stage))
	}
	unit, bought := costs[l.Supply]
	in, err := l.Quantity.In(unit.Unit)
	if !bought {
		found = append(found, unknown("supply", l.Supply))
	} else if p, ok := err.(quoin.Problem); ok {
		found = append(found, p)
	}
	if ps, ok := l.Driven(run).(quoin.Problems); ok {
		found = append(found, ps...)
	}
	if len(found) > 0 {
		return Charge{}, found
	}
	times, over := l.Spread(n, run)
	return Charge{l, unit, in.Number(), times, over, unit.Amount.Times(in.Number()).Times(times).Over(over)}, nil
}

func unknown(what, id string) quoin.Problem {
	return quoin.Problem{Code: quoin.UnknownID, Severity: quoin.Fault, Path: what, Found: prose.Quoted(id), Wanted: "the id of a " + what}
}

// line is the charge's line, or one of nothing.
func (c *Charge) line() *BillLine {
	if c.Line == nil {
		return new(BillLine)
	}
	return c.Line
}

// PerItem adds up the charges of one item: all except those per order.
func PerItem(charges []Charge) quoin.Amount { return sum(charges, false) }

// PerOrder adds up the charges per order.
func PerOrder(charges []Charge) quoin.Amount { return sum(charges, true) }

func sum(charges []Charge, perOrder bool) quoin.Amount {
	var sum quoin.Amount
	for _, c := range charges {
		if c.line().ForOrder() == perOrder {
			sum = sum.Add(c.Amount)
		}
	}
	return sum
}

// ForOrder reports whether the line is counted once for each order.
func (l *BillLine) ForOrder() bool { return l.Per == EachOrder }

// UsedByTest reports whether a test print uses the line. First is the id of the first stage.
func (l *BillLine) UsedByTest(first string) bool {
	return l.Stage == first && l.Per.orItem() == EachItem
}

// MarshalJSON writes the lines as a list, and an empty list if there are none.
func (b Bill) MarshalJSON() ([]byte, error) {
	if b == nil {
		return []byte("[]"), nil
	}
	return json.Marshal([]BillLine(b))
}
