package machine

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the machine.
func (m Machine) String() string { return form.String(m) }

// String writes what is given of the part.
func (p Part) String() string { return form.String(p) }

// String writes what is given of the cost.
func (c Cost) String() string { return form.String(c) }
