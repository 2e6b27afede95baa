package parcel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Tariff is a carrier's price list.
type Tariff struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Dimensional is how volume counts as mass; it does not where it is left
	// out.
	Dimensional *Dimensional `json:"dimensional,omitempty"`
	Zones       []Zone       `json:"zones" need:"yes" most:"100"`
}

// Zone is a destination of parcels, with its prices.
type Zone struct {
	ID    string      `json:"id" need:"yes"`
	Name  string      `json:"name,omitempty"`
	Steps []PriceBand `json:"steps" need:"yes" most:"200"`
}

// PriceBand is a price, and the parcels that it applies to. Bands may stand in any order: the
// cheapest one that takes a parcel counts.
type PriceBand struct {
	Name string `json:"name,omitempty"`
	// Mass is the greatest mass that it takes, this one included.
	Mass quoin.Quantity `json:"mass" need:"yes" range:"(0," dim:"mass"`
	// LongestSide, Girth and Within are the largest parcel that it takes: by its
	// longest side, by length and girth together (the longest side and twice the
	// two others), and by the box that it goes into, whichever way round.
	LongestSide    quoin.Quantity `json:"longest_side,omitzero" range:"(0," dim:"length"`
	LengthAndGirth quoin.Quantity `json:"length_and_girth,omitzero" range:"(0," dim:"length"`
	Within         *Sides         `json:"within,omitempty"`
	// Classes is how stiff a packing it takes; any where the list is empty.
	Classes []string `json:"classes,omitempty" most:"20"`
	// Price is that of one parcel, or of the first of several; Additional that
	// of each further one in the same shipment that goes by this step, whatever the
	// first went by, Price where it is left out.
	Price      quoin.Amount                 `json:"price" need:"yes" range:"[0,"`
	Additional quoin.Optional[quoin.Amount] `json:"additional,omitzero" range:"[0,"`
}

// Postage is what a carrier charges for parcels that are all alike.
type Postage struct {
	Zone     int            `json:"zone"`     // its place in the tariff, counted from 0
	Step     int            `json:"step"`     // its place in the zone, counted from 0
	Billable quoin.Quantity `json:"billable"` // of one parcel, in grams
	Price    quoin.Amount   `json:"price"`    // of all
}

// Price returns what so many parcels, all alike, cost to a zone, by the cheapest step that
// takes them: first + (parcels − 1) × additional, not rounded. Among equal steps the first is
// taken. The error is Problems: the zone is unknown, no step takes the parcel, the number is
// not 1 to MostPrints, or the tariff or the parcel is faulty.
func (t Tariff) Price(id string, p Parcel, parcels int64) (Postage, error) {
	k := form.Check(t)
	t.check(k, nil)
	k.AddAll(form.In("parcel"), form.Check(p).All())
	count(k, "parcels", parcels)
	z := zone(k, t, id)
	if err := k.All().Err(); err != nil {
		return Postage{}, err
	}
	w := t.weigh(p)
	out := Postage{Zone: z, Step: -1, Billable: quoin.Unit("g").Times(w.grams)}
	for i, s := range t.Zones[z].Steps {
		price := s.Price.Add(s.more().Times(quoin.FactorOf(parcels - 1)))
		if s.obstacle(w) == nothing && (out.Step < 0 || price.Cmp(out.Price) < 0) {
			out.Step, out.Price = i, price
		}
	}
	if out.Step < 0 {
		return Postage{}, quoin.Problems{t.Zones[z].refusal(w)}
	}
	return out, nil
}

// more is what a further parcel costs.
func (s PriceBand) more() quoin.Amount { return s.Additional.Or(s.Price) }

// weighed is a parcel on the counter.
type weighed struct {
	sides [3]quoin.Factor // in mm, the longest first
	grams quoin.Factor    // that are charged for
	class string
}

func (t Tariff) weigh(p Parcel) weighed {
	return weighed{p.Outside.sorted(), t.Dimensional.billable(p.Outside, grams(p.Mass)), p.Class}
}

// sorted returns the sides in mm, the longest first.
func (s Sides) sorted() [3]quoin.Factor {
	out := [3]quoin.Factor{mm(s.Length), mm(s.Width), mm(s.Height)}
	slices.SortFunc(out[:], func(a, b quoin.Factor) int { return b.Cmp(a) })
	return out
}

// around is length and girth.
func around(sides [3]quoin.Factor) quoin.Factor {
	return sides[0].Add(sides[1].Add(sides[2]).Times(quoin.FactorOf(2)))
}

// obstacle is why a step does not take a parcel, in the order in which that is
// looked at.
type obstacle int

const (
	nothing obstacle = iota
	byClass
	byLongest
	byGirth
	byBox
	byMass
)

// obstacle returns the first reason why the step does not take a parcel.
func (s PriceBand) obstacle(w weighed) obstacle {
	switch {
	case len(s.Classes) > 0 && !slices.Contains(s.Classes, w.class):
		return byClass
	case !s.LongestSide.IsZero() && w.sides[0].Cmp(mm(s.LongestSide)) > 0:
		return byLongest
	case !s.LengthAndGirth.IsZero() && around(w.sides).Cmp(mm(s.LengthAndGirth)) > 0:
		return byGirth
	case s.Within != nil && !within(w.sides, s.Within.sorted()):
		return byBox
	case w.grams.Cmp(grams(s.Mass)) > 0:
		return byMass
	}
	return nothing
}

func within(sides, box [3]quoin.Factor) bool {
	for i := range sides {
		if sides[i].Cmp(box[i]) > 0 {
			return false
		}
	}
	return true
}
