package parcel

import (
	"fmt"

	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (d Dimensional) String() string { return form.String(d) }

// String lists the fields that are given.
func (p Places) String() string { return form.String(p) }

// String lists the fields that are given.
func (c Alternative) String() string { return form.String(c) }

// String lists the fields that are given.
func (p Packing) String() string { return form.String(p) }

// String lists the fields that are given.
func (s Sides) String() string { return form.String(s) }

// String lists the fields that are given.
func (l Load) String() string { return form.String(l) }

// String lists the fields that are given.
func (b Board) String() string { return form.String(b) }

// String lists the fields that are given.
func (p Parcel) String() string { return form.String(p) }

// String lists the fields that are given.
func (pl ShippingTerms) String() string { return form.String(pl) }

// String lists the fields that are given.
func (s Shipment) String() string { return form.String(s) }

// String lists the fields that are given.
func (o PackingNotTaken) String() string { return form.String(o) }

// String lists the fields that are given.
func (t Tariff) String() string { return form.String(t) }

// String lists the fields that are given.
func (z Zone) String() string { return form.String(z) }

// String lists the fields that are given.
func (s PriceBand) String() string { return form.String(s) }

// String lists the fields that are given.
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
