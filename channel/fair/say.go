package fair

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the given.
func (g PrintOperands) String() string { return form.String(g) }

// String writes what is given of the explained.
func (e OutcomeOperands) String() string { return form.String(e) }

// String writes what is given of the fair.
func (f Fair) String() string { return form.String(f) }

// String writes what is given of the cost.
func (c Cost) String() string { return form.String(c) }

// String writes what is given of the share.
func (s Share) String() string { return form.String(s) }

// String writes what is given of the print.
func (p Print) String() string { return form.String(p) }

// String writes what is given of the outcome.
func (o Outcome) String() string { return form.String(o) }

// String writes what is given of the average.
func (a Average) String() string { return form.String(a) }

// String writes what is given of the volume.
func (v Volume) String() string { return form.String(v) }

// String writes what is given of the count.
func (c Count) String() string { return form.String(c) }
