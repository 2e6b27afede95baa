package source

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (s Stretch) String() string { return form.String(s) }

// String lists the fields that are given.
func (d Demand) String() string { return form.String(d) }

// String lists the fields that are given.
func (c Case) String() string { return form.String(c) }

// String lists the fields that are given.
func (h RunAtHome) String() string { return form.String(h) }

// String lists the fields that are given.
func (q Quote) String() string { return form.String(q) }
