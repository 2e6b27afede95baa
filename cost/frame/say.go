package frame

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (m Mat) String() string { return form.String(m) }

// String lists the fields that are given.
func (m Moulding) String() string { return form.String(m) }

// String lists the fields that are given.
func (u United) String() string { return form.String(u) }
