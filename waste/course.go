package waste

import "example.com/quoin"

// Course is a route with what follows from it, worked out once for all that goes
// through it.
type Course struct {
	route     Route
	starts    map[string]quoin.Factor
	salvage   []Salvage
	recovered quoin.Amount
}

// Course works a route out.
func (r Route) Course() *Course {
	c := &Course{route: r, starts: make(map[string]quoin.Factor, len(r)), salvage: r.Salvage(), recovered: r.Recovered()}
	for i, s := range r {
		if _, twice := c.starts[s.ID]; !twice {
			c.starts[s.ID] = r.startsAt(i)
		}
	}
	return c
}

// First is Route.First, and Starts, Salvage and Recovered are those of the route.
func (c *Course) First() string { return c.route.First() }

// Starts is Route.Starts.
func (c *Course) Starts(stage string) (quoin.Factor, bool) {
	n, ok := c.starts[stage]
	return n, ok
}

// Salvage is Route.Salvage. It is not to be changed.
func (c *Course) Salvage() []Salvage { return c.salvage }

// Recovered is Route.Recovered.
func (c *Course) Recovered() quoin.Amount { return c.recovered }
