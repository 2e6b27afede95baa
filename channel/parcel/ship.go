package parcel

import (
	"cmp"
	"slices"
	"sort"
	"sync"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// ShippingTerms are the packings that a shop has, and the tariff that it uses.
type ShippingTerms struct {
	Packings []Packing `json:"packings" most:"100"`
	Tariff   Tariff    `json:"tariff" need:"yes"`
}

// Shipment is prints sent in parcels of one packing. All parcels hold the same number except
// for the last, which holds the rest.
type Shipment struct {
	// Id of the packing.
	Packing string `json:"packing"`
	// Its place among the packings of the product, counted from 0.
	Index int `json:"index"`
	// How many prints.
	Prints int64 `json:"prints"`
	// How many parcels.
	Parcels int64 `json:"parcels"`
	// Prints in each parcel but the last.
	Each int64 `json:"each"`
	// Prints in the last one, at most each.
	Last int64 `json:"last"`
	// What a full parcel weighs on the scales, in grams.
	Mass quoin.Quantity `json:"mass"`
	// The mass of a full parcel that is charged for, in grams.
	Billable quoin.Quantity `json:"billable"`
	// Place of the zone in the tariff, counted from 0.
	Zone int `json:"zone"`
	// Place of the step in the zone, counted from 0.
	Step int `json:"step"`
	// The same for the last parcel, which is that step where it goes with the others.
	LastStep int `json:"last_step"`
	// What the carrier takes for all parcels.
	Postage quoin.Amount `json:"postage"`
	// What one packing costs.
	PerPack quoin.Amount `json:"per_pack"`
	// What all of them cost.
	Packed quoin.Amount `json:"packed"`
	// Postage and packings together.
	Total quoin.Amount `json:"total"`
	// Every other packing, and why it is not taken.
	Others []PackingNotTaken `json:"others,omitempty"`
}

// PackingNotTaken is a packing that was not taken. The prints do not fit into it, no step of
// the tariff takes it, or, as a warning, it costs more, or costs as much and stands further
// back.
type PackingNotTaken struct {
	// Id of the packing.
	Packing string `json:"packing"`
	// Why it cannot be taken, or, as a warning, that it costs more.
	Reason quoin.Problem `json:"reason"`
}

// Cheapest returns the shipment with the lowest cost of postage and packing. Cost returns what
// one packing costs; nil means 0. Among equals the first packing is taken, and in it the first
// step.
//
// If the prints do not fit into a single parcel, or several light ones are cheaper, they are
// sent in parcels of one packing. Each parcel but the last is as full as the step that they all
// use allows. The first costs the price of that step, and each further one its additional
// price. A last parcel with fewer prints costs the additional price of its own step: the
// cheapest one that takes it. A parcel of 3 costs 2.83; a parcel of 1 costs 2.30, or 1.26 as a
// further parcel: 4 prints cost 4.09. Of all such shipments the cheapest is returned. Nothing
// is rounded.
//
// The error is Problems: every fault of the terms and the load; an unknown zone; a number of
// prints that is not 1 to MostPrints; or, if nothing can be sent, one reason for each packing.
func (pl ShippingTerms) Cheapest(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (Shipment, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return Shipment{}, err
	}
	return d.cheapest(prints), nil
}

// PackedLoad is a load on its way to a zone. How many prints each packing holds at each step is
// known for any number of prints.
type PackedLoad struct {
	post   *CompiledTerms
	load   Load
	zone   int
	routes []route // one for each packing
}

// route is a packing with how many prints in it each step takes.
type route struct {
	packing int // its place in the plan
	most    []int64
	cost    quoin.Amount
	units   int64         // of the cost, rounded down
	exact   bool          // whether those are all of it
	reason  quoin.Problem // why no parcel can be sent; no code where one can
	last    *lasts
}

// open checks everything and finds what each packing can carry by each step.
func (pl ShippingTerms) open(to string, l Load, prints int64, cost func(string) quoin.Amount) (PackedLoad, error) {
	var k form.Collector
	k.AddAll(nil, pl.Check())
	k.AddAll(form.In("load"), l.Check())
	count(&k, "prints", prints)
	z := zone(&k, pl.Tariff, to)
	if err := k.All().Err(); err != nil {
		return PackedLoad{}, err
	}
	packings := make([]int, len(pl.Packings))
	var costs []quoin.Amount
	for i, p := range pl.Packings {
		packings[i] = i
		if cost != nil {
			costs = append(costs, cost(p.ID))
		}
	}
	return newPost(pl).load(z, l, packings, costs)
}

func (d PackedLoad) countable(prints int64) error {
	var k form.Collector
	count(&k, "prints", prints)
	if d.post == nil {
		k.Add(form.In("packings"), noPacking("a packing"))
	}
	return k.All().Err()
}

// Cheapest returns the shipment of so many prints, as ShippingTerms.Cheapest does. It errs if
// the number is not 1 to MostPrints, and on the zero PackedLoad.
func (d PackedLoad) Cheapest(prints int64) (Shipment, error) {
	if err := d.countable(prints); err != nil {
		return Shipment{}, err
	}
	return d.cheapest(prints), nil
}

// packing is the i-th of the packings that the load may go into.
func (d PackedLoad) packing(i int) Packing { return d.post.plan.Packings[d.routes[i].packing] }

// unfit says why not one print goes in.
func (p Packing) unfit(l Load, at string) quoin.Problem {
	switch {
	case p.takes(l.Sheet):
		return fault(NothingFits, at, "a print of "+l.Thickness.String()+" with its board", "at most "+p.Depth.String()+" deep")
	case p.Tube.IsZero():
		return fault(NothingFits, at, "a sheet of "+l.Sheet.String(), "one within "+p.Inside.String())
	}
	return fault(NothingFits, at, "a sheet of "+l.Sheet.String(), "one with a side of at most "+p.Tube.String())
}

// cheapest returns the best shipment of all packings, with the reasons against
// the others.
func (d PackedLoad) cheapest(prints int64) Shipment {
	all, least := d.splits(prints)
	d.cost(&all[least])
	out := d.shipment(least, prints, all[least])
	for i, r := range d.routes {
		if i == least {
			continue
		}
		if r.reason.Code == "" {
			d.cost(&all[i])
			r.reason = fault(Dearer, entry("packings", i), "costs "+all[i].total.String()+" in all", "less than "+out.Total.String())
			r.reason.Severity = quoin.Warning
		}
		out.Others = append(out.Others, PackingNotTaken{d.packing(i).ID, r.reason})
	}
	p := d.packing(least).Parcel(d.load, out.Each)
	out.Mass, out.Billable = p.Mass, quoin.Unit("g").Times(d.post.plan.Tariff.weigh(p).grams)
	return out
}

// splits are the best shipments in each packing that takes the load, and which is cheapest.
func (d PackedLoad) splits(prints int64) (all []split, least int) {
	all, least = make([]split, len(d.routes)), -1
	for i, r := range d.routes {
		if r.reason.Code != "" {
			continue
		}
		all[i] = d.best(i, prints)
		if least < 0 || d.less(&all[i], &all[least]) {
			least = i
		}
	}
	return all, least
}

// split is prints in parcels of so many each, and a last one with the rest.
type split struct {
	route               int
	step, lastStep      int
	each, rest, parcels int64
	low, high           int64 // between which the total is, in units; none where prices are not whole ones
	postage, total      quoin.Amount
	costed              bool // whether those two are known
}

// best returns the best split in one packing. For the full parcels only as
// many prints as a step just takes need be looked at: fewer cost the same each
// and leave more for the others.
func (d PackedLoad) best(i int, prints int64) split {
	r, z := &d.routes[i], &d.post.zones[d.zone]
	best, found := split{}, false
	for step, room := range r.most {
		if room == 0 {
			continue
		}
		s := split{route: i, step: step, lastStep: step, each: min(room, prints)}
		s.parcels, s.rest = prints/s.each, prints%s.each
		if s.rest > 0 {
			s.parcels++
			s.lastStep = r.last.step(s.rest, step, z, r.most)
		}
		z.weigh(&s, r)
		if !found || d.less(&s, &best) {
			best, found = s, true
		}
	}
	return best
}

// less reports whether a costs less than b: by units, or by decimals where those
// cannot tell.
func (d PackedLoad) less(a, b *split) bool {
	if a.low != none && b.low != none {
		switch {
		case a.low >= b.high:
			return false
		case a.high < b.low:
			return true
		}
	}
	d.cost(a)
	d.cost(b)
	return a.total.Cmp(b.total) < 0
}

// cost adds up what a split costs.
func (d PackedLoad) cost(s *split) {
	if s.costed {
		return
	}
	steps := d.post.plan.Tariff.Zones[d.zone].Steps
	full := s.parcels
	if s.rest > 0 {
		full--
	}
	s.postage = steps[s.step].Price.Add(steps[s.step].more().Times(quoin.FactorOf(full - 1)))
	if s.rest > 0 {
		s.postage = s.postage.Add(steps[s.lastStep].more())
	}
	s.total, s.costed = s.postage.Add(d.routes[s.route].cost.Times(quoin.FactorOf(s.parcels))), true
}

// weigh finds between which units the total of a split is.
func (z *measured) weigh(s *split, r *route) {
	price, more, last := z.price[s.step], z.more[s.step], int64(0)
	full := s.parcels
	if s.rest > 0 {
		last = z.more[s.lastStep]
		full--
	}
	if s.low = none; price == none || more == none || last == none || r.units == none {
		return
	}
	s.low = price + more*(full-1) + last + r.units*s.parcels
	if s.high = s.low; !r.exact {
		s.high += s.parcels
	}
}

// lasts is which step a last parcel goes by: from the one that takes most prints
// down, the cheapest of those so far.
type lasts struct {
	once sync.Once
	most []int64
	at   []int
}

func (l *lasts) sort(z *measured, most []int64) {
	steps := make([]int, len(most))
	for i := range steps {
		steps[i] = i
	}
	slices.SortFunc(steps, func(a, b int) int { return cmp.Compare(most[b], most[a]) })
	l.most, l.at = make([]int64, len(most)), steps
	for i, step := range steps {
		l.most[i] = most[step]
		if i > 0 && z.rank[steps[i-1]] < z.rank[step] {
			steps[i] = steps[i-1]
		}
	}
}

// step is the step of a last parcel with so many prints, behind parcels that go by
// one: that one, where no other is cheaper.
func (l *lasts) step(rest int64, own int, z *measured, most []int64) int {
	l.once.Do(func() { l.sort(z, most) })
	i := sort.Search(len(l.most), func(i int) bool { return l.most[i] < rest })
	if i == 0 || z.moreRank[l.at[i-1]] >= z.moreRank[own] {
		return own
	}
	return l.at[i-1]
}

// shipment writes a split out.
func (d PackedLoad) shipment(i int, prints int64, s split) Shipment {
	r := d.routes[i]
	out := Shipment{
		Packing: d.packing(i).ID, Index: i, Prints: prints, Parcels: s.parcels, Each: s.each, Last: s.each,
		Zone: d.zone, Step: s.step, LastStep: s.lastStep, PerPack: r.cost, Postage: s.postage,
		Packed: r.cost.Times(quoin.FactorOf(s.parcels)), Total: s.total,
	}
	if s.rest > 0 {
		out.Last = s.rest
	}
	return out
}
