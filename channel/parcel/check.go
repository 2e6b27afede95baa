package parcel

import (
	"strconv"
	"strings"

	"example.com/quoin"
)

// Check returns every fault of the plan at once, as Problems, or nil.
func (pl Plan) Check() error {
	var c checker
	c.plan(pl)
	return c.err()
}

// Check returns every fault of the packing at once, as Problems, or nil.
func (p Packing) Check() error {
	var c checker
	c.packing("", p)
	return c.err()
}

// Check returns every fault of the tariff at once, as Problems, or nil.
func (t Tariff) Check() error {
	var c checker
	c.tariff("", t)
	return c.err()
}

// Check returns every fault of the load at once, as Problems, or nil.
func (l Load) Check() error {
	var c checker
	c.load("", l)
	return c.err()
}

// checker collects faults.
type checker struct{ faults quoin.Problems }

func (c *checker) err() error { return c.faults.Err() }

func (c *checker) add(code quoin.Code, at, found, wanted string) {
	c.faults = append(c.faults, fault(code, strings.Trim(at, "."), found, wanted))
}

// quantity checks one that may be left out; need one that may not. Least is
// the least sign that it may have.
func (c *checker) quantity(at string, q quoin.Quantity, dimension string, least int) {
	if !q.IsZero() {
		c.need(at, q, dimension, least)
	}
}

func (c *checker) need(at string, q quoin.Quantity, dimension string, least int) {
	wanted := "a " + dimension + " above zero"
	if least == 0 {
		wanted = "a " + dimension + " of zero or more"
	}
	switch {
	case q.IsZero():
		c.add(BadMeasure, at, "nothing", wanted)
	case q.Unit().Dimension() != dimension || quoin.Unit(dimension) == q.Unit():
		c.add(quoin.UnitMismatch, at, quoin.Quoted(q.String()), wanted)
	case q.Sign() < least:
		c.add(BadMeasure, at, q.String(), wanted)
	}
}

func (c *checker) plan(pl Plan) {
	seen := make(map[string]bool)
	for i, p := range pl.Packings {
		at := entry("packings", i)
		c.packing(at, p)
		if seen[p.ID] {
			c.add(RepeatedID, at+".id", quoin.Quoted(p.ID), "a name that no other packing has")
		}
		seen[p.ID] = true
	}
	c.tariff("tariff.", pl.Tariff)
}

func (c *checker) packing(at string, p Packing) {
	at = inside(at)
	switch {
	case p.Tube.IsZero() && p.Inside.IsZero():
		c.add(BadMeasure, at+"inside", "nothing", "the largest sheet that lies in it, or the inside length of a tube")
	case !p.Tube.IsZero() && !p.Inside.IsZero():
		c.add(RivalInside, at+"tube", p.Tube.String()+" beside "+p.Inside.String(), "one of tube and inside")
	case !p.Tube.IsZero() && !p.Depth.IsZero():
		c.add(StrayDepth, at+"depth", p.Depth.String()+" of a tube", "how many rolled prints it holds, and no depth")
	}
	c.quantity(at+"tube", p.Tube, "length", 1)
	c.quantity(at+"depth", p.Depth, "length", 1)
	if p.Holds < 1 || p.Holds > 100_000 {
		c.add(BadCount, at+"holds", strconv.FormatInt(p.Holds, 10), "from 1 to 100000 prints")
	}
	c.sides(at+"outside", p.Outside)
	c.quantity(at+"grows", p.Grows, "length", 0)
	c.need(at+"mass", p.Mass, "mass", 0)
}

func (c *checker) sides(at string, s Sides) {
	at = inside(at)
	c.need(at+"length", s.Length, "length", 1)
	c.need(at+"width", s.Width, "length", 1)
	c.need(at+"height", s.Height, "length", 1)
}

func (c *checker) load(at string, l Load) {
	at = inside(at)
	if l.Sheet.IsZero() {
		c.add(BadMeasure, at+"sheet", "nothing", "the size of a print")
	}
	c.quantity(at+"thickness", l.Thickness, "length", 0)
	c.need(at+"mass", l.Mass, "mass", 0)
	if !l.Board.IsZero() {
		c.need(at+"board.mass", l.Board.Mass, "mass", 0)
		c.quantity(at+"board.thickness", l.Board.Thickness, "length", 0)
	}
}

func (c *checker) parcel(at string, p Parcel) {
	at = inside(at)
	c.sides(at+"outside", p.Outside)
	c.need(at+"mass", p.Mass, "mass", 0)
}

func (c *checker) tariff(at string, t Tariff) {
	c.dimensional(at+"dimensional.", t.Dimensional)
	if len(t.Zones) == 0 {
		c.add(UnknownZone, at+"zones", "nothing", "a zone with its prices")
	}
	seen := make(map[string]bool)
	for i, z := range t.Zones {
		zone := at + entry("zones", i) + "."
		if seen[z.ID] {
			c.add(RepeatedID, zone+"id", quoin.Quoted(z.ID), "a name that no other zone has")
		}
		seen[z.ID] = true
		if len(z.Steps) == 0 {
			c.add(NoStep, zone+"steps", "no steps", "the prices of the zone")
		}
		for j, s := range z.Steps {
			c.step(zone+entry("steps", j)+".", s)
		}
	}
}

func (c *checker) step(at string, s Step) {
	c.need(at+"mass", s.Mass, "mass", 1)
	c.quantity(at+"longest_side", s.LongestSide, "length", 1)
	c.quantity(at+"length_and_girth", s.Girth, "length", 1)
	if s.Within != nil {
		c.sides(at+"within", *s.Within)
	}
	if s.Price.Sign() < 0 {
		c.add(BadPrice, at+"price", s.Price.String(), "a price of zero or more")
	}
	if more, given := s.Additional.Get(); given && more.Sign() < 0 {
		c.add(BadPrice, at+"additional", more.String(), "a price of zero or more")
	}
}

func (c *checker) dimensional(at string, d *Dimensional) {
	if d == nil {
		return
	}
	if d.Divisor.Sign() <= 0 {
		c.add(BadDivisor, at+"divisor", d.Divisor.String(), "a divisor above zero, such as 5000")
	}
	c.unit(at+"length", d.Length, "length", "cm")
	c.unit(at+"mass", d.Mass, "mass", "kg")
	if d.Sides != "" {
		if _, err := ParseMeasured(string(d.Sides)); err != nil {
			c.faults = append(c.faults, located(err, strings.Trim(at+"sides", ".")))
		}
	}
	c.quantity(at+"increment", d.Increment, "mass", 1)
	c.quantity(at+"from", d.From, "volume", 1)
}

func (c *checker) unit(at string, u quoin.Unit, dimension, such string) {
	if u.Dimension() != dimension || string(u) == dimension {
		c.add(quoin.UnitMismatch, at, quoin.Quoted(string(u)), "a unit of "+dimension+", such as "+such)
	}
}

// zone returns the place of a zone in the tariff.
func (c *checker) zone(t Tariff, id string) int {
	names := make([]string, len(t.Zones))
	for i, z := range t.Zones {
		if z.ID == id {
			return i
		}
		names[i] = z.ID
	}
	if len(names) == 0 {
		return -1 // a fault of the tariff, which says so itself
	}
	p := fault(UnknownZone, "zone", quoin.Quoted(id), "one of "+listed(names))
	p.Near = quoin.Near(id, names)
	c.faults = append(c.faults, p)
	return -1
}

func (c *checker) count(at string, n int64) {
	if n < 1 || n > MostPrints {
		c.add(BadCount, at, strconv.FormatInt(n, 10), "from 1 to "+strconv.Itoa(MostPrints))
	}
}

func entry(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// inside is the beginning of the path of a field of what stands at a path.
func inside(at string) string {
	if at == "" || strings.HasSuffix(at, ".") {
		return at
	}
	return at + "."
}

// located is the Problem of an error, found at a path.
func located(err error, at string) quoin.Problem {
	p, _ := err.(quoin.Problem)
	p.Path = at
	return p
}
