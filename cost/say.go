package cost

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the line.
func (l BillLine) String() string { return form.String(l) }

// String writes what is given of the charge.
func (c Charge) String() string { return form.String(c) }

// String writes what is given of the run.
func (r Run) String() string { return form.String(r) }

// String writes what is given of the supply.
func (s Supply) String() string { return form.String(s) }

// String writes what is given of the unit cost.
func (u UnitCost) String() string { return form.String(u) }

// String writes what is given of the sizes.
func (s Sizes) String() string { return form.String(s) }

// String writes what is given of the worked.
func (w DerivedQuantity) String() string { return form.String(w) }
