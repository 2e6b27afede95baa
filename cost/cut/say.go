package cut

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (c Cut) String() string { return form.String(c) }

// String lists the fields that are given.
func (r Roll) String() string { return form.String(r) }

// String lists the fields that are given.
func (r Rows) String() string { return form.String(r) }

// String lists the fields that are given.
func (r RollCut) String() string { return form.String(r) }

// String lists the fields that are given.
func (s Sheet) String() string { return form.String(s) }

// String lists the fields that are given.
func (p SheetCut) String() string { return form.String(p) }

// String lists the fields that are given.
func (b Block) String() string { return form.String(b) }

// String lists the fields that are given.
func (s Stick) String() string { return form.String(s) }

// String lists the fields that are given.
func (r Rail) String() string { return form.String(r) }

// String lists the fields that are given.
func (s Saw) String() string { return form.String(s) }

// String lists the fields that are given.
func (s Sticks) String() string { return form.String(s) }
