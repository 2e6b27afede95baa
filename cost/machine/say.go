package machine

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (m Machine) String() string { return form.String(m) }

// String lists the fields that are given.
func (p Part) String() string { return form.String(p) }

// String lists the fields that are given.
func (c Cost) String() string { return form.String(c) }
