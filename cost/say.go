package cost

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (l BillLine) String() string { return form.String(l) }

// String lists the fields that are given.
func (c Charge) String() string { return form.String(c) }

// String lists the fields that are given.
func (r Run) String() string { return form.String(r) }

// String lists the fields that are given.
func (s Supply) String() string { return form.String(s) }

// String lists the fields that are given.
func (u UnitCost) String() string { return form.String(u) }

// String lists the fields that are given.
func (s Sizes) String() string { return form.String(s) }

// String lists the fields that are given.
func (w DerivedQuantity) String() string { return form.String(w) }
