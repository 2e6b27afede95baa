package parcel

import (
	"fmt"

	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the dimensional.
func (d Dimensional) String() string { return form.String(d) }

// String writes what is given of the places.
func (p Places) String() string { return form.String(p) }

// String writes what is given of the change.
func (c Alternative) String() string { return form.String(c) }

// String writes what is given of the packing.
func (p Packing) String() string { return form.String(p) }

// String writes what is given of the sides.
func (s Sides) String() string { return form.String(s) }

// String writes what is given of the load.
func (l Load) String() string { return form.String(l) }

// String writes what is given of the board.
func (b Board) String() string { return form.String(b) }

// String writes what is given of the parcel.
func (p Parcel) String() string { return form.String(p) }

// String writes what is given of the plan.
func (p ShippingTerms) String() string { return form.String(p) }

// String writes what is given of the shipment.
func (s Shipment) String() string { return form.String(s) }

// String writes what is given of the other.
func (o PackingNotTaken) String() string { return form.String(o) }

// String writes what is given of the tariff.
func (t Tariff) String() string { return form.String(t) }

// String writes what is given of the zone.
func (z Zone) String() string { return form.String(z) }

// String writes what is given of the step.
func (s PriceBand) String() string { return form.String(s) }

// String writes what is given of the postage.
func (p Postage) String() string { return form.String(p) }

// String says by what the post sends.
func (p *CompiledTerms) String() string {
	return fmt.Sprintf("post by the tariff %s, in %d packings", prose.Quoted(p.plan.Tariff.ID), len(p.plan.Packings))
}

// String says where the load goes.
func (d PackedLoad) String() string {
	if d.post == nil {
		return "no load"
	}
	return fmt.Sprintf("load to %s, in %d packings", prose.Quoted(d.post.plan.Tariff.Zones[d.zone].ID), len(d.routes))
}
