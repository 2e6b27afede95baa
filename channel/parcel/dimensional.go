package parcel

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Dimensional is how a carrier converts the volume of a parcel to a mass: length × width ×
// height ÷ divisor. It charges for that mass if it is greater than the weight. 50 x 40 x 10 cm
// with a divisor of 5000 cm³ to the kg is 4 kg. A divisor belongs to its units and is not
// converted: 5000 cm³ to the kg is 138.4 in³ to the lb and not 139.
type Dimensional struct {
	// Divisor is how many cubes of Length weigh one of Mass: 5000, of cm, to kg.
	Divisor quoin.Factor `json:"divisor" need:"yes" range:"(0,"`
	Length  quoin.Unit   `json:"length" need:"yes"` // sides are taken in it
	Mass    quoin.Unit   `json:"mass" need:"yes"`
	// Sides says how each side is rounded to a whole Length before they are
	// multiplied: as_measured, also when empty, up, or nearest.
	Sides SideRounding `json:"sides,omitempty"`
	// Increment is what the dimensional mass is rounded up to a multiple of,
	// such as 0.5 kg or 1 lb; where it is left out, nothing is rounded. The mass
	// on the scales is not rounded, since the steps of the tariff do that.
	Increment quoin.Quantity `json:"increment,omitzero" range:"(0," dim:"mass"`
	// From is the least volume that is treated so, of the sides as measured;
	// all are where it is left out.
	From quoin.Quantity `json:"from,omitzero" range:"(0," dim:"volume"`
}

// SideRounding is how a side is rounded before a volume is made of it.
type SideRounding string

const (
	AsMeasured   SideRounding = "as_measured" // not at all; also when empty
	WholeUp      SideRounding = "up"          // up to a whole unit
	WholeNearest SideRounding = "nearest"     // to the nearest whole unit, halves up, to 1 at least
)

// UnmarshalText reads as_measured, up or nearest. The error is a Problem.
func (m *SideRounding) UnmarshalText(text []byte) error {
	return form.SetWord(m, text, AsMeasured, WholeUp, WholeNearest)
}

// Billable returns the mass that is charged for, in grams: the greater of the weight and, from
// the least volume on, the dimensional mass. Quotients have 34 digits; sides and result are
// rounded as the fields say. Without a Dimensional it is the weight. The error is Problems,
// with paths outside, mass and dimensional, if sides, mass or fields are not valid.
func (d *Dimensional) Billable(outside Sides, mass quoin.Quantity) (quoin.Quantity, error) {
	k := form.Check(Parcel{Outside: outside, Mass: mass})
	if d != nil {
		at := form.In("dimensional")
		k.AddAll(at, form.Check(*d).All())
		d.check(k, at)
	}
	if err := k.All().Err(); err != nil {
		return quoin.Quantity{}, err
	}
	return quoin.Unit("g").Times(d.billable(outside, grams(mass))), nil
}

func (d *Dimensional) billable(outside Sides, mass quoin.Factor) quoin.Factor {
	if d == nil || !d.From.IsZero() && volume(outside).Cmp(d.From.Number().Times(d.From.Unit().Size())) < 0 {
		return mass
	}
	return greater(mass, d.weight(outside))
}

// volume returns length × width × height in ml.
func volume(s Sides) quoin.Factor {
	return mm(s.Length).Times(mm(s.Width)).Times(mm(s.Height)).Over(quoin.FactorOf(1000))
}

// weight is the dimensional mass in grams.
func (d *Dimensional) weight(s Sides) quoin.Factor {
	return d.heavy(d.side(mm(s.Length)).Times(d.side(mm(s.Width))), mm(s.Height))
}

// heavy is the dimensional mass of a floor, in squares, and a height in mm.
func (d *Dimensional) heavy(floor, height quoin.Factor) quoin.Factor {
	cubes := floor.Times(d.side(height))
	weight := cubes.Over(d.Divisor).Times(d.Mass.Size())
	if d.Increment.IsZero() {
		return weight
	}
	return weight.Over(grams(d.Increment)).Round(0, quoin.Up).Times(grams(d.Increment))
}

// side is a side in mm in the unit of Length, rounded as Sides says.
func (d *Dimensional) side(mm quoin.Factor) quoin.Factor {
	side := mm.Over(d.Length.Size())
	switch d.Sides {
	case WholeUp:
		return side.Round(0, quoin.Up)
	case WholeNearest:
		return greater(quoin.FactorOf(1), side.Round(0, quoin.HalfUp))
	}
	return side
}
