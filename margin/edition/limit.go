package edition

// Limit is a bound on the number of prints that the user has found out to
// matter, such as up to how many count as originals for a tax, or from where on
// papers have to state the edition. No such figure is built in.
type Limit struct {
	// What people call it.
	Name string `json:"name" need:"yes"`
	// How many prints, 1 to 100000000.
	AtMost int64 `json:"at_most" need:"yes" range:"[1,100000000]"`
	// Whether artist's proofs count.
	Proofs bool `json:"proofs,omitzero"`
	// Whether the prints of all products are counted as one. Where one numbering runs over all
	// products it changes nothing.
	Together bool `json:"together,omitzero"`
	// Where the shop has it from.
	Source string `json:"source,omitempty"`
}

// Count returns how many prints of an edition a limit counts: the size, of all
// products where they are counted together, and the proofs where they are
// counted. Numbers that are destroyed or kept are counted: it goes by what the
// edition declares.
func (l Limit) Count(e Edition) int64 {
	n := e.size()
	if l.Proofs {
		n += e.proofs()
	}
	if l.Together {
		n *= int64(e.numberings())
	}
	return n
}

// Within reports whether an edition is within the limit: Count is at most
// AtMost.
func (l Limit) Within(e Edition) bool { return l.Count(e) <= l.AtMost }
