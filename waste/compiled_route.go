package waste

import "example.com/quoin"

// CompiledRoute is a route with what follows from it, worked out once for all that goes
// through it.
type CompiledRoute struct {
	route     Route
	starts    map[string]quoin.Factor
	salvage   []Salvage
	recovered quoin.Amount
}

// Course works a route out.
func (r Route) Compile() *CompiledRoute {
	c := &CompiledRoute{route: r, starts: make(map[string]quoin.Factor, len(r)), salvage: r.Salvage(), recovered: r.Recovered()}
	for i, s := range r {
		if _, twice := c.starts[s.ID]; !twice {
			c.starts[s.ID] = r.startsAt(i)
		}
	}
	return c
}

// First is Route.First, and Starts, Salvage and Recovered are those of the route.
func (c *CompiledRoute) First() string { return c.route.First() }

// Starts is Route.Starts.
func (c *CompiledRoute) Starts(stage string) (quoin.Factor, bool) {
	n, ok := c.starts[stage]
	return n, ok
}

// Salvage is Route.Salvage. It is not to be changed.
func (c *CompiledRoute) Salvage() []Salvage { return c.salvage }

// Recovered is Route.Recovered.
func (c *CompiledRoute) Recovered() quoin.Amount { return c.recovered }
