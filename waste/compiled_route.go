package waste

import "example.com/quoin"

// CompiledRoute is a route with its starts and recoveries computed once, for all products that
// go through it.
type CompiledRoute struct {
	route     Route
	starts    map[string]quoin.Factor
	salvage   []Salvage
	recovered quoin.Amount
}

// Compile computes the starts and recoveries of the route.
func (r Route) Compile() *CompiledRoute {
	c := &CompiledRoute{route: r, starts: make(map[string]quoin.Factor, len(r)), salvage: r.Salvage(), recovered: r.Recovered()}
	for i, s := range r {
		if _, twice := c.starts[s.ID]; !twice {
			c.starts[s.ID] = r.startsAt(i)
		}
	}
	return c
}

// First returns Route.First.
func (c *CompiledRoute) First() string { return c.route.First() }

// Starts returns Route.Starts.
func (c *CompiledRoute) Starts(stage string) (quoin.Factor, bool) {
	n, ok := c.starts[stage]
	return n, ok
}

// Salvage is Route.Salvage. It is not to be changed.
func (c *CompiledRoute) Salvage() []Salvage { return c.salvage }

// Recovered is Route.Recovered.
func (c *CompiledRoute) Recovered() quoin.Amount { return c.recovered }
