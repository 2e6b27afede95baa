package cost

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns everything that is wrong with the supply by itself, at once: a missing price,
// numbers out of range, a discount above price, freight and duty together. The error is
// quoin.Problems, with paths as in a document.
func (s Supply) Check() error {
	k := form.Check(s)
	if len(k.Problems) == 0 && s.Offer == nil && s.Stock == nil && s.Yearly == nil {
		_, err := s.UnitCost()
		k.AddAll(nil, err)
	}
	return k.All().Err()
}

// UnitCosts returns the landed unit cost of every supply by its id. The error is
// quoin.Problems, all at once: what Check finds in each supply, under supplies[i]; an id that
// is given twice; and an offer or a stock, whose price package buy computes.
func UnitCosts(supplies []Supply) (map[string]UnitCost, error) {
	var k form.Collector
	costs, first := make(map[string]UnitCost, len(supplies)), make(map[string]int, len(supplies))
	for i, s := range supplies {
		at := form.In("supplies").At(i)
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

// Names answers which names the lines of a bill may use. Only packages of this module need it.
type Names interface {
	// Supply returns the unit that a supply is bought by, empty where that is not known;
	// false where there is no such supply.
	Supply(id string) (quoin.Unit, bool)
	// Stage reports whether there is a stage.
	Stage(id string) bool
	// Unknown reports what stands at a path, and is in neither.
	Unknown(at *form.Path, list, id string)
}

// CheckIn adds contradictions in the bill, which stands at a path, to the problems found so
// far: in what each line is counted by, in what it names, and in its quantity, unless that is
// computed. Only packages of this module need it.
func (b Bill) CheckIn(found *form.Collector, at *form.Path, run Run, names Names) {
	for i := range b {
		l := &b[i]
		if err := l.Driven(run); err != nil && !found.Under(at.At(i).Field("shared_by")) && !found.Under(at.At(i).Field("per")) {
			found.AddAll(at.At(i), err)
		}
		if l.Supply != "" {
			if unit, ok := names.Supply(l.Supply); ok {
				l.quantityIn(found, at, i, unit)
			} else {
				names.Unknown(at.At(i).Field("supply"), "supplies", l.Supply)
			}
		}
		if l.Stage != "" && !names.Stage(l.Stage) {
			names.Unknown(at.At(i).Field("stage"), "stages", l.Stage)
		}
	}
}

// quantityIn checks that line i of a bill has a quantity, in a unit in which its supply can
// be bought.
func (l *BillLine) quantityIn(found *form.Collector, bill *form.Path, i int, unit quoin.Unit) {
	if l.Quantity.IsZero() && !l.Follows() {
		found.Missing(bill.At(i).Field("quantity"), "quantity")
	}
	if l.Quantity.IsZero() || unit == "" {
		return
	}
	_, err := l.Quantity.In(unit)
	if err == nil {
		return
	}
	if at := bill.At(i).Field(l.quantityField()); !found.Under(at) {
		p := err.(quoin.Problem)
		p.Remedy = fmt.Sprintf("%q is bought by the %s", l.Supply, unit) + prose.Behind(": ", p.Remedy)
		found.Add(at, p)
	}
}

// quantityField is the field that says how much the line takes: quantity, or what it is worked out
// from.
func (l *BillLine) quantityField() string {
	switch {
	case l.Cut != nil:
		return "cut"
	case l.Ink != nil:
		return "ink"
	case l.Moulding != nil:
		return "moulding"
	case l.WidthPlusHeight != nil:
		return "width_plus_height"
	case l.Area != "":
		return "area"
	}
	return "quantity"
}
