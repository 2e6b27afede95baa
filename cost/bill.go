package cost

import (
	"encoding/json"
	"fmt"

	"example.com/quoin"
)

// Line is one line of a bill of materials: so much of a supply.
type Line struct {
	Supply   string         `json:"supply" need:"yes"`
	Quantity quoin.Quantity `json:"quantity" need:"yes" range:"[0,"`
	// Stage is the stage of making that the supply enters, and is lost with;
	// a line without one is used once for each good piece.
	Stage string `json:"stage,omitempty"`
	// Per is item, also when empty, or order, for what a parcel takes once.
	Per quoin.Per `json:"per,omitempty"`
}

// Bill is a bill of materials, for a product or for the packing of it.
type Bill []Line

// Charge is what one line costs for one good item or one order: unit cost ×
// number × starts.
type Charge struct {
	Line   Line
	Unit   UnitCost
	Number quoin.Factor // the line's quantity in the supply's unit
	Starts quoin.Factor // pieces that enter the line's stage for a good one
	Amount quoin.Amount
}

// Starts tells how many pieces enter a stage for each good one at the end;
// false for an unknown stage. A waste.Route's method Starts is one.
type Starts func(stage string) (quoin.Factor, bool)

// UnknownReference is the code of a line that names no known supply or stage.
const UnknownReference quoin.Code = "unknown_reference"

// Charges returns what each line costs, in order. A line with a stage is
// multiplied by its starts. It errs, with a Problem, on the first line whose
// supply or stage is not known or whose quantity is of another dimension.
func (b Bill) Charges(costs map[string]UnitCost, starts Starts) ([]Charge, error) {
	out := make([]Charge, len(b))
	for i, line := range b {
		c, err := line.charge(costs, starts)
		if err != nil {
			return nil, within(fmt.Sprintf("lines[%d]", i), err)
		}
		out[i] = c
	}
	return out, nil
}

func (l Line) charge(costs map[string]UnitCost, starts Starts) (Charge, error) {
	unit, ok := costs[l.Supply]
	if !ok {
		return Charge{}, unknown("supply", l.Supply)
	}
	n := quoin.FactorOf(1)
	if l.Stage != "" {
		if ok = starts != nil; ok {
			n, ok = starts(l.Stage)
		}
		if !ok {
			return Charge{}, unknown("stage", l.Stage)
		}
	}
	in, err := l.Quantity.In(unit.Unit)
	if err != nil {
		return Charge{}, err
	}
	return Charge{l, unit, in.Number(), n, unit.Amount.Times(in.Number()).Times(n)}, nil
}

// within says in what a problem stands.
func within(at string, err error) error {
	p, ok := err.(quoin.Problem)
	if !ok {
		return err
	}
	if p.Path != "" {
		at += "." + p.Path
	}
	p.Path = at
	return p
}

func unknown(what, id string) error {
	return quoin.Problem{
		Code: UnknownReference, Severity: quoin.Fault, Path: what,
		Found: id, Wanted: "the id of a " + what,
	}
}

// Sum adds up the charges that are counted by per.
func Sum(charges []Charge, per quoin.Per) quoin.Amount {
	var sum quoin.Amount
	for _, c := range charges {
		if c.Line.countedBy() == per {
			sum = sum.Add(c.Amount)
		}
	}
	return sum
}

func (l Line) countedBy() quoin.Per {
	if l.Per == "" {
		return quoin.PerItem
	}
	return l.Per
}

// MarshalJSON writes the lines as a list, also where there are none.
func (b Bill) MarshalJSON() ([]byte, error) {
	if b == nil {
		return []byte("[]"), nil
	}
	return json.Marshal([]Line(b))
}
