package parcel

import (
	"cmp"

	"example.com/quoin"
)

// Codes of the steps that explain what sending prints costs.
const (
	StepMass        quoin.StepCode = "parcel_mass"         // empty + prints × mass of one + board, in g
	StepHeight      quoin.StepCode = "parcel_height"       // height + prints × what each adds, in mm
	StepSide        quoin.StepCode = "parcel_side"         // a side in the unit of the divisor, rounded as the tariff says
	StepLeastSide   quoin.StepCode = "parcel_least_side"   // 1 where a side was rounded to none
	StepDimensional quoin.StepCode = "dimensional_mass"    // sides ÷ divisor, in the unit of the divisor
	StepInGrams     quoin.StepCode = "dimensional_grams"   // the same in g
	StepIncrements  quoin.StepCode = "dimensional_counts"  // ÷ increment, rounded up
	StepRaised      quoin.StepCode = "dimensional_raised"  // increments × increment, in g
	StepVolume      quoin.StepCode = "parcel_volume"       // in ml
	StepTooSmall    quoin.StepCode = "volume_not_counted"  // the dimensional mass of a parcel below the least volume
	StepCounted     quoin.StepCode = "dimensional_counted" // the dimensional mass from the least volume on, else 0
	StepBillable    quoin.StepCode = "billable_mass"       // the greater of the mass on the scales and the dimensional one
	StepPostage     quoin.StepCode = "postage"             // first + further parcels × additional + the last
	StepPacked      quoin.StepCode = "packing_cost"        // parcels × one packing
	StepSent        quoin.StepCode = "cost_of_sending"     // postage and packing
)

// Places are the paths of the parts of a shipment in a document: the packing that was taken,
// the load and the tariff.
type Places struct{ Packing, Load, Tariff quoin.Path }

// Explain computes what a shipment that Cheapest returned costs, step by step: the mass that a
// full parcel is charged for, in grams, and that of a last parcel at another step; then postage
// and packing. The price of a step is given at the step. Which step it is depends on mass and
// sides, and is not a sum. It panics on a shipment of other terms.
func (pl ShippingTerms) Explain(t *quoin.Trail, at Places, l Load, s Shipment) quoin.Operand {
	postage := pl.ExplainPostage(t, at, l, s)
	packed := t.Product(StepPacked, at.Packing, t.Given("one packing", at.Packing, s.PerPack.Figure()), quoin.FactorOf(s.Parcels).Named("parcels"))
	return t.Sum(StepSent, at.Packing, postage, packed)
}

// ExplainPostage computes the postage of a shipment that Cheapest returned, as Explain does.
func (pl ShippingTerms) ExplainPostage(t *quoin.Trail, at Places, l Load, s Shipment) quoin.Operand {
	pl.has(s)
	e := explainer{t.On(pl.Packings[s.Index].name()), at, pl.Packings[s.Index], l, pl.Tariff.Dimensional}
	e.billable(s.Each)
	if s.LastStep != s.Step {
		e.billable(s.Last)
	}
	return pl.postage(t, at.Tariff, s)
}

// has panics where the plan has not the packing, zone or steps of a shipment.
func (pl ShippingTerms) has(s Shipment) {
	zones := pl.Tariff.Zones
	if s.Index >= len(pl.Packings) || s.Zone >= len(zones) || max(s.Step, s.LastStep) >= len(zones[s.Zone].Steps) {
		panic("quoin: a shipment of another plan: Plan.Cheapest makes one")
	}
}

func (p Packing) name() string { return cmp.Or(p.Name, p.ID) }

func (pl ShippingTerms) postage(t *quoin.Trail, tariff quoin.Path, s Shipment) quoin.Operand {
	zone := pl.Tariff.Zones[s.Zone]
	at := func(i int) quoin.Path { return tariff.Sub("zones", s.Zone).Sub("steps", i) }
	moreAt := func(i int) quoin.Path {
		if zone.Steps[i].Additional.IsGiven() {
			return at(i).Field("additional")
		}
		return at(i).Field("price")
	}
	once := quoin.FactorOf(1).Named("once")
	parts := []quoin.Operand{quoin.Given("price", at(s.Step).Field("price"), zone.Steps[s.Step].Price.Figure()), once}
	further := s.Parcels - 1
	if s.LastStep != s.Step {
		further--
	}
	if further > 0 {
		parts = append(parts, quoin.Given("each further parcel", moreAt(s.Step), zone.Steps[s.Step].more().Figure()), quoin.FactorOf(further).Named("further parcels"))
	}
	if s.LastStep != s.Step {
		parts = append(parts, quoin.Given("last parcel", moreAt(s.LastStep), zone.Steps[s.LastStep].more().Figure()), once)
	}
	return t.Weighted(StepPostage, at(s.Step), parts...)
}

type explainer struct {
	*quoin.Trail
	at Places
	p  Packing
	l  Load
	d  *Dimensional
}

func (e explainer) billable(prints int64) quoin.Operand {
	n, once := quoin.FactorOf(prints).Named("prints"), quoin.FactorOf(1).Named("once")
	parts := []quoin.Operand{e.mass("empty packing", e.at.Packing.Field("mass"), e.p.Mass), once, e.mass("one print", e.at.Load.Field("mass"), e.l.Mass), n}
	if !e.l.Board.IsZero() {
		parts = append(parts, e.mass("board", e.at.Load.Inside("board").Field("mass"), e.l.Board.Mass), once)
	}
	mass := e.Weighted(StepMass, e.at.Packing, parts...)
	if e.d == nil {
		return mass
	}
	return e.Greatest(StepBillable, e.at.Tariff, mass, e.dimensional(n, once))
}

func (e explainer) mass(name string, at quoin.Path, q quoin.Quantity) quoin.Operand {
	return e.Given(name, at, quoin.Unit("g").Times(grams(q)).Figure())
}

func (e explainer) length(name string, at quoin.Path, q quoin.Quantity) quoin.Operand {
	return e.Given(name, at, quoin.Unit("mm").Times(mm(q)).Figure())
}

// dimensional follows the methods of Dimensional.
func (e explainer) dimensional(prints, once quoin.Operand) quoin.Operand {
	at, rules := e.at.Packing.Inside("outside"), e.at.Tariff.Inside("dimensional")
	length, width := e.length("length", at.Field("length"), e.p.Outside.Length), e.length("width", at.Field("width"), e.p.Outside.Width)
	height := e.length("height", at.Field("height"), e.p.Outside.Height)
	if !e.p.Grows.IsZero() {
		height = e.Weighted(StepHeight, at, height, once, e.length("grows", e.at.Packing.Field("grows"), e.p.Grows), prints)
	}
	mass := e.Quotient(StepDimensional, rules, e.side(length), e.side(width), e.side(height), e.Given("divisor", rules.Field("divisor"), e.d.Divisor.Figure()))
	mass = e.Product(StepInGrams, rules, mass, e.d.Mass.Size().Named("g in 1 "+string(e.d.Mass)))
	if !e.d.Increment.IsZero() {
		increment := e.mass("increment", rules.Field("increment"), e.d.Increment)
		counts := e.Rounded(0, quoin.Up, e.Quotient(StepIncrements, rules, mass, increment))
		mass = e.Product(StepRaised, rules, counts, increment)
	}
	if e.d.From.IsZero() {
		return mass
	}
	volume := e.Quotient(StepVolume, at, length, width, height, quoin.FactorOf(1000).Named("mm3 in 1 ml"))
	from := e.Given("from", rules.Field("from"), quoin.Unit("ml").Times(e.d.From.Number().Times(e.d.From.Unit().Size())).Figure())
	small := e.Below(StepTooSmall, rules, mass, volume, from)
	return e.Sum(StepCounted, rules, mass, small.Minus())
}

func (e explainer) side(o quoin.Operand) quoin.Operand {
	at := e.at.Packing.Inside("outside")
	side := e.Quotient(StepSide, at, o, e.d.Length.Size().Named("mm in 1 "+string(e.d.Length)))
	switch e.d.Sides {
	case WholeUp:
		return e.Rounded(0, quoin.Up, side)
	case WholeNearest:
		return e.Greatest(StepLeastSide, at, quoin.FactorOf(1).Named("at least"), e.Rounded(0, quoin.HalfUp, side))
	}
	return side
}
