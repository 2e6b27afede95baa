package parcel

import "example.com/quoin"

// Plan is the ways of packing that a shop has, and the tariff it sends by.
type Plan struct {
	Packings []Packing `json:"packings" need:"yes" most:"100"`
	Tariff   Tariff    `json:"tariff" need:"yes"`
}

// Shipment is prints on their way: parcels of one packing, all filled alike
// but for the last, which takes what is left.
type Shipment struct {
	Packing string `json:"packing"`
	Index   int    `json:"index"` // of the packing in the plan, counted from 0
	Prints  int64  `json:"prints"`
	Parcels int64  `json:"parcels"`
	Each    int64  `json:"each"` // prints in each parcel but the last
	Last    int64  `json:"last"` // prints in the last one, at most Each
	// Mass and Billable are those of a full parcel, on the scales and as charged
	// for, in grams.
	Mass     quoin.Quantity `json:"mass"`
	Billable quoin.Quantity `json:"billable"`
	// Zone and Step are the places of the price in the tariff, counted from 0;
	// LastStep that of the last parcel, which is Step where it goes with the
	// others.
	Zone     int `json:"zone"`
	Step     int `json:"step"`
	LastStep int `json:"last_step"`
	// Postage and Packed are what carrier and packings cost for all parcels,
	// Total is both.
	Postage quoin.Amount `json:"postage"`
	PerPack quoin.Amount `json:"per_pack"` // one packing
	Packed  quoin.Amount `json:"packed"`
	Total   quoin.Amount `json:"total"`
	// Others is every other packing of the plan, and why it is not taken.
	Others []Other `json:"others,omitempty"`
}

// Other is a packing that was not taken: because the prints do not go into it,
// no step of the tariff takes it, or, as a Warning, it costs more, or as much
// and stands further back.
type Other struct {
	Packing string        `json:"packing"`
	Reason  quoin.Problem `json:"reason"`
}

// Cheapest returns the shipment for which postage and packing together cost
// least, where cost says what one packing costs; nothing where cost is nil. Of
// those that cost the same the first packing is taken, and in it the first
// step.
//
// Where the prints go into no single parcel, or several light ones are cheaper,
// they are sent in parcels of one packing. Each but the last is as full as the
// step of the tariff that they all go by lets it be; the first costs the price
// of that step and each further one its additional price. A last parcel with
// fewer prints is a further parcel too: it costs the additional price of the step
// that it falls into itself, the cheapest that takes it. Of all shipments so put
// together it is the cheapest. Nothing is rounded.
//
// It errs, with Problems: every fault of the plan and the load; an unknown
// zone; a number of prints not from 1 to MostPrints; or one reason for each
// packing where none can be sent.
func (pl Plan) Cheapest(zone string, l Load, prints int64, cost func(packing string) quoin.Amount) (Shipment, error) {
	d, err := pl.open(zone, l, prints, cost)
	if err != nil {
		return Shipment{}, err
	}
	return d.cheapest(prints), nil
}

// counter is a plan opened for one zone and load.
type counter struct {
	plan   Plan
	load   Load
	zone   int
	routes []route // one for each packing
}

// route is a packing with how many prints in it each step takes.
type route struct {
	most   []int64
	cost   quoin.Amount
	reason quoin.Problem // why no parcel can be sent; no code where one can
}

// open checks everything and finds what each packing can carry by each step.
func (pl Plan) open(zone string, l Load, prints int64, cost func(string) quoin.Amount) (counter, error) {
	var c checker
	c.plan(pl)
	c.load("load", l)
	c.count("prints", prints)
	d := counter{plan: pl, load: l, zone: c.zone(pl.Tariff, zone)}
	if err := c.err(); err != nil {
		return counter{}, err
	}
	var reasons quoin.Problems
	for i := range pl.Packings {
		r := d.route(i)
		if cost != nil {
			r.cost = cost(pl.Packings[i].ID)
		}
		d.routes = append(d.routes, r)
		if r.reason.Code != "" {
			reasons = append(reasons, r.reason)
		}
	}
	if len(pl.Packings) == 0 {
		reasons = append(reasons, fault(NothingFits, "packings", "no packing", "a packing that takes "+l.Sheet.String()))
	}
	if len(reasons) == max(len(pl.Packings), 1) {
		return counter{}, reasons
	}
	return d, nil
}

func (d counter) route(i int) route {
	p := d.plan.Packings[i]
	room := p.Room(d.load)
	if room == 0 {
		return route{reason: p.unfit(d.load, entry("packings", i))}
	}
	z := d.plan.Tariff.Zones[d.zone]
	r := route{most: make([]int64, len(z.Steps))}
	var any bool
	for s, step := range z.Steps {
		r.most[s] = most(room, func(n int64) bool { return step.obstacle(d.plan.Tariff.weigh(p.Parcel(d.load, n))) == nothing })
		any = any || r.most[s] > 0
	}
	if !any {
		r.reason = z.refusal(d.plan.Tariff.weigh(p.Parcel(d.load, 1)))
		r.reason.Path = entry("packings", i)
	}
	return r
}

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
func (d counter) cheapest(prints int64) Shipment {
	best := Shipment{Index: -1}
	all := make([]Shipment, len(d.routes))
	for i, r := range d.routes {
		if r.reason.Code != "" {
			continue
		}
		all[i] = d.fill(i, prints)
		if best.Index < 0 || all[i].Total.Cmp(best.Total) < 0 {
			best = all[i]
		}
	}
	for i, r := range d.routes {
		if i == best.Index {
			continue
		}
		if r.reason.Code == "" {
			r.reason = fault(Dearer, entry("packings", i), "costs "+all[i].Total.String()+" in all", "less than "+best.Total.String())
			r.reason.Severity = quoin.Warning
		}
		best.Others = append(best.Others, Other{d.plan.Packings[i].ID, r.reason})
	}
	p := d.plan.Packings[best.Index].Parcel(d.load, best.Each)
	best.Mass, best.Billable = p.Mass, quoin.Unit("g").Times(d.plan.Tariff.weigh(p).grams)
	return best
}

// fill returns the best shipment in one packing. For the full parcels only as
// many prints as a step just takes need be looked at: fewer cost the same each
// and leave more for the others.
func (d counter) fill(i int, prints int64) Shipment {
	r, best := d.routes[i], Shipment{Index: -1}
	for step, room := range r.most {
		if room == 0 {
			continue
		}
		s := d.split(i, step, min(room, prints), prints)
		if best.Index < 0 || s.Total.Cmp(best.Total) < 0 {
			best = s
		}
	}
	return best
}

// split sends prints in parcels of so many each.
func (d counter) split(i, step int, each, prints int64) Shipment {
	r, steps := d.routes[i], d.plan.Tariff.Zones[d.zone].Steps
	full, rest := prints/each, prints%each
	s := Shipment{
		Packing: d.plan.Packings[i].ID, Index: i, Prints: prints, Parcels: full, Each: each, Last: each,
		Zone: d.zone, Step: step, LastStep: step, PerPack: r.cost,
		Postage: steps[step].Price.Add(steps[step].more().Times(quoin.FactorOf(full - 1))),
	}
	if rest > 0 {
		s.Parcels, s.Last = full+1, rest
		last := steps[step].more()
		for j := range steps {
			if j != step && r.most[j] >= rest && steps[j].more().Cmp(last) < 0 {
				s.LastStep, last = j, steps[j].more()
			}
		}
		s.Postage = s.Postage.Add(last)
	}
	s.Packed = r.cost.Times(quoin.FactorOf(s.Parcels))
	s.Total = s.Postage.Add(s.Packed)
	return s
}
