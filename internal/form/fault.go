package form

import "example.com/quoin"

// In is the path of a field of the whole.
func In(name string) *Path { return (*Path)(nil).Field(name) }

// Fault adds a fault at a path, unless something is said of what stands there.
func (c *Collector) Fault(at *Path, code quoin.Code, found, wanted, remedy string) {
	if !c.Under(at) {
		c.Add(at, quoin.Problem{Code: code, Found: found, Wanted: wanted, Remedy: remedy})
	}
}
