package parcel

import (
	"slices"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Check returns every fault at once, as Problems, or nil: values that the fields do not take,
// two packings or zones with one id, and what Packing.Check and Tariff.Check find.
func (pl ShippingTerms) Check() error {
	k := form.Check(pl)
	ids := make(map[string]bool)
	for i, p := range pl.Packings {
		at := form.In("packings").At(i)
		p.check(k, at)
		once(k, at, p.ID, ids)
	}
	pl.Tariff.check(k, form.In("tariff"))
	return k.All().Err()
}

// Check returns every fault of the packing at once, as Problems, or nil: values that its fields
// do not take, and a tube with a depth.
func (p Packing) Check() error {
	k := form.Check(p)
	p.check(k, nil)
	return k.All().Err()
}

// Check returns every fault of the tariff at once, as Problems, or nil: values that its fields
// do not take, two zones with one id, a zone without prices, and units that are not of length
// or mass.
func (t Tariff) Check() error {
	k := form.Check(t)
	t.check(k, nil)
	return k.All().Err()
}

// Check returns every fault of the load at once, as Problems, or nil.
func (l Load) Check() error { return form.Check(l).All().Err() }

func (p Packing) check(k *form.Collector, at *form.Path) {
	if !p.Tube.IsZero() && !p.Depth.IsZero() {
		k.Add(at.Field("depth"), fault(StrayDepth, "", p.Depth.String()+" of a tube", "how many rolled prints it holds, and no depth"))
	}
}

func (t Tariff) check(k *form.Collector, at *form.Path) {
	if t.Dimensional != nil {
		t.Dimensional.check(k, at.Field("dimensional"))
	}
	list := at.Field("zones")
	if t.Zones != nil && len(t.Zones) == 0 {
		k.Add(list, fault(quoin.EmptyList, "", "no zones", "a zone with its prices"))
	}
	ids := make(map[string]bool)
	for i, z := range t.Zones {
		once(k, list.At(i), z.ID, ids)
		if z.Steps != nil && len(z.Steps) == 0 {
			k.Add(list.At(i).Field("steps"), fault(quoin.EmptyList, "", "no steps", "the prices of the zone"))
		}
	}
}

func (d *Dimensional) check(k *form.Collector, at *form.Path) {
	unit := func(name string, u quoin.Unit, dimension, such string) {
		if u.Dimension() != dimension || string(u) == dimension {
			k.Fault(at.Field(name), quoin.UnitMismatch, prose.Quoted(string(u)), "a unit of "+dimension+", such as "+such, "")
		}
	}
	unit("length", d.Length, "length", "cm")
	unit("mass", d.Mass, "mass", "kg")
}

// once reports an id that another has had.
func once(k *form.Collector, at *form.Path, id string, seen map[string]bool) {
	if seen[id] && id != "" {
		k.Add(at.Field("id"), fault(quoin.DuplicateID, "", prose.Quoted(id)+" again", "an id that no other has"))
	}
	seen[id] = true
}

// zone returns the place of a zone in the tariff.
func zone(k *form.Collector, t Tariff, id string) int {
	if i := slices.IndexFunc(t.Zones, func(z Zone) bool { return z.ID == id }); i >= 0 || len(t.Zones) == 0 {
		return i // that there are no zones is a fault of the tariff, which says so itself
	}
	names := make([]string, len(t.Zones))
	for i, z := range t.Zones {
		names[i] = z.ID
	}
	p := fault(UnknownZone, "", prose.Quoted(id), "one of "+listed(names))
	p.Near = k.Near(id, names)
	k.Add(form.In("zone"), p)
	return -1
}

func count(k *form.Collector, name string, n int64) {
	if n < 1 || n > MostPrints {
		k.Add(form.In(name), fault(quoin.OutOfRange, "", strconv.FormatInt(n, 10), "a value of at least 1 and at most "+strconv.Itoa(MostPrints)))
	}
}

func entry(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }
