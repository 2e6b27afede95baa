package cut

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the cut.
func (c Cut) String() string { return form.String(c) }

// String writes what is given of the roll.
func (r Roll) String() string { return form.String(r) }

// String writes what is given of the rows.
func (r Rows) String() string { return form.String(r) }

// String writes what is given of the run.
func (r RollCut) String() string { return form.String(r) }

// String writes what is given of the sheet.
func (s Sheet) String() string { return form.String(s) }

// String writes what is given of the plan.
func (p SheetCut) String() string { return form.String(p) }

// String writes what is given of the block.
func (b Block) String() string { return form.String(b) }

// String writes what is given of the stick.
func (s Stick) String() string { return form.String(s) }

// String writes what is given of the rail.
func (r Rail) String() string { return form.String(r) }

// String writes what is given of the saw.
func (s Saw) String() string { return form.String(s) }

// String writes what is given of the sticks.
func (s Sticks) String() string { return form.String(s) }
