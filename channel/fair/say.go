package fair

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (g PrintOperands) String() string { return form.String(g) }

// String lists the fields that are given.
func (x OutcomeOperands) String() string { return form.String(x) }

// String lists the fields that are given.
func (f Fair) String() string { return form.String(f) }

// String lists the fields that are given.
func (c Cost) String() string { return form.String(c) }

// String lists the fields that are given.
func (s Share) String() string { return form.String(s) }

// String lists the fields that are given.
func (p Print) String() string { return form.String(p) }

// String lists the fields that are given.
func (o Outcome) String() string { return form.String(o) }

// String lists the fields that are given.
func (t InThree) String() string { return form.String(t) }

// String lists the fields that are given.
func (a Average) String() string { return form.String(a) }

// String lists the fields that are given.
func (v Volume) String() string { return form.String(v) }

// String lists the fields that are given.
func (c Count) String() string { return form.String(c) }
