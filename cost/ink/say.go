package ink

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (j Job) String() string { return form.String(j) }

// String lists the fields that are given.
func (p Period) String() string { return form.String(p) }

// String lists the fields that are given.
func (u Use) String() string { return form.String(u) }

// String lists the fields that are given.
func (k Upkeep) String() string { return form.String(k) }
