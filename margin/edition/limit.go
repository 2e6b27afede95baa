package edition

// Limit is a bound on the number of prints that the user wants to keep, such as the number up
// to which a tax counts them as originals. quoin has no limits of its own.
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

// Count returns how many prints of an edition the limit counts: the size, of all products if
// they are counted together, plus the proofs if they count. Numbers that are destroyed or kept
// count too, because the edition declares them.
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

// Within reports whether an edition keeps the limit: Count is at most AtMost.
func (l Limit) Within(e Edition) bool { return l.Count(e) <= l.AtMost }
